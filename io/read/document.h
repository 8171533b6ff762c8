// SPDX-License-Identifier: MIT
// A YAML document as a tree in which every node knows its place in the file.
//
// Built from the parser's events, since the parser's own tree hides what errors need: keys given
// twice, the place of a key, and where an alias was used.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/read/input_error.h"
#include "io/read/report.h"
#include "io/units.h"

namespace linkwright {

enum class NodeKind { kNull, kScalar, kList, kMap };

struct Entry;

// A key that a variant took away, and where it says so.
struct Removal {
  std::string key;
  Place place;
};

struct Node {
  NodeKind kind = NodeKind::kNull;
  Place place;                    // an alias: where it is used; what is under it: where that stands
  std::string text;               // of a scalar
  bool quoted = false;            // a scalar in quotes or a block, never a number or word of ours
  std::vector<Node> items;        // of a list
  std::vector<Entry> entries;     // of a map, in the order of the file, keys unique
  std::vector<Removal> removals;  // of a map, by variants
  UnitSystem units = UnitSystem::kMetric;  // of the file the node stands in
  bool negated = false;  // of a scalar: the number's other sign is meant, in the mirror image that
                         // a variant made of a pair's left member
  std::optional<double> si;  // set by validation where the scalar is a good number
};

struct Entry {
  std::string key;
  Place key_place;
  Node value;
};

// The entry with this key, or null: where the node is not a map, too.
[[nodiscard]] const Entry* FindEntry(const Node& map, std::string_view key);
[[nodiscard]] Entry* FindEntry(Node& map, std::string_view key);

// The value under this key, or null.
[[nodiscard]] const Node* Find(const Node& map, std::string_view key);

// The place to blame where this key is missed: where a variant took it away, or `otherwise`.
[[nodiscard]] Place BlameFor(const Node& map, std::string_view key, const Place& otherwise);

// "axles.rear" and "links" to "axles.rear.links"; "ledger.added" and 1 to "ledger.added[2]".
[[nodiscard]] std::string JoinPath(std::string_view path, std::string_view key);
[[nodiscard]] std::string ItemPath(std::string_view path, std::size_t index);

// Reads the one document of a text.
//   file      named in places; its lines are in `report`
//   report    takes syntax errors, keys given twice, unknown tags, several documents, merge keys,
//             an empty file, more than 100,000 nodes with aliases expanded, more than 32 levels
//   returns   the tree, or nothing after an error that leaves no tree
[[nodiscard]] std::optional<Node> ParseDocument(const std::string& text, const std::string& file,
                                                Report& report);

}  // namespace linkwright
