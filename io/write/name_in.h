// SPDX-License-Identifier: MIT
// The words for the values of an enum, as one list.
#pragma once

#include <array>
#include <cstddef>

namespace linkwright {

// The word for one value, of a word for each in the enum's order.
template <std::size_t N, typename Enum>
const char* NameIn(const std::array<const char*, N>& words, Enum value) {
  return words.at(static_cast<std::size_t>(value));
}

}  // namespace linkwright
