// SPDX-License-Identifier: MIT
// A value for a sentence as a shop reads it, with its unit: "76 mm", "3 in", "4.1 deg".
#pragma once

#include <string>

#include "io/units.h"

namespace linkwright {

// Lengths to the millimetre or 1/16 in, angles to 0.1 deg, else as a table shows them. Never
// "-0 mm"; "no number of mm" for one that is not finite, which never leaves the program.
[[nodiscard]] std::string ShowAmount(double si, Dimension dimension, UnitSystem units);

// The same without its unit, for a cell under one: "76", "2 3/16".
[[nodiscard]] std::string ShowBare(double si, Dimension dimension, UnitSystem units);

// A length set by thread or shim: to 0.1 mm or 1/32 in.
[[nodiscard]] std::string ShowFine(double length, UnitSystem units);

// What a wheel puts on a scale: a force [N] as "412 kg", "908 lb".
[[nodiscard]] std::string ShowOnScale(double force, UnitSystem units);

// Whether it shows as nothing: "0 mm", "0.0 deg".
[[nodiscard]] bool ShowsNothing(double si, Dimension dimension, UnitSystem units);

// Shorter than this a tape shows nothing.
constexpr double kNothing = 5e-5;    // [m] as 0.0 mm
constexpr double kCentred = 1.2e-4;  // [m] as 0.00 in

// A number without a unit of the file, for a sentence: a share, a ratio, turns. "no number" for one
// that is not finite.
[[nodiscard]] std::string ShowNumber(double value, int decimals);

}  // namespace linkwright
