// SPDX-License-Identifier: MIT
#include "io/read/format.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "io/read/format_keys.h"
#include "io/read/keys_of.h"
#include "io/shown.h"

namespace linkwright {
namespace {

// Bounds that no part of a road vehicle reaches: a value outside has the wrong unit or a slipped
// point, and would only spoil the arithmetic further on.
Range SaneRange(Dimension dimension) {
  using D = Dimension;
  static constexpr std::pair<D, Range> kSane[] = {
      {D::kLength, {-100.0, 100.0}}, {D::kMass, {-1e5, 1e5}},
      {D::kForce, {-1e7, 1e7}},      {D::kRate, {-1e10, 1e10}},
      {D::kAngle, kHalfTurn},        {D::kRollRate, {-1e8, 1e8}},
      {D::kDamping, {-1e7, 1e7}},    {D::kModulus, {1e9, 5e11}},  // rubber to tungsten
      {D::kInertia, {-1e7, 1e7}},    {D::kShaftSpeed, {-5000.0, 5000.0}},
      {D::kTorque, {-1e6, 1e6}},     {D::kAngleRate, {-100.0, 100.0}},
  };
  for (const auto& [of, range] : kSane) {
    if (of == dimension) return range;
  }
  return {-1e9, 1e9};
}

std::string WantedOnce(const Key& key) {
  switch (key.kind) {
    case Kind::kText:
      return "a text on one line";
    case Kind::kWord:
      return fmt::format("one of {}", fmt::join(key.words, ", "));
    case Kind::kWords:
      return fmt::format("a list of two, each one of {}", fmt::join(key.words, ", "));
    case Kind::kFlag:
      return "true or false";
    case Kind::kNumber: {
      std::string wanted = WantedText(key.dimension);
      if (!key.words.empty()) wanted += fmt::format(", or {}", fmt::join(key.words, ", "));
      return wanted;
    }
    case Kind::kPoint:
      return "a point [x, y, z] of three lengths";
    case Kind::kSide:
      return "a point in side view, [x, z], of two lengths";
    case Kind::kCurve:
      return "a list of two or more points [deflection, force]";
    case Kind::kPaths:
      return "a map of 'path: value'";
    case Kind::kGroup:
      break;
  }
  std::vector<std::string_view> required;
  std::vector<std::string_view> all;
  for (const Key& member : FindGroup(key.group).keys) {
    all.push_back(member.name);
    if (member.required) required.push_back(member.name);
  }
  for (const Rule& rule : FindGroup(key.group).rules) {
    if (rule.kind == RuleKind::kAtLeastOne) required.push_back(rule.keys.front());
  }
  return fmt::format("a map with {}", fmt::join(required.empty() ? all : required, ", "));
}

// What a number outside its range should have been.
std::string WantedWithin(const Key& key, const Range& range, bool low, UnitSystem units) {
  if (low && range.above_low && std::isfinite(key.range.high)) {
    return fmt::format("more than {}, at most {}", FormatValue(range.low, key.dimension, units),
                       FormatValue(range.high, key.dimension, units));
  }
  Key bounded = key;
  if (!range.above_low || !low) bounded.range = range;
  return RangeText(bounded, units);
}

}  // namespace

const std::vector<Group>& Format() {
  static const std::vector<Group> format = [] {
    std::vector<Group> groups = VehicleGroups();
    for (const Group& group : AxleGroups()) groups.push_back(group);
    groups.push_back(GroupOf<Aims>());
    return groups;
  }();
  return format;
}

const Group& FindGroup(std::string_view name) {
  const auto& groups = Format();
  const auto found = std::find_if(groups.begin(), groups.end(),
                                  [&](const Group& group) { return group.name == name; });
  assert(found != groups.end());
  return *found;
}

const Key* KeyIn(const Group& group, std::string_view name) {
  for (const Key& key : group.keys) {
    if (key.name == name) return &key;
  }
  return nullptr;
}

const Key& FindKey(std::string_view group, std::string_view key) {
  const Key* found = KeyIn(FindGroup(group), key);
  assert(found != nullptr);
  return *found;
}

const Key* FindFormerly(const Group& group, std::string_view name) {
  for (const Key& key : group.keys) {
    if (!name.empty() && key.formerly == name) return &key;
  }
  return nullptr;
}

std::vector<Key> ItemKeys(const Key& key) {
  const auto number = [&](Dimension dimension, Range range) {
    return Number(key.name, dimension, range, key.meaning);
  };
  switch (key.kind) {
    case Kind::kPoint:
      return std::vector<Key>(3, number(Dimension::kLength, kAny));
    case Kind::kSide:
      return std::vector<Key>(2, number(Dimension::kLength, kAny));
    case Kind::kCurve:
      return {number(Dimension::kLength, kNotNegative), number(Dimension::kForce, kNotNegative)};
    case Kind::kWords:
      return std::vector<Key>(2, Word(key.name, key.words, key.meaning));
    default:
      return {};
  }
}

double DefaultOf(const Key& key) {
  const ParsedValue value = ParseValue(key.default_text, key.dimension, UnitSystem::kMetric);
  assert(value.si.has_value());
  return value.si.value();
}

double DefaultOf(std::string_view group, std::string_view key) {
  return DefaultOf(FindKey(group, key));
}

Range RangeOf(const Key& key) {
  Range range = SaneRange(key.dimension);
  if (std::isfinite(key.range.low)) {
    range.low = key.range.low;
    range.above_low = key.range.above_low;
  }
  if (std::isfinite(key.range.high)) range.high = key.range.high;
  return range;
}

std::string RangeText(const Key& key, UnitSystem system) {
  const auto text = [&](double si) { return FormatValue(si, key.dimension, system); };
  const bool low = std::isfinite(key.range.low);
  const bool high = std::isfinite(key.range.high);
  if (low && high) return fmt::format("{} to {}", text(key.range.low), text(key.range.high));
  if (low && key.range.above_low) return fmt::format("more than {}", text(key.range.low));
  if (low) return fmt::format("{} or more", text(key.range.low));
  if (high) return fmt::format("at most {}", text(key.range.high));
  return "";
}

ParsedValue ReadNumber(std::string_view text, const Key& key, UnitSystem units) {
  ParsedValue value = ParseValue(text, key.dimension, units);
  if (!value.si) return value;
  const Range range = RangeOf(key);
  const bool low = range.above_low ? *value.si <= range.low : *value.si < range.low;
  if (!low && *value.si <= range.high) return value;
  const bool physical =
      (low && key.range.low == range.low) || (!low && key.range.high == range.high);
  return {std::nullopt,
          fmt::format("{} is out of range; wanted: {}{}", Quoted(text),
                      WantedWithin(key, range, low, units), physical ? "" : "; check its unit")};
}

std::string WantedFor(const Key& key, Many many) {
  const std::string once = WantedOnce(key);
  switch (many) {
    case Many::kOne:
      return once;
    case Many::kNamed:
      return fmt::format("a map of names of your own, each with {}", once);
    case Many::kList:
      return fmt::format("a list, each item {}", once);
    case Many::kNamedList:
      return fmt::format("a map of names of your own, each with a list of items: {}", once);
  }
  return once;
}

}  // namespace linkwright
