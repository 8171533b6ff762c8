// SPDX-License-Identifier: MIT
// The keys of a group, each bound to the member it is read into. One line of a table is all there
// is to a key: the format table takes its Key, Build its default and its place in the struct.
//   {&Link::thread, Number("thread", D::kLength, kPositive, "What a turn lengthens it by.")},
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
#include "io/read/format.h"
#include "io/read/mirrored.h"
#include "io/read/values.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// Puts what stands under a key into a member: of nothing (null) the key's default and, where it has
// none, the member as it was.
void Take(const Node* value, const Key& key, double& into);
void Take(const Node* value, const Key& key, std::optional<double>& into);
void Take(const Node* value, const Key& key, bool& into);
void Take(const Node* value, const Key& key, std::string& into);
void Take(const Node* value, const Key& key, Eigen::Vector3d& into);
void Take(const Node* value, const Key& key, std::optional<Eigen::Vector3d>& into);
void Take(const Node* value, const Key& key, Eigen::Vector2d& into);
void Take(const Node* value, const Key& key, std::optional<Eigen::Vector2d>& into);
void Take(const Node* value, const Key& key, std::vector<CurvePoint>& into);

// The place of a key's word, or of its default, among Key::words.
[[nodiscard]] std::optional<int> WordIndex(const Node* value, const Key& key);

// A word: its place among Key::words is the enumerator, or the number.
template <typename Word>
requires std::is_enum_v<Word> || std::is_same_v<Word, int>
void Take(const Node* value, const Key& key, Word& into) {
  if (const auto index = WordIndex(value, key)) into = static_cast<Word>(*index);
}

template <typename Word>
requires std::is_enum_v<Word>
void Take(const Node* value, const Key& key, std::optional<Word>& into) {
  if (const auto index = WordIndex(value, key)) into = static_cast<Word>(*index);
}

// Groups: one that is built with its defaults where it is absent, one that is absent then, and
// those of a list or under names of the user's own.
template <typename Struct>
requires std::is_class_v<Struct>
void Take(const Node* value, const Key& key, Struct& into);
template <typename Struct>
requires std::is_class_v<Struct>
void Take(const Node* value, const Key& key, std::optional<Struct>& into);
template <typename Struct>
void Take(const Node* value, const Key& key, std::vector<Struct>& into);

template <typename Struct>
struct Table;

template <typename Struct>
struct BoundKey {
  Key key;
  std::function<void(const Node* value, const Key& key, Struct& into)> take = {};

  // Read by Table::complete, or by nobody.
  BoundKey(Key unbound) : key(std::move(unbound)) {}  // NOLINT: a line of a table

  template <typename Value>
  BoundKey(Value Struct::*member, Key bound)
      : key(std::move(bound)), take([member](const Node* value, const Key& as, Struct& into) {
          Take(value, as, into.*member);
        }) {}

  // A member of a member.
  template <typename Part, typename Value>
  BoundKey(Part Struct::*part, Value Part::*member, Key bound)
      : key(std::move(bound)), take([part, member](const Node* value, const Key& as, Struct& into) {
          Take(value, as, into.*part.*member);
        }) {}

  // The same of one that is there once one of its keys is given; the first of them is no default.
  template <typename Part, typename Value>
  BoundKey(std::optional<Part> Struct::*part, Value Part::*member, Key bound)
      : key(std::move(bound)), take([part, member](const Node* value, const Key& as, Struct& into) {
          if (value != nullptr && !(into.*part)) (into.*part).emplace();
          if (into.*part) Take(value, as, *(into.*part).*member);
        }) {}

  // One item of an array.
  template <typename Value, std::size_t n>
  BoundKey(std::array<Value, n> Struct::*array, std::size_t index, Key bound)
      : key(std::move(bound)), take([array, index](const Node* value, const Key& as, Struct& into) {
          Take(value, as, (into.*array)[index]);
        }) {}

  // Whether a word is this one.
  BoundKey(bool Struct::*member, std::string_view word, Key bound)
      : key(std::move(bound)), take([member, word](const Node* value, const Key& as, Struct& into) {
          const auto index = WordIndex(value, as);
          if (index) into.*member = as.words[static_cast<std::size_t>(*index)] == word;
        }) {}

  // A group whose keys go into the same struct, where it is given.
  BoundKey(const Table<Struct>& (*group)(), Key bound)
      : key(std::move(bound)), take([group](const Node* value, const Key&, Struct& into) {
          if (value != nullptr) Read(group(), *value, into);
        }) {}
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

template <typename Struct>
struct Of {};

// The table of each struct, in io/read/format_*.cc.
const Table<AArm>& KeysOf(Of<AArm>);
const Table<Aims>& KeysOf(Of<Aims>);
const Table<Axle>& KeysOf(Of<Axle>);
const Table<CenterBearing>& KeysOf(Of<CenterBearing>);
const Table<Damper>& KeysOf(Of<Damper>);
const Table<Driveshaft>& KeysOf(Of<Driveshaft>);
const Table<Gap>& KeysOf(Of<Gap>);
const Table<Kingpin>& KeysOf(Of<Kingpin>);
const Table<LeafAims>& KeysOf(Of<LeafAims>);
const Table<LeafOriginal>& KeysOf(Of<LeafOriginal>);
const Table<LeafSpring>& KeysOf(Of<LeafSpring>);
const Table<Ledger>& KeysOf(Of<Ledger>);
const Table<Link>& KeysOf(Of<Link>);
const Table<Mass>& KeysOf(Of<Mass>);
const Table<Opening>& KeysOf(Of<Opening>);
const Table<Pinion>& KeysOf(Of<Pinion>);
const Table<RadiusArm>& KeysOf(Of<RadiusArm>);
const Table<ShaftAims>& KeysOf(Of<ShaftAims>);
const Table<Span>& KeysOf(Of<Span>);
const Table<Spring>& KeysOf(Of<Spring>);
const Table<SprungMass>& KeysOf(Of<SprungMass>);
const Table<Steering>& KeysOf(Of<Steering>);
const Table<SteeringAims>& KeysOf(Of<SteeringAims>);
const Table<Stop>& KeysOf(Of<Stop>);
const Table<Strap>& KeysOf(Of<Strap>);
const Table<TieRod>& KeysOf(Of<TieRod>);
const Table<Tire>& KeysOf(Of<Tire>);
const Table<Vehicle>& KeysOf(Of<Vehicle>);
const Table<WattsLink>& KeysOf(Of<WattsLink>);

// The group of a table, for the format table.
template <typename Struct>
Group GroupOf(const Table<Struct>& table) {
  Group group{table.name, table.heading, {}, table.rules, table.takes_commas};
  for (const BoundKey<Struct>& bound : table.keys) group.keys.push_back(bound.key);
  return group;
}

template <typename Struct>
Group GroupOf() {
  return GroupOf(KeysOf(Of<Struct>{}));
}

// Reads a map that Validate finds nothing wrong with.
template <typename Struct>
void Read(const Table<Struct>& table, const Node& map, Struct& into) {
  for (const BoundKey<Struct>& bound : table.keys) {
    if (bound.take) bound.take(Find(map, bound.key.name), bound.key, into);
  }
  if (table.complete != nullptr) table.complete(map, into);
}

template <typename Struct>
[[nodiscard]] Struct Build(const Node& map) {
  Struct built{};
  Read(KeysOf(Of<Struct>{}), map, built);
  return built;
}

template <typename Struct>
requires std::is_class_v<Struct>
void Take(const Node* value, const Key&, Struct& into) {
  into = Build<Struct>(value == nullptr ? Node{} : *value);
}

template <typename Struct>
requires std::is_class_v<Struct>
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
