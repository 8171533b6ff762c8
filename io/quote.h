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
  const auto continues = [&](std::size_t at) {
    return (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
  };
  std::size_t length = text.size() > kLongest ? kLongest : text.size();
  while (length > 0 && length < text.size() && continues(length)) --length;
  return "'" + Shown(text.substr(0, length)) + (length < text.size() ? "...'" : "'");
}

}  // namespace linkwright
