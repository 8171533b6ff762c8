// SPDX-License-Identifier: MIT
#include "io/read/source_map.h"

namespace linkwright {

const SourceEntry* FindSource(const SourceMap& map, const std::vector<std::string>& part) {
  for (std::vector<std::string> beginning = part;; beginning.pop_back()) {
    const auto found = map.entries.find(beginning);
    if (found != map.entries.end()) return &found->second;
    if (beginning.empty()) return nullptr;
  }
}

}  // namespace linkwright
