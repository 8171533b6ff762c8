// SPDX-License-Identifier: MIT
// Parts of a sentence put together.
#pragma once

#include <string>
#include <vector>

namespace linkwright {

// "a", "a and b", "a, b and c"; empty of none.
[[nodiscard]] std::string Listed(const std::vector<std::string>& parts);

// "a; b; c"
[[nodiscard]] std::string InRow(const std::vector<std::string>& parts);

// With a capital to begin a sentence.
[[nodiscard]] std::string Capital(std::string sentence);

// Whether a sentence is short enough for that.
[[nodiscard]] bool IsTakenInAtOnce(const std::string& sentence);

// A sentence no longer than a reader takes in at once, of parts of which the last are left to the
// tables where they are too many: "head: a; b; and 2 more: see the table NAME."
[[nodiscard]] std::string Sentence(const std::string& head, const std::vector<std::string>& parts,
                                   const std::string& table);

}  // namespace linkwright
