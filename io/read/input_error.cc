// SPDX-License-Identifier: MIT
#include "io/read/input_error.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "io/shown.h"

namespace linkwright {
namespace {

// The blanks that bring the caret under its column; tabs stay tabs, and what is shown as an escape
// takes its places.
std::string BlanksBefore(const Excerpt& excerpt) {
  std::string blanks;
  int characters = 0;
  const std::string& text = excerpt.text;
  for (std::size_t at = 0; at < text.size();) {
    if (++characters >= excerpt.column) break;
    const std::string character =
        text.substr(at, std::max<std::size_t>(CharacterLength(text, at), 1));
    at += character.size();
    const std::string shown = ShownCharacter(character);
    if (character == "\t") {
      blanks += '\t';
    } else {
      blanks += std::string(shown == character ? 1 : shown.size(), ' ');
    }
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
  const std::string file = Shown(error.place.file), message = Shown(ErrorText(error));
  const Place& at = error.place;
  std::string text = at.line == 0
                         ? fmt::format("{}: {}\n", file, message)
                         : fmt::format("{}:{}:{}: {}\n", file, at.line, at.column, message);
  for (const Excerpt& excerpt : error.excerpts) {
    text += fmt::format("{:>5} | {}\n      | {}^\n", excerpt.line, Shown(excerpt.text, "\t"),
                        BlanksBefore(excerpt));
  }
  return text;
}

}  // namespace linkwright
