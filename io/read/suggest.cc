// SPDX-License-Identifier: MIT
#include "io/read/suggest.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

namespace linkwright {
namespace {

constexpr std::size_t kLongestWord = 80;  // nothing of ours is longer; bounds the work

// Capitals, blanks, hyphens and underscores are no difference worth counting.
std::string Plain(std::string_view word) {
  std::string plain;
  for (const char c : word.substr(0, kLongestWord)) {
    plain +=
        c == ' ' || c == '-' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return plain;
}

// Optimal string alignment distance: Levenshtein's with swaps of neighbours.
std::size_t Distance(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        d[i][j] = i + j;
        continue;
      }
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::string NearestWord(std::string_view word, const std::vector<std::string_view>& known) {
  const std::string plain = Plain(word);
  std::string_view nearest;
  std::size_t least = std::max<std::size_t>(2, plain.size() / 3) + 1;
  for (const std::string_view candidate : known) {
    const std::size_t distance = Distance(plain, Plain(candidate));
    if (distance < least && distance < candidate.size()) {
      least = distance;
      nearest = candidate;
    }
  }
  return std::string(nearest);
}

}  // namespace linkwright
