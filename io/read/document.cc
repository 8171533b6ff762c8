// SPDX-License-Identifier: MIT
#include "io/read/document.h"

#include <fmt/format.h>

#include <algorithm>

namespace linkwright {

const Entry* FindEntry(const Node& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const Entry& entry) { return entry.key == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

Entry* FindEntry(Node& map, std::string_view key) {
  return const_cast<Entry*>(FindEntry(static_cast<const Node&>(map), key));
}

Place BlameFor(const Node& map, std::string_view key, const Place& otherwise) {
  // The last one counts: a plan of a plan may have put it back and taken it away again.
  const auto found = std::find_if(map.removals.rbegin(), map.removals.rend(),
                                  [&](const Removal& removal) { return removal.key == key; });
  return found == map.removals.rend() ? otherwise : found->place;
}

const Node* Find(const Node& map, std::string_view key) {
  const Entry* entry = FindEntry(map, key);
  return entry == nullptr ? nullptr : &entry->value;
}

std::string JoinPath(std::string_view path, std::string_view key) {
  return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
}

std::string ItemPath(std::string_view path, std::size_t index) {
  return fmt::format("{}[{}]", path, index + 1);
}

}  // namespace linkwright
