// SPDX-License-Identifier: MIT
// Dotted paths into a document, as variants use them: "axles.rear.links.upper arm.frame[2]".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "io/read/document.h"

namespace linkwright {

// Where a path leads. A step is the index of an entry in a map, or of an item in a list.
struct PathResult {
  Node* node = nullptr;            // what the path names, or the last thing that is there
  Node* parent = nullptr;          // what `node` stands in; null of the root
  std::vector<std::size_t> steps;  // from the root to `node`
  std::string found;               // the beginning of the path, that leads to `node`
  std::string missing;             // the rest, from the step that is not there; empty: none
  bool ambiguous = false;          // that step names more than one item of a list
};

// Follows a path. A key's blanks and dots are written as they are: the longest key that fits is
// taken; a key may also stand in double quotes. An item of a list is named by its number from 1 in
// brackets, or after a dot by what its `item` says.
[[nodiscard]] PathResult FollowPath(Node& root, std::string_view path);

// What is at a step of a map or list.
[[nodiscard]] Node& Child(Node& node, std::size_t step);

// The steps there are from this node: keys of a map, `item` names in a list.
[[nodiscard]] std::vector<std::string_view> StepNames(const Node& node);

// One step off the front of a path's missing rest, and what comes after it.
struct Step {
  std::string name;   // "upper arm", without dots and quotes; "[2]"
  std::string after;  // ".frame"; empty for the last step
};
[[nodiscard]] Step FirstStep(std::string_view rest);

}  // namespace linkwright
