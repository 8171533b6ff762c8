// SPDX-License-Identifier: MIT
#include "io/read/input_error.h"

#include <fmt/format.h>

#include <utility>

namespace linkwright {
namespace {

// The blanks that bring the caret under its column; tabs stay tabs.
std::string BlanksBefore(const Excerpt& excerpt) {
  std::string blanks;
  int characters = 0;
  for (const char c : excerpt.text) {
    const bool starts_character = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (!starts_character) continue;
    if (++characters >= excerpt.column) break;
    blanks += c == '\t' ? '\t' : ' ';
  }
  for (; characters < excerpt.column - 1; ++characters) blanks += ' ';
  return blanks;
}

std::string JoinErrors(const std::vector<InputError>& errors) {
  std::string text;
  for (const InputError& error : errors) text += FormatError(error);
  return text;
}

}  // namespace

InputErrors::InputErrors(std::vector<InputError> list)
    : std::runtime_error(JoinErrors(list)), errors(std::move(list)) {}

std::string ErrorText(const InputError& error) {
  return error.path.empty() ? error.message : fmt::format("{}: {}", error.path, error.message);
}

std::string FormatError(const InputError& error) {
  std::string text = error.line == 0 ? fmt::format("{}: {}\n", error.file, ErrorText(error))
                                     : fmt::format("{}:{}:{}: {}\n", error.file, error.line,
                                                   error.column, ErrorText(error));
  for (const Excerpt& excerpt : error.excerpts) {
    text +=
        fmt::format("{:>5} | {}\n      | {}^\n", excerpt.line, excerpt.text, BlanksBefore(excerpt));
  }
  return text;
}

std::string FormatErrors(const InputErrors& errors) { return JoinErrors(errors.errors); }

}  // namespace linkwright
