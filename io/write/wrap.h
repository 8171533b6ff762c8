// SPDX-License-Identifier: MIT
// Text laid out within a window's width.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace linkwright {

// The width of a window that tells none: what a shop's terminal opens with.
constexpr size_t kUsualWidth = 80;

// Characters as a reader counts them: UTF-8 continuation bytes take no place.
[[nodiscard]] size_t TextWidth(std::string_view text);

// The widest of a text's lines.
[[nodiscard]] size_t WidestLine(std::string_view text);

// A sentence broken between words into lines no wider than `width`, each ended by "\n"; a word
// that is wider stands alone.
//   first, rest   stand before the first line and the others: "- ", "  "
[[nodiscard]] std::string Wrap(std::string_view sentence, size_t width, std::string_view first = {},
                               std::string_view rest = {});

}  // namespace linkwright
