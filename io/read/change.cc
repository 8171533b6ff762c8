// SPDX-License-Identifier: MIT
// A variant's changes, made in the document of its base.
#include <fmt/format.h>

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "io/read/format.h"
#include "io/read/moves.h"
#include "io/read/path.h"
#include "io/read/suggest.h"
#include "io/read/values.h"
#include "io/read/variant.h"
#include "io/shown.h"

namespace linkwright {
namespace {

// One path of a variant: where it is written, and under which key.
struct Request {
  std::string_view key;  // "change", "add" or "remove"
  const std::string& path;
  const Place& place;
};

std::string WhereText(const PathResult& at) {
  return at.found.empty() ? "the base" : fmt::format("{} of the base", at.found);
}

// What there is instead of the step that is missing.
std::string Alternatives(const PathResult& at, const Step& step) {
  if (at.node->kind == NodeKind::kScalar) return "that is a single value";
  const auto names = StepNames(*at.node);
  const std::string nearest = NearestWord(step.name, names);
  if (!nearest.empty()) {
    return fmt::format("nearest is '{}{}'", JoinPath(at.found, nearest), step.after);
  }
  if (at.node->kind == NodeKind::kList && (names.empty() || step.name.starts_with('['))) {
    return fmt::format("it has {} items", at.node->items.size());
  }
  return fmt::format("there: '{}'", fmt::join(names, "', '"));
}

void Refuse(const Request& request, std::string message, Report& report) {
  AddError(report, request.place, JoinPath(request.key, request.path), std::move(message));
}

void RefuseMissing(const Request& request, const PathResult& at, Report& report) {
  const Step step = FirstStep(at.missing);
  std::string message;
  if (at.ambiguous) {
    message = fmt::format("two items of {} are called {}; use a number: '{}[1]'", WhereText(at),
                          Quoted(step.name), at.found);
  } else {
    message = fmt::format("there is no {} in {}; {}{}", Quoted(step.name), WhereText(at),
                          Alternatives(at, step),
                          request.key == "change" ? "; what is new goes under 'add'" : "");
  }
  Refuse(request, std::move(message), report);
}

// The group that a map at the end of these steps holds; null where that is no such map.
const Group* GroupAt(Node& root, const std::vector<std::size_t>& steps) {
  const Group* group = &FindGroup("vehicle");
  Many many = Many::kOne;  // what still stands between the node and its groups
  Node* node = &root;
  for (const std::size_t step : steps) {
    if (many != Many::kOne) {
      many = many == Many::kNamedList ? Many::kList : Many::kOne;
    } else {
      if (node->kind != NodeKind::kMap) return nullptr;
      const Key* key = KeyIn(*group, node->entries[step].key);
      if (key == nullptr || key->kind != Kind::kGroup) return nullptr;
      group = &FindGroup(key->group);
      many = key->many;
    }
    node = &Child(*node, step);
  }
  return many == Many::kOne ? group : nullptr;
}

// Refuses a path whose missing step is a key's name in older files.
bool HasOldName(const Request& request, Node& root, const PathResult& at, Report& report) {
  const Step step = FirstStep(at.missing);
  const Group* group = GroupAt(root, at.steps);
  const Key* now = group == nullptr ? nullptr : FindFormerly(*group, step.name);
  if (now == nullptr) return false;
  Refuse(request,
         fmt::format("'{}' is now called '{}': rename the key, '{}{}'", step.name, now->name,
                     JoinPath(at.found, now->name), step.after),
         report);
  return true;
}

// `units` says how the base's numbers are read, so a path must not reach it.
bool ReachesUnits(const Request& request, Report& report) {
  if (request.path != "units") return false;
  Refuse(request,
         "it says what the base's plain numbers mean and stays; a variant has 'units' of its own",
         report);
  return true;
}

// The keys that lead to a node.
std::vector<std::string> NamesOf(const Node& root, const std::vector<std::size_t>& steps) {
  std::vector<std::string> names;
  const Node* node = &root;
  for (const std::size_t step : steps) {
    const bool map = node->kind == NodeKind::kMap;
    names.push_back(map ? node->entries[step].key : std::to_string(step + 1));
    node = map ? &node->entries[step].value : &node->items[step];
  }
  return names;
}

// The mirror image of what stands in a left member: every point's y with the other sign.
void Mirror(Node& node) {
  const bool point = node.kind == NodeKind::kList && node.items.size() == 3 &&
                     node.items[1].kind == NodeKind::kScalar;
  if (point) {
    node.items[1].negated = !node.items[1].negated;
    return;
  }
  for (Node& item : node.items) Mirror(item);
  for (Entry& entry : node.entries) Mirror(entry.value);
}

// Where a pair stands under the name of one of its members less its side, its two members by
// themselves in its place.
bool SplitPair(Node& members, const std::string& name) {
  for (const std::string_view side : {" left", " right"}) {
    if (!name.ends_with(side)) continue;
    const std::string stem = name.substr(0, name.size() - side.size());
    Entry* pair = FindEntry(members, stem);
    if (pair == nullptr || !FlagAt(pair->value, "pair")) continue;
    Entry left = *pair;
    std::erase_if(left.value.entries, [](const Entry& entry) { return entry.key == "pair"; });
    Entry right = left;
    Mirror(right.value);
    left.key = stem + " left", right.key = stem + " right";
    *pair = std::move(left);
    members.entries.insert(members.entries.begin() + (pair - members.entries.data()) + 1,
                           std::move(right));
    return true;
  }
  return false;
}

//   whole   also where the path ends with the member
PathResult FollowSplitting(Node& root, std::string_view path, bool whole) {
  PathResult at = FollowPath(root, path);
  if (at.missing.empty() || at.ambiguous || at.node->kind != NodeKind::kMap) return at;
  const Step step = FirstStep(at.missing);
  if (step.after.empty() && !whole) return at;
  return SplitPair(*at.node, step.name) ? FollowPath(root, path) : at;
}

// A plain key that the base leaves to its default may be given like one that stands there.
bool GivesDefault(const PathResult& at, const Entry& entry, Node& root) {
  const Step step = FirstStep(at.missing);
  const Group* group = GroupAt(root, at.steps);
  const Key* key = group == nullptr || !step.after.empty() ? nullptr : KeyIn(*group, step.name);
  if (key == nullptr || key->many != Many::kOne || key->kind == Kind::kGroup) return false;
  if (key->default_text.empty() && key->words.empty()) return false;
  at.node->entries.push_back({step.name, entry.key_place, entry.value});
  return true;
}

void Change(const Entry& entry, Node& root, Touched& touched, Report& report) {
  const Request request{"change", entry.key, entry.key_place};
  if (ReachesUnits(request, report)) return;
  const PathResult at = FollowSplitting(root, entry.key, true);
  if (HasOldName(request, root, at, report)) return;
  if (!at.missing.empty()) {
    if (!GivesDefault(at, entry, root)) return RefuseMissing(request, at, report);
    touched.changed.push_back(NamesOf(root, at.steps));
    touched.changed.back().push_back(FirstStep(at.missing).name);
    return;
  }
  touched.changed.push_back(NamesOf(root, at.steps));
  *at.node = entry.value;
  // The key above it now stands, for what is missing under it, in the variant.
  if (at.parent == nullptr || at.parent->kind != NodeKind::kMap) return;
  at.parent->entries[at.steps.back()].key_place = entry.key_place;
}

// A new item of a list under its number or its name.
void AddItem(const Request& request, const Entry& entry, const Step& step, Node& list,
             Report& report) {
  Node item = entry.value;
  if (step.name.starts_with('[')) {
    const std::string next = fmt::format("[{}]", list.items.size() + 1);
    if (step.name != next) {
      return Refuse(request, fmt::format("the next item of this list is {}", next), report);
    }
  } else if (item.kind != NodeKind::kMap || Find(item, "item") != nullptr) {
    return Refuse(request,
                  item.kind == NodeKind::kMap
                      ? "the path names the item; leave 'item' out of its map"
                      : "a new item of a list is a map, such as {mass: 45, at: [-1800, 0, 1500]}",
                  report);
  } else {
    Node name;
    name.kind = NodeKind::kScalar;
    name.place = entry.key_place;
    name.text = step.name;
    item.entries.insert(item.entries.begin(), {"item", entry.key_place, name});
  }
  list.items.push_back(std::move(item));
}

void Add(const Entry& entry, Node& root, Touched& touched, Report& report) {
  const Request request{"add", entry.key, entry.key_place};
  if (ReachesUnits(request, report)) return;
  const PathResult at = FollowSplitting(root, entry.key, false);
  if (at.missing.empty()) {
    return Refuse(request, "the base has this already; a new value goes under 'change'", report);
  }
  if (HasOldName(request, root, at, report)) return;
  const Step step = FirstStep(at.missing);
  if (at.ambiguous || !step.after.empty()) return RefuseMissing(request, at, report);
  if (at.node->kind == NodeKind::kList) return AddItem(request, entry, step, *at.node, report);
  if (at.node->kind != NodeKind::kMap || step.name.starts_with('[')) {
    return Refuse(request,
                  fmt::format("nothing can be added to {}, which is no {}", WhereText(at),
                              step.name.starts_with('[') ? "list" : "map or list"),
                  report);
  }
  touched.added.push_back(NamesOf(root, at.steps));
  touched.added.back().push_back(step.name);
  at.node->entries.push_back({step.name, entry.key_place, entry.value});
}

void RemoveAt(Node& parent, std::size_t step, const Place& place) {
  const auto index = static_cast<std::ptrdiff_t>(step);
  if (parent.kind == NodeKind::kMap) {
    parent.removals.push_back({parent.entries[step].key, place});
    parent.entries.erase(parent.entries.begin() + index);
  } else {
    parent.items.erase(parent.items.begin() + index);
  }
}

// Finds all paths first and takes away from the back, so that numbers keep their meaning and what
// is still to be taken away its place.
void Remove(const Node& paths, Node& root, Report& report) {
  struct Removed {
    Node* parent;
    const Place* place;
  };
  std::map<std::vector<std::size_t>, Removed, std::greater<>> all_steps;
  for (const Node& path : paths.items) {
    if (path.kind == NodeKind::kScalar) (void)FollowSplitting(root, path.text, true);
  }
  for (const Node& path : paths.items) {
    if (path.kind != NodeKind::kScalar) continue;
    const Request request{"remove", path.text, path.place};
    const PathResult at = FollowPath(root, path.text);
    if (HasOldName(request, root, at, report)) continue;
    if (!at.missing.empty()) {
      RefuseMissing(request, at, report);
    } else if (!at.steps.empty() && !ReachesUnits(request, report)) {
      all_steps.emplace(at.steps, Removed{at.parent, &path.place});
    }
  }
  for (const auto& [steps, at] : all_steps) RemoveAt(*at.parent, steps.back(), *at.place);
}

// What a variant says of its own over what its base says.
void TakeOver(const Node& variant, std::string_view key, Node& root) {
  const Entry* own = FindEntry(variant, key);
  if (own == nullptr) return;
  if (Entry* old = FindEntry(root, key)) {
    *old = *own;
  } else {
    root.entries.push_back(*own);
  }
}

// What a variant accepts beside what its base does.
void AcceptMore(const Node& variant, Node& root) {
  const Entry* own = FindEntry(variant, "accept");
  if (own == nullptr) return;
  Entry* old = FindEntry(root, "accept");
  if (old == nullptr || old->value.kind != NodeKind::kMap || own->value.kind != NodeKind::kMap) {
    return TakeOver(variant, "accept", root);
  }
  for (const Entry& each : own->value.entries) TakeOver(own->value, each.key, old->value);
}

}  // namespace

Touched ApplyVariant(const Node& variant, Node& root, Report& report) {
  Touched touched;
  for (const std::string_view key : {"title", "default_load"}) TakeOver(variant, key, root);
  AcceptMore(variant, root);
  if (const Node* change = Find(variant, "change")) {
    for (const Entry& entry : change->entries) Change(entry, root, touched, report);
  }
  if (const Node* add = Find(variant, "add")) {
    for (const Entry& entry : add->entries) Add(entry, root, touched, report);
  }
  if (const Node* remove = Find(variant, "remove")) Remove(*remove, root, report);
  ApplyMoves(variant, root, report);
  return touched;
}

}  // namespace linkwright
