// SPDX-License-Identifier: MIT
// A value for a sentence, with its unit and the decimals a table would show: "76.2 mm".
#pragma once

#include <string>

#include "io/units.h"

namespace linkwright {

// Never "-0.0 mm"; "no number of mm" for one that is not finite, which never leaves the program.
[[nodiscard]] std::string ShowAmount(double si, Dimension dimension, UnitSystem units);

// Shorter than this a tape shows nothing.
constexpr double kNothing = 5e-5;    // [m] as 0.0 mm
constexpr double kCentred = 1.2e-4;  // [m] as 0.00 in

// A number without a unit of the file, for a sentence: a share, a ratio, turns. "no number" for one
// that is not finite.
[[nodiscard]] std::string ShowNumber(double value, int decimals);

}  // namespace linkwright
