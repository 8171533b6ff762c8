// SPDX-License-Identifier: MIT
#include "io/read/path.h"

#include <charconv>
#include <optional>

namespace linkwright {
namespace {

// The text of an item's `item` key, or empty.
std::string_view ItemName(const Node& item) {
  const Node* name = Find(item, "item");
  return name != nullptr ? std::string_view(name->text) : std::string_view();
}

std::string_view ChildName(const Node& node, std::size_t index) {
  return node.kind == NodeKind::kMap ? std::string_view(node.entries[index].key)
                                     : ItemName(node.items[index]);
}

std::size_t Children(const Node& node) {
  return node.kind == NodeKind::kMap ? node.entries.size() : node.items.size();
}

// The index in "[2]..." counted from 0, with the length of the step; nothing if it is none.
std::optional<std::size_t> BracketIndex(std::string_view rest, std::size_t& length) {
  if (!rest.starts_with('[')) return std::nullopt;
  const auto close = rest.find(']');
  if (close == std::string_view::npos) return std::nullopt;
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(rest.data() + 1, rest.data() + close, number);
  if (error != std::errc{} || end != rest.data() + close || number == 0) return std::nullopt;
  length = close + 1;
  return number - 1;
}

// How long the step at the front of `rest` is if it says this name; 0 if it does not.
std::size_t StepLength(std::string_view rest, std::string_view name) {
  const bool quoted = rest.starts_with('"');
  if (quoted) rest.remove_prefix(1);
  if (name.empty() || !rest.starts_with(name)) return 0;
  rest.remove_prefix(name.size());
  if (quoted) return rest.starts_with('"') ? name.size() + 2 : 0;
  return rest.empty() || rest[0] == '.' || rest[0] == '[' ? name.size() : 0;
}

// The child the front of `rest` names, with the length of that step; nothing if there is none, or
// if two children of a list share the name.
std::optional<std::size_t> NamedIndex(const PathResult& at, std::string_view rest,
                                      std::size_t& length, bool& ambiguous) {
  std::optional<std::size_t> index;
  for (std::size_t i = 0; i < Children(*at.node); ++i) {
    const std::size_t fits = StepLength(rest, ChildName(*at.node, i));
    if (fits == 0 || fits < length) continue;
    ambiguous = fits == length;
    length = fits;
    index = i;
  }
  return ambiguous ? std::nullopt : index;
}

// Goes one step on; false where that is not possible.
bool TakeStep(PathResult& at, std::string_view& rest) {
  const std::size_t dot = rest.starts_with('.') ? 1 : 0;
  std::size_t length = 0;
  std::optional<std::size_t> index;
  if (rest.starts_with('[') && at.node->kind == NodeKind::kList) {
    index = BracketIndex(rest, length);
    if (index && *index >= at.node->items.size()) return false;
  } else {
    index = NamedIndex(at, rest.substr(dot), length, at.ambiguous);
  }
  if (!index) return false;
  at.parent = at.node;
  at.node = &Child(*at.node, *index);
  at.steps.push_back(*index);
  at.found += rest.substr(0, dot + length);
  rest.remove_prefix(dot + length);
  return true;
}

}  // namespace

Node& Child(Node& node, std::size_t step) {
  return node.kind == NodeKind::kMap ? node.entries[step].value : node.items[step];
}

PathResult FollowPath(Node& root, std::string_view path) {
  PathResult at;
  at.node = &root;
  std::string_view rest = path;
  while (!rest.empty() && TakeStep(at, rest)) {
  }
  at.missing = std::string(rest);
  return at;
}

std::vector<std::string_view> StepNames(const Node& node) {
  std::vector<std::string_view> names;
  for (std::size_t i = 0; i < Children(node); ++i) {
    if (!ChildName(node, i).empty()) names.push_back(ChildName(node, i));
  }
  return names;
}

Step FirstStep(std::string_view rest) {
  if (rest.starts_with('.')) rest.remove_prefix(1);
  if (rest.starts_with('"')) {
    const auto close = rest.find('"', 1);
    if (close != std::string_view::npos) {
      return {std::string(rest.substr(1, close - 1)), std::string(rest.substr(close + 1))};
    }
  }
  const auto end = rest.starts_with('[') ? rest.find(']') : rest.find_first_of(".[");
  if (end == std::string_view::npos) return {std::string(rest), ""};
  const std::size_t length = rest[0] == '[' ? end + 1 : end;
  return {std::string(rest.substr(0, length)), std::string(rest.substr(length))};
}

}  // namespace linkwright
