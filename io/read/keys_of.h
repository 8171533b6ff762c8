// SPDX-License-Identifier: MIT
// The keys of a group, each bound to the member it is read into. One line of a table is all there
// is to a key: the format table takes its Key, Build its default and its place in the struct.
//   Number(&Link::thread, "thread", D::kLength, kPositive, "What a turn lengthens it by."),
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "io/read/document.h"
#include "io/read/format_keys.h"
#include "io/read/mirrored.h"
#include "io/read/values.h"
#include "solver/model/moves.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// The place of a key's word, or of its default, among Key::words.
[[nodiscard]] std::optional<int> WordIndex(const Node* value, const Key& key);

// What stands under a key, or of nothing (null) the key's default; nothing where it has none.
// A word is an enumerator or number by its place among Key::words.
template <typename Word>
[[nodiscard]] std::optional<Word> ValueOf(const Node* value, const Key& key) {
  const auto index = WordIndex(value, key);
  return index ? std::optional(static_cast<Word>(*index)) : std::nullopt;
}
template <>
std::optional<double> ValueOf(const Node* value, const Key& key);
template <>
std::optional<bool> ValueOf(const Node* value, const Key& key);
template <>
std::optional<std::string> ValueOf(const Node* value, const Key& key);
template <>
std::optional<Eigen::Vector3d> ValueOf(const Node* value, const Key& key);
template <>
std::optional<Eigen::Vector2d> ValueOf(const Node* value, const Key& key);

template <typename Value>
concept Single = !std::is_class_v<Value> || std::is_same_v<Value, std::string> ||
                 std::is_same_v<Value, Eigen::Vector3d> || std::is_same_v<Value, Eigen::Vector2d>;

// Puts what stands under a key into a member; where there is nothing it stays as it was.
template <Single Value>
void Take(const Node* value, const Key& key, Value& into) {
  if (const auto found = ValueOf<Value>(value, key)) into = *found;
}
template <Single Value>
void Take(const Node* value, const Key& key, std::optional<Value>& into) {
  if (const auto found = ValueOf<Value>(value, key)) into = *found;
}
void Take(const Node* value, const Key& key, std::vector<CurvePoint>& into);
void Take(const Node* value, const Key& key, std::vector<Load>& into);
void Take(const Node* value, const Key& key, std::vector<Mark>& into);
void Take(const Node* value, const Key& key, std::vector<Acceptance>& into);

// Groups: one that is built with its defaults where it is absent, one that is absent then, and
// those of a list or under names of the user's own.
template <typename Struct>
void Take(const Node* value, const Key& key, Struct& into);
template <typename Struct>
void Take(const Node* value, const Key& key, std::optional<Struct>& into);
template <typename Struct>
void Take(const Node* value, const Key& key, std::vector<Struct>& into);

// Puts what stands under a key into its place in the struct.
template <typename Struct>
using Taker = std::function<void(const Node* value, const Key& key, Struct& into)>;

template <typename Struct>
struct BoundKey {
  Key key;
  Taker<Struct> take;  // empty: Table::complete reads it, or what is outside the vehicle

  BoundKey(Key unbound) : key(std::move(unbound)) {}  // NOLINT: a line of a table
  BoundKey(Key bound, Taker<Struct> to) : key(std::move(bound)), take(std::move(to)) {}
};

template <typename Struct>
struct Table {
  std::string_view name;
  std::string_view heading;
  std::vector<BoundKey<Struct>> keys;
  std::vector<Rule> rules = {};
  // What no key says alone: mirror images, rates from wire; after all keys.
  void (*complete)(const Node& map, Struct& into) = nullptr;
  bool takes_commas = false;
};

// Reads a map that Validate finds nothing wrong with.
template <typename Struct>
void Read(const Table<Struct>& table, const Node& map, Struct& into) {
  for (const BoundKey<Struct>& bound : table.keys) {
    if (bound.take) bound.take(Find(map, bound.key.name), bound.key, into);
  }
  if (table.complete != nullptr) table.complete(map, into);
}

// Places: a member,
template <typename Struct, typename Value>
Taker<Struct> Into(Value Struct::*member) {
  return
      [member](const Node* value, const Key& key, Struct& into) { Take(value, key, into.*member); };
}

// a member of a member,
template <typename Struct, typename Part, typename Value>
Taker<Struct> Into(Part Struct::*part, Value Part::*member) {
  return [part, member](const Node* value, const Key& key, Struct& into) {
    Take(value, key, into.*part.*member);
  };
}

// the same of a part that is there once one of its keys is given; its first key has no default,
template <typename Struct, typename Part, typename Value>
Taker<Struct> Into(std::optional<Part> Struct::*part, Value Part::*member) {
  return [part, member](const Node* value, const Key& key, Struct& into) {
    if (value != nullptr && !(into.*part)) (into.*part).emplace();
    if (into.*part) Take(value, key, *(into.*part).*member);
  };
}

// an item of an array,
template <typename Struct, typename Value, std::size_t n>
Taker<Struct> Into(std::array<Value, n> Struct::*array, std::size_t index) {
  return [array, index](const Node* value, const Key& key, Struct& into) {
    Take(value, key, (into.*array)[index]);
  };
}

// a member of such an item,
template <typename Struct, typename Item, std::size_t n, typename Value>
Taker<Struct> Into(std::array<Item, n> Struct::*array, std::size_t index, Value Item::*member) {
  return [array, index, member](const Node* value, const Key& key, Struct& into) {
    Take(value, key, (into.*array)[index].*member);
  };
}

// two members, for what stands in the two places of a list,
template <typename Struct, typename Value>
Taker<Struct> Into(Value Struct::*first, Value Struct::*second) {
  return [first, second](const Node* value, const Key& key, Struct& into) {
    if (value == nullptr) return;
    const std::vector<Key> items = ItemKeys(key);
    Take(&value->items[0], items[0], into.*first);
    Take(&value->items[1], items[1], into.*second);
  };
}

// whether the word is this one,
template <typename Struct>
Taker<Struct> Into(bool Struct::*member, std::string_view word) {
  return [member, word](const Node* value, const Key& key, Struct& into) {
    const auto index = WordIndex(value, key);
    if (index) into.*member = key.words[static_cast<std::size_t>(*index)] == word;
  };
}

// the same struct, for a group of its own keys,
template <typename Struct>
Taker<Struct> Into(Table<Struct> (*group)()) {
  return [table = group()](const Node* value, const Key&, Struct& into) {
    if (value != nullptr) Read(table, *value, into);
  };
}

// or such a place.
template <typename Struct>
Taker<Struct> Into(Taker<Struct> place) {
  return place;
}

// The lines of format_keys.h with the place that what stands there goes to.
template <typename To>
auto Bound(To to, Key key) {
  return BoundKey(std::move(key), Into(std::move(to)));
}

template <typename To>
auto Number(To to, std::string_view name, Dimension dimension, Range range,
            std::string_view meaning) {
  return Bound(to, Number(name, dimension, range, meaning));
}

template <typename To>
auto Point(To to, std::string_view name, std::string_view meaning) {
  return Bound(to, Point(name, meaning));
}

template <typename To>
auto SideView(To to, std::string_view name, std::string_view meaning) {
  return Bound(to, SideView(name, meaning));
}

template <typename To>
auto Flag(To to, std::string_view name, std::string_view meaning) {
  return Bound(to, Flag(name, meaning));
}

template <typename To>
auto Text(To to, std::string_view name, std::string_view meaning) {
  return Bound(to, Text(name, meaning));
}

template <typename To>
auto Word(To to, std::string_view name, std::vector<std::string_view> words,
          std::string_view meaning) {
  return Bound(to, Word(name, std::move(words), meaning));
}

template <typename To>
auto Map(To to, std::string_view name, std::string_view group, std::string_view meaning,
         Many many = Many::kOne) {
  return Bound(to, Map(name, group, meaning, many));
}

// What something is held against: a number that is not negative, with its default.
template <typename To>
auto Aim(To to, std::string_view name, Dimension dimension, std::string_view text,
         std::string_view meaning) {
  return Default(Number(to, name, dimension, kNotNegative, meaning), text);
}

template <typename Struct>
Key& KeyOf(BoundKey<Struct>& bound) {
  return bound.key;
}

template <typename Struct>
struct Of {};

// The table of each struct, in io/read/format_*.cc.
Table<AArm> KeysOf(Of<AArm>);
Table<Aims> KeysOf(Of<Aims>);
Table<Axle> KeysOf(Of<Axle>);
Table<BodyPlacing> KeysOf(Of<BodyPlacing>);
Table<CenterBearing> KeysOf(Of<CenterBearing>);
Table<Damper> KeysOf(Of<Damper>);
Table<Driveshaft> KeysOf(Of<Driveshaft>);
Table<Gap> KeysOf(Of<Gap>);
Table<Kingpin> KeysOf(Of<Kingpin>);
Table<LeafAims> KeysOf(Of<LeafAims>);
Table<LeafOriginal> KeysOf(Of<LeafOriginal>);
Table<LeafSpring> KeysOf(Of<LeafSpring>);
Table<LeafTolerances> KeysOf(Of<LeafTolerances>);
Table<Ledger> KeysOf(Of<Ledger>);
Table<Link> KeysOf(Of<Link>);
Table<Mass> KeysOf(Of<Mass>);
Table<Opening> KeysOf(Of<Opening>);
Table<Pinion> KeysOf(Of<Pinion>);
Table<RadiusArm> KeysOf(Of<RadiusArm>);
Table<ShaftAims> KeysOf(Of<ShaftAims>);
Table<Span> KeysOf(Of<Span>);
Table<Spring> KeysOf(Of<Spring>);
Table<SprungMass> KeysOf(Of<SprungMass>);
Table<Steering> KeysOf(Of<Steering>);
Table<SteeringAims> KeysOf(Of<SteeringAims>);
Table<Stop> KeysOf(Of<Stop>);
Table<Strap> KeysOf(Of<Strap>);
Table<Stretch> KeysOf(Of<Stretch>);
Table<TieRod> KeysOf(Of<TieRod>);
Table<Tire> KeysOf(Of<Tire>);
Table<Vehicle> KeysOf(Of<Vehicle>);
Table<WattsLink> KeysOf(Of<WattsLink>);

template <typename Struct>
const Table<Struct>& KeysOf() {
  static const Table<Struct> table = KeysOf(Of<Struct>{});
  return table;
}

// The group of a table, for the format table.
template <typename Struct>
Group GroupOf(const Table<Struct>& table = KeysOf<Struct>()) {
  Group group{table.name, table.heading, {}, table.rules, table.takes_commas};
  for (const BoundKey<Struct>& bound : table.keys) group.keys.push_back(bound.key);
  return group;
}

template <typename Struct>
[[nodiscard]] Struct Build(const Node& map) {
  Struct built{};
  Read(KeysOf<Struct>(), map, built);
  return built;
}

template <typename Struct>
void Take(const Node* value, const Key&, Struct& into) {
  into = Build<Struct>(value == nullptr ? Node{} : *value);
}

template <typename Struct>
void Take(const Node* value, const Key&, std::optional<Struct>& into) {
  if (value != nullptr) into = Build<Struct>(*value);
}

template <typename Struct>
void Take(const Node* value, const Key&, std::vector<Struct>& into) {
  if (value == nullptr) return;
  for (const Node& item : value->items) into.push_back(Build<Struct>(item));
  for (const Entry& entry : value->entries) {
    Struct built = Build<Struct>(entry.value);
    if constexpr (requires { built.name.side; }) {
      // Of a pair, the left one and then its mirror image.
      const bool pair = FlagAt(entry.value, "pair");
      built.name = {entry.key, pair ? Side::kLeft : Side::kMiddle};
      into.push_back(built);
      if (!pair) continue;
      built = Mirrored(std::move(built));
      built.name.side = Side::kRight;
    } else if constexpr (requires { built.name; }) {
      built.name = entry.key;
    }
    into.push_back(std::move(built));
  }
}

}  // namespace linkwright
