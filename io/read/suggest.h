// SPDX-License-Identifier: MIT
// "Did you mean": the known word nearest to a misspelt one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace linkwright {

// The known word that takes the fewest letters changed, left out, put in or swapped to reach from
// `word`; empty where even that one changes more than a third of it (and more than two letters).
[[nodiscard]] std::string NearestWord(std::string_view word,
                                      const std::vector<std::string_view>& known);

}  // namespace linkwright
