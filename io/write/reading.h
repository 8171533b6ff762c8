// SPDX-License-Identifier: MIT
// A quantity as a person reads it: which way in words, and how finely the shop's instruments show
// it.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "io/write/data_table.h"

namespace linkwright {

// The ways of a column that has two, by its name: + first, "up" and "down"; of an axle's columns
// "front_", "rear_" before it. None for a plain amount.
[[nodiscard]] std::optional<std::pair<const char*, const char*>> WaysOf(const Column& column);

// What a tape, a digital finder or a scale pad tells apart [SI]: 1/16 in, 0.1 deg, 5 lb; of what no
// instrument reads, a hundredth of `about` or the last figure that a sentence shows.
[[nodiscard]] double ReadsTo(const Column& column, double about);

// "8 mm up", "0.6 deg nose up", "426 kg", "none"; of wheel loads as a scale shows them.
[[nodiscard]] std::string ReadOut(const Column& column, double si, UnitSystem units);

// The same under its unit: "8 up", "426". The unit is that of DimensionRead.
[[nodiscard]] std::string ReadBare(const Column& column, double si, UnitSystem units);

// What it is read in: a wheel load as a mass, else its own.
[[nodiscard]] Dimension DimensionRead(const Column& column);

// "5.6 to 4.1 deg up", "2 mm up to 3 mm down".
[[nodiscard]] std::string ReadFromTo(const Column& column, double first, double second,
                                     UnitSystem units);

// A change of it under its unit, second less first: "2 up", "5 more", "0.04 less", "none".
[[nodiscard]] std::string ReadChange(const Column& column, double change, UnitSystem units);

// "rear anti-squat": the head with its axle before it, for columns that stand outside its group.
[[nodiscard]] std::string FullName(const Column& column);

}  // namespace linkwright
