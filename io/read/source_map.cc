// SPDX-License-Identifier: MIT
#include "io/read/source_map.h"

#include <cstddef>
#include <string>
#include <vector>

#include "io/read/values.h"

namespace linkwright {
namespace {

// Maps a node and all under it.
//   part   its steps from the root
void MapNode(const Node& node, const Place& place, const std::vector<std::string>& part,
             const std::string& path, const Report& report, SourceMap& map) {
  const auto below = [&](const std::string& step) {
    std::vector<std::string> steps = part;
    steps.push_back(step);
    return steps;
  };
  map.entries[part] = {place, path, ExcerptAt(report, place)};
  for (const Entry& entry : node.entries) {
    // What is wrong with a group from which a variant took something is the variant's doing.
    const std::vector<Removal>& removals = entry.value.removals;
    MapNode(entry.value, removals.empty() ? entry.key_place : removals.back().place,
            below(entry.key), JoinPath(path, entry.key), report, map);
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const Node& item = node.items[i];
    const std::vector<std::string> numbered = below(std::to_string(i + 1));
    MapNode(item, item.place, numbered, ItemPath(path, i), report, map);
    const std::string name = TextAt(item, "item");
    // The first of two items with one name keeps it.
    if (!name.empty()) map.entries.emplace(below(name), map.entries.at(numbered));
  }
}

}  // namespace

SourceMap BuildSourceMap(const Node& root, const Report& report) {
  SourceMap map;
  MapNode(root, root.place, {}, "", report, map);
  return map;
}

const SourceEntry* FindSource(const SourceMap& map, const std::vector<std::string>& part) {
  for (std::vector<std::string> beginning = part;; beginning.pop_back()) {
    const auto found = map.entries.find(beginning);
    if (found != map.entries.end()) return &found->second;
    if (beginning.empty()) return nullptr;
  }
}

}  // namespace linkwright
