// SPDX-License-Identifier: MIT
// The user's own words inside a message.
#pragma once

#include <string>
#include <string_view>

#include "io/shown.h"

namespace linkwright {

// 'text' on one line: what would not be seen as escapes, cut between characters after 60 bytes.
inline std::string Quoted(std::string_view text) {
  constexpr std::size_t kLongest = 60;  // leaves room for the message on one line
  std::size_t length = text.size() > kLongest ? kLongest : text.size();
  while (length > 0 && length < text.size() && !StartsCharacter(text[length])) --length;
  return "'" + Shown(text.substr(0, length)) + (length < text.size() ? "...'" : "'");
}

}  // namespace linkwright
