// SPDX-License-Identifier: MIT
// Units: the only place with conversion factors. Inside the program everything is SI.
//
// Factors are exact, after NIST SP 811 (2008), appendix B: 1 in = 0.0254 m, 1 lb = 0.45359237 kg,
// 1 lbf = 4.4482216152605 N (1 lb under standard gravity, 9.80665 m/s2); the rest follow.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace linkwright {

// kMetric: mm, kg, N, N/mm, deg. kInch: in, lb, lbf, lbf/in, deg.
enum class UnitSystem { kMetric, kInch };

// What a number measures, with the SI unit it has inside.
enum class Dimension {
  kLength,        // [m]
  kMass,          // [kg]
  kForce,         // [N]
  kRate,          // of a spring, link or tyre [N/m]
  kAngle,         // [rad]
  kRollRate,      // [N m/rad]
  kDamping,       // [N s/m]
  kModulus,       // [Pa]
  kInertia,       // [kg m2]
  kShaftSpeed,    // [rad/s]
  kFrequency,     // [Hz]
  kPercent,       // a fraction inside, 1 = 100 %
  kAngleRatio,    // angle per angle, written deg/deg
  kRollGradient,  // [rad/(m/s2)], written deg/g
  kTorque,        // [N m]
  kAcceleration,  // of a turning shaft [rad/s2]
  kAngleRate,     // angle per length [rad/m]
  kLateral,       // acceleration sideways [m/s2], written g
  kNumber,        // a plain number
};

// A unit as written in files and tables.
struct Unit {
  std::string_view name;    // "N/mm"; empty for a plain number
  std::string_view suffix;  // of a CSV column: "_n_per_mm"; empty for a plain number
  double si;                // one of it, in the SI unit of its dimension
  int decimals;             // sensible in a table
};

// The unit a plain number in a file has, and the one results are written in.
[[nodiscard]] const Unit& UnitOf(Dimension dimension, UnitSystem system);

[[nodiscard]] double ToSi(double value, Dimension dimension, UnitSystem system);
[[nodiscard]] double FromSi(double si, Dimension dimension, UnitSystem system);

// An amount that is round in either system, in SI: 20 mm or 1 in.
[[nodiscard]] double RoundAmount(double metric, double inch, Dimension dimension,
                                 UnitSystem system);

// "metric" or "inch", or nothing.
[[nodiscard]] std::optional<UnitSystem> ParseUnitSystem(std::string_view text);
[[nodiscard]] std::string_view UnitSystemName(UnitSystem system);

// "length", "spring rate": how errors and documents call the dimension.
[[nodiscard]] std::string_view DimensionName(Dimension dimension);

// What is wanted, with examples: "a length such as 345, '13 1/2 in' or '345 mm'".
[[nodiscard]] std::string WantedText(Dimension dimension);

// One spelling of each unit a value of this dimension may carry, file units first.
[[nodiscard]] std::vector<std::string_view> UnitNames(Dimension dimension);

// A regular expression (ECMA 262) for the value strings of this dimension, for the JSON Schema. It
// takes all that ParseValue takes, and beyond it only numbers that are written right and are none:
// a fraction over 0 or over its denominator, more than 11 inches after the feet, 1e999.
[[nodiscard]] std::string ValuePattern(Dimension dimension);

// A value read from text: either the value or what is wrong with the text and what is wanted.
struct ParsedValue {
  std::optional<double> si;
  std::string error;  // empty where si is set
};

// Reads a number with or without a unit: "345", "13 1/2 in", "5' 3 1/4\"", "26 N/mm".
//   system    gives the unit where the text carries none
//   returns   the value in SI; finite always
//   errors    in ParsedValue::error, never thrown; does not depend on the locale
[[nodiscard]] ParsedValue ParseValue(std::string_view text, Dimension dimension, UnitSystem system);

// A value for a sentence, at most six digits and no trailing zeros: "359 mm", "0.64".
[[nodiscard]] std::string FormatValue(double si, Dimension dimension, UnitSystem system);

// A length as a tape shows it, to the nearest 1/16 in: "13 1/2", "-7/16", "0".
//   length   [m]
//   parts    of an inch: 16, 32
[[nodiscard]] std::string FormatFraction(double length, int parts = 16);

}  // namespace linkwright
