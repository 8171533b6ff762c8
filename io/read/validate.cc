// SPDX-License-Identifier: MIT
#include "io/read/validate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "io/read/format.h"
#include "io/read/suggest.h"
#include "io/shown.h"

namespace linkwright {
namespace {

// A node on the way down, with what errors about it need.
struct Spot {
  Node& node;
  std::string path;
  Place place;  // for what is missing under it: of its key, or of the node in a list
};

void CheckOne(const Spot& spot, const Key& key, Report& report);
void CheckGroup(const Spot& spot, const Group& group, Report& report);

Spot Item(const Spot& spot, std::size_t index) {
  Node& item = spot.node.items[index];
  return {item, ItemPath(spot.path, index), item.place};
}

// What stands there, in words.
std::string Found(const Node& node) {
  switch (node.kind) {
    case NodeKind::kNull:
      return "nothing stands here";
    case NodeKind::kScalar:
      return fmt::format("found {}", Quoted(node.text));
    case NodeKind::kList:
      return fmt::format("found a list of {}", node.items.size());
    case NodeKind::kMap:
      return "found a map";
  }
  return "";
}

void Refuse(const Spot& spot, std::string_view wanted, Report& report) {
  AddError(report, spot.node.place, spot.path,
           fmt::format("{}; wanted: {}", Found(spot.node), wanted));
}

void CheckNumber(const Spot& spot, const Key& key, Report& report) {
  Node& node = spot.node;
  if (node.kind != NodeKind::kScalar) return Refuse(spot, WantedFor(key), report);
  if (std::find(key.words.begin(), key.words.end(), node.text) != key.words.end()) return;
  const ParsedValue value = ReadNumber(node.text, key, node.units);
  if (!value.si) {
    const bool no_number = !ParseValue(node.text, key.dimension, node.units).si;
    std::string message = value.error;
    if (no_number && !key.words.empty()) {
      message += fmt::format(", or {}", fmt::join(key.words, ", "));
    }
    return AddError(report, node.place, spot.path, message);
  }
  node.si = node.negated ? -*value.si : *value.si;
}

void CheckWord(const Spot& spot, const Key& key, Report& report) {
  const Node& node = spot.node;
  const std::string wanted = WantedFor(key);
  if (node.kind != NodeKind::kScalar) return Refuse(spot, wanted, report);
  if (std::find(key.words.begin(), key.words.end(), node.text) != key.words.end()) return;
  const std::string nearest = NearestWord(node.text, key.words);
  AddError(report, node.place, spot.path,
           fmt::format("{}; wanted: {}{}", Found(node), wanted,
                       nearest.empty() ? "" : fmt::format("; did you mean '{}'?", nearest)));
}

void CheckText(const Spot& spot, const Key& key, Report& report) {
  const Node& node = spot.node;
  const bool one_line =
      std::none_of(node.text.begin(), node.text.end(), [](char c) { return c >= 0 && c < ' '; });
  if (node.kind == NodeKind::kScalar && !node.text.empty() && one_line) return;
  if (node.kind != NodeKind::kScalar) return Refuse(spot, WantedFor(key), report);
  AddError(report, node.place, spot.path,
           fmt::format("the text {}; wanted: {}",
                       node.text.empty() ? "is empty" : "has more than one line", WantedFor(key)));
}

void CheckFlag(const Spot& spot, const Key& key, Report& report) {
  const std::string& text = spot.node.text;
  const bool known = text == "true" || text == "false";
  if (spot.node.kind != NodeKind::kScalar || spot.node.quoted || !known) {
    Refuse(spot, WantedFor(key), report);
  }
}

// A list that has something of its own in each place.
void CheckItems(const Spot& spot, const Key& key, std::string_view wanted, Report& report) {
  const std::vector<Key> items = ItemKeys(key);
  if (spot.node.kind != NodeKind::kList || spot.node.items.size() != items.size()) {
    return Refuse(spot, wanted, report);
  }
  for (std::size_t i = 0; i < items.size(); ++i) CheckOne(Item(spot, i), items[i], report);
}

void CheckCurve(const Spot& spot, const Key& key, Report& report) {
  if (spot.node.kind != NodeKind::kList || spot.node.items.size() < 2) {
    return Refuse(spot, WantedFor(key), report);
  }
  for (std::size_t i = 0; i < spot.node.items.size(); ++i) {
    CheckItems(Item(spot, i), key, "a point [deflection, force]", report);
  }
}

void CheckOne(const Spot& spot, const Key& key, Report& report) {
  switch (key.kind) {
    case Kind::kText:
      return CheckText(spot, key, report);
    case Kind::kWord:
      return CheckWord(spot, key, report);
    case Kind::kFlag:
      return CheckFlag(spot, key, report);
    case Kind::kNumber:
      return CheckNumber(spot, key, report);
    case Kind::kWords:
    case Kind::kPoint:
    case Kind::kSide:
      return CheckItems(spot, key, WantedFor(key), report);
    case Kind::kCurve:
      return CheckCurve(spot, key, report);
    case Kind::kPaths:
      if (spot.node.kind != NodeKind::kMap) Refuse(spot, WantedFor(key), report);
      return;
    case Kind::kGroup:
      if (spot.node.kind != NodeKind::kMap) return Refuse(spot, WantedFor(key), report);
      return CheckGroup(spot, FindGroup(key.group), report);
  }
}

void CheckMany(const Spot& spot, const Key& key, Many many, Report& report) {
  if (many == Many::kOne) return CheckOne(spot, key, report);
  const bool is_list = many == Many::kList;
  if (spot.node.kind != (is_list ? NodeKind::kList : NodeKind::kMap)) {
    return Refuse(spot, WantedFor(key, many), report);
  }
  for (std::size_t i = 0; is_list && i < spot.node.items.size(); ++i) {
    CheckOne(Item(spot, i), key, report);
  }
  const Many below = many == Many::kNamedList ? Many::kList : Many::kOne;
  for (Entry& entry : spot.node.entries) {
    CheckMany({entry.value, JoinPath(spot.path, entry.key), entry.key_place}, key, below, report);
  }
}

// Where a key would be right, if it is right anywhere; else what is right here.
std::string KeyHint(std::string_view name, const Group& group) {
  std::vector<std::string_view> known;
  for (const Key& key : group.keys) known.push_back(key.name);
  const std::string nearest = NearestWord(name, known);
  if (!nearest.empty()) return fmt::format("did you mean '{}'?", nearest);
  if (group.name == "vehicle" && KeyIn(FindGroup("variant"), name) != nullptr) {
    return "it goes into a variant: a file with 'base: FILE', which says what is changed, cut or "
           "moved of what FILE measured";
  }
  for (const Group& other : Format()) {
    if (KeyIn(other, name) == nullptr || other.name == "variant") continue;
    if (group.name == "variant") return "a variant gives new values under 'change', by their path";
    if (other.name == "vehicle") return "a key of this name stands at the left edge of the file";
    return fmt::format("a key of this name stands under {}", other.heading);
  }
  return fmt::format("known here: {}", fmt::join(known, ", "));
}

void CheckRule(const Spot& spot, const Rule& rule, Report& report) {
  std::vector<const Entry*> given;
  for (const std::string_view key : rule.keys) {
    if (const Entry* entry = FindEntry(spot.node, key)) given.push_back(entry);
  }
  if (rule.kind == RuleKind::kNeeds) {
    const Entry* first = FindEntry(spot.node, rule.keys[0]);
    for (std::size_t i = 1; first != nullptr && i < rule.keys.size(); ++i) {
      if (FindEntry(spot.node, rule.keys[i]) != nullptr) continue;
      AddError(report, BlameFor(spot.node, rule.keys[i], first->key_place),
               JoinPath(spot.path, first->key),
               fmt::format("it needs '{}' beside it", rule.keys[i]));
    }
    return;
  }
  const std::string names = fmt::format("{}", fmt::join(rule.keys, ", "));
  if (given.empty() && rule.kind != RuleKind::kAtMostOne) {
    Place blame = spot.place;
    for (const std::string_view key : rule.keys) blame = BlameFor(spot.node, key, blame);
    AddError(report, blame, spot.path, fmt::format("one of {} is missing", names));
  }
  if (rule.kind == RuleKind::kAtLeastOne) return;
  for (std::size_t i = 1; i < given.size(); ++i) {
    AddError(report, given[i]->key_place, given[0]->key_place, JoinPath(spot.path, given[i]->key),
             fmt::format("it is given as well as '{}'; give only one of {}", given[0]->key, names));
  }
}

void CheckGroup(const Spot& spot, const Group& group, Report& report) {
  for (Entry& entry : spot.node.entries) {
    const std::string path = JoinPath(spot.path, entry.key);
    const Key* key = KeyIn(group, entry.key);
    if (key == nullptr) {
      const Key* now = FindFormerly(group, entry.key);
      AddError(report, entry.key_place, path,
               now == nullptr
                   ? fmt::format("unknown key; {}", KeyHint(entry.key, group))
                   : fmt::format("'{}' is now called '{}': rename the key", entry.key, now->name));
    } else {
      CheckMany({entry.value, path, entry.key_place}, *key, key->many, report);
    }
  }
  for (const Key& key : group.keys) {
    if (!key.required || FindEntry(spot.node, key.name) != nullptr) continue;
    AddError(report, BlameFor(spot.node, key.name, spot.place), JoinPath(spot.path, key.name),
             fmt::format("it is missing; wanted: {}", WantedFor(key, key.many)));
  }
  for (const Rule& rule : group.rules) CheckRule(spot, rule, report);
}

}  // namespace

void Validate(Node& root, std::string_view group, Report& report) {
  const Key whole{.name = "", .kind = Kind::kGroup, .meaning = "", .group = group};
  CheckOne({root, "", root.place}, whole, report);
}

}  // namespace linkwright
