// SPDX-License-Identifier: MIT
// Text that comes from files and file names, made safe to show: a terminal obeys control
// characters, and marks of writing direction make a line read as what it is not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <string>
#include <string_view>

namespace linkwright {

// True of the first byte of a UTF-8 character.
inline bool StartsCharacter(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

// How many bytes the UTF-8 character at `at` has; 0 where there is no valid one (RFC 3629).
inline std::size_t CharacterLength(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  }
  const bool overlong = (first == 0xE0 && byte(1) < 0xA0) || (first == 0xF0 && byte(1) < 0x90);
  const bool no_character = (first == 0xED && byte(1) > 0x9F) || (first == 0xF4 && byte(1) > 0x8F);
  return overlong || no_character ? 0 : length;
}

// Controls (C0, DEL, C1), line separators, marks and overrides of direction, tags and the like that
// take no place of their own.
inline bool IsUnseen(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x61C || c == 0x200B || c == 0x200E ||
         c == 0x200F || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) ||
         c == 0xFEFF || (c >= 0xFFF9 && c <= 0xFFFB) || (c >= 0xE0000 && c <= 0xE007F);
}

// One character as it is shown: \x1b, \u202e, or itself; a byte that is no character as \x9b.
inline std::string ShownCharacter(std::string_view character) {
  char escape[16];
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  if (CharacterLength(character, 0) != character.size()) {
    std::string shown;
    for (std::size_t i = 0; i < character.size(); ++i) {
      std::snprintf(escape, sizeof escape, "\\x%02x", byte(i));
      shown += escape;
    }
    return shown;
  }
  std::uint32_t code = byte(0);
  if (character.size() > 1) code &= 0x7FU >> character.size();
  for (std::size_t i = 1; i < character.size(); ++i) code = (code << 6U) | (byte(i) & 0x3FU);
  if (!IsUnseen(code)) return std::string(character);
  std::snprintf(escape, sizeof escape, code < 0x80 ? "\\x%02x" : "\\u%04x", code);
  return escape;
}

// All of a text, with what would not be seen as an escape.
//   keep   characters below a blank that stay: "\n\t" for a text of several lines
inline std::string Shown(std::string_view text, std::string_view keep = {}) {
  std::string shown;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = CharacterLength(text, at);
    const std::string_view character = text.substr(at, length == 0 ? 1 : length);
    at += character.size();
    if (keep.find(character) != std::string_view::npos) {
      shown += character;
    } else {
      shown += ShownCharacter(character);
    }
  }
  return shown;
}

// 'text' on one line: what would not be seen as escapes, cut between characters after 60 bytes.
inline std::string Quoted(std::string_view text) {
  constexpr std::size_t kLongest = 60;  // leaves room for the message on one line
  std::size_t length = text.size() > kLongest ? kLongest : text.size();
  while (length > 0 && length < text.size() && !StartsCharacter(text[length])) --length;
  return "'" + Shown(text.substr(0, length)) + (length < text.size() ? "...'" : "'");
}

}  // namespace linkwright
