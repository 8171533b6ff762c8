// SPDX-License-Identifier: MIT
// Short ways to write a line of the format table. Private to the files that hold the table.
#pragma once

#include <numbers>
#include <string_view>
#include <utility>
#include <vector>

#include "io/read/format.h"

namespace linkwright {

constexpr double kRightAngle = std::numbers::pi / 2;  // [rad]
constexpr Range kAny{};
constexpr Range kPositive{.low = 0.0, .above_low = true};
constexpr Range kNotNegative{.low = 0.0};
constexpr Range kShare{.low = 0.0, .high = 1.0};
constexpr Range kLean{.low = -kRightAngle / 2, .high = kRightAngle / 2};
constexpr Range kSlope{.low = -kRightAngle, .high = kRightAngle};
constexpr Range kLock{.low = 0.0, .high = kRightAngle * 2 / 3, .above_low = true};
constexpr Range kJointLimit{.low = 0.0, .high = kRightAngle, .above_low = true};
constexpr Range kHalfTurn{.low = -2 * kRightAngle, .high = 2 * kRightAngle};

inline Key Number(std::string_view name, Dimension dimension, Range range,
                  std::string_view meaning) {
  return {.name = name,
          .kind = Kind::kNumber,
          .meaning = meaning,
          .dimension = dimension,
          .range = range};
}

inline Key Point(std::string_view name, std::string_view meaning) {
  return {.name = name, .kind = Kind::kPoint, .meaning = meaning, .dimension = Dimension::kLength};
}

inline Key SideView(std::string_view name, std::string_view meaning) {
  return {.name = name, .kind = Kind::kSide, .meaning = meaning, .dimension = Dimension::kLength};
}

// true or false; false unless given.
inline Key Flag(std::string_view name, std::string_view meaning) {
  return {.name = name, .kind = Kind::kFlag, .meaning = meaning, .default_text = "false"};
}

inline Key Text(std::string_view name, std::string_view meaning) {
  return {.name = name, .kind = Kind::kText, .meaning = meaning};
}

inline Key Word(std::string_view name, std::vector<std::string_view> words,
                std::string_view meaning) {
  return {.name = name, .kind = Kind::kWord, .meaning = meaning, .words = std::move(words)};
}

// A map with the keys of a group of this name.
inline Key Map(std::string_view name, std::string_view group, std::string_view meaning,
               Many many = Many::kOne) {
  return {.name = name, .kind = Kind::kGroup, .meaning = meaning, .group = group, .many = many};
}

inline Key& KeyOf(Key& key) { return key; }

template <typename Line>
Line Required(Line line) {
  KeyOf(line).required = true;
  return line;
}

// `old` is its name in older files.
template <typename Line>
Line Formerly(std::string_view old, Line line) {
  KeyOf(line).formerly = old;
  return line;
}

// `text` is what would stand in the file.
template <typename Line>
Line Default(Line line, std::string_view text) {
  KeyOf(line).default_text = text;
  return line;
}

// The groups of one axle, and all others: each half of the table in its own file.
[[nodiscard]] std::vector<Group> AxleGroups();
[[nodiscard]] std::vector<Group> VehicleGroups();

}  // namespace linkwright
