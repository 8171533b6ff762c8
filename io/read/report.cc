// SPDX-License-Identifier: MIT
#include "io/read/report.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <string_view>
#include <tuple>
#include <utility>

#include "io/shown.h"

namespace linkwright {
namespace {

constexpr std::size_t kWidest = 160;      // characters of a line shown
constexpr std::size_t kBeforeCaret = 60;  // of them before the caret, where the line is cut

// The byte, counted from `begin`, where the character with this number (from 0) starts, or the end.
std::size_t ByteOf(const std::string& text, std::size_t begin, std::size_t character) {
  for (std::size_t at = begin; at < text.size(); ++at) {
    if (StartsCharacter(text[at]) && character-- == 0) return at;
  }
  return text.size();
}

std::ptrdiff_t OrderOf(const Report& report, const std::string& file) {
  const auto found = std::find_if(report.sources.begin(), report.sources.end(),
                                  [&](const SourceText& source) { return source.file == file; });
  return found - report.sources.begin();
}

// Whether a text begins with quotes that word processors make; YAML takes them for letters.
bool IsInCurlyQuotes(std::string_view text) {
  constexpr std::string_view kCurly[] = {"\u201c", "\u201d", "\u201e", "\u2018", "\u2019"};
  return std::any_of(std::begin(kCurly), std::end(kCurly),
                     [&](std::string_view quote) { return text.starts_with(quote); });
}

}  // namespace

Excerpt ExcerptAt(const Report& report, const Place& place) {
  const auto line = static_cast<std::size_t>(std::max(place.line, 1)) - 1;
  const auto column = static_cast<std::size_t>(std::max(place.column, 1)) - 1;
  for (const SourceText& source : report.sources) {
    if (source.file != place.file || line >= source.lines.size()) continue;
    const std::string& text = source.lines[line];
    const std::size_t cut =
        text.size() > kWidest && column > kBeforeCaret ? column - kBeforeCaret : 0;
    const std::size_t begin = ByteOf(text, 0, cut);
    const std::size_t end = ByteOf(text, begin, kWidest);
    return {place.line, place.column - static_cast<int>(cut), text.substr(begin, end - begin)};
  }
  return {place.line, place.column, ""};
}

void AddError(Report& report, const Place& place, std::string_view path, std::string message) {
  InputError error{place, std::string(path), std::move(message), {}};
  for (std::string* text : {&error.path, &error.message}) {
    for (char& c : *text) {
      if (c >= 0 && c < ' ') c = ' ';  // an error's first line is one line, whatever it quotes
    }
  }
  if (place.line > 0) {
    const Excerpt excerpt = ExcerptAt(report, place);
    const auto column = static_cast<std::size_t>(std::max(excerpt.column, 1)) - 1;
    const std::size_t at = ByteOf(excerpt.text, 0, column);
    if (IsInCurlyQuotes(std::string_view(excerpt.text).substr(at)) &&
        error.message.find("curly") == std::string::npos) {
      error.message += "; these are curly quotes: straight ones are wanted, or none";
    }
    error.excerpts.push_back(excerpt);
  }
  report.errors.push_back(std::move(error));
}

void AddError(Report& report, const Place& place, const Place& other, std::string_view path,
              std::string message) {
  AddError(report, place, path, std::move(message));
  std::vector<Excerpt>& excerpts = report.errors.back().excerpts;
  excerpts.push_back(ExcerptAt(report, other));
  if (other.line < place.line) std::reverse(excerpts.begin(), excerpts.end());
}

void ThrowIfAny(const Report& report) {
  if (report.errors.empty()) return;
  std::vector<InputError> errors = report.errors;
  std::stable_sort(errors.begin(), errors.end(), [&](const InputError& a, const InputError& b) {
    return std::tuple(OrderOf(report, a.place.file), a.place.line, a.place.column) <
           std::tuple(OrderOf(report, b.place.file), b.place.line, b.place.column);
  });
  throw InputErrors(std::move(errors));
}

}  // namespace linkwright
