// SPDX-License-Identifier: MIT
#include "io/units.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <numbers>

#include "io/units_table.h"

namespace linkwright {
namespace {

// Exact factors: NIST SP 811 (2008), appendix B.8 and B.9; kGravity is the standard one, B.8.
constexpr double kInch = 0.0254;                 // [m]
constexpr double kFoot = 0.3048;                 // [m]
constexpr double kPound = 0.45359237;            // [kg]
constexpr double kGravity = 9.80665;             // [m/s2]
constexpr double kPoundForce = 4.4482216152605;  // [N], kPound * kGravity
constexpr double kRadiansInDegree = std::numbers::pi / 180.0;
constexpr double kRpm = 2.0 * std::numbers::pi / 60.0;  // [rad/s]

// What stands in a file's plain numbers and in results: metric, then inch.
struct DimensionRow {
  Dimension dimension;
  std::string_view name;
  std::string_view examples;
  Unit metric;
  Unit inch;
};

constexpr Unit kDeg{"deg", "_deg", kRadiansInDegree, 2};
constexpr Unit kRevs{"rpm", "_rpm", kRpm, 0};
constexpr Unit kHertz{"Hz", "_hz", 1.0, 2};
constexpr Unit kPct{"%", "_pct", 0.01, 1};
constexpr Unit kDegPerDeg{"deg/deg", "_deg_per_deg", 1.0, 3};
constexpr Unit kDegPerG{"deg/g", "_deg_per_g", kRadiansInDegree / kGravity, 2};
constexpr Unit kRadPerS2{"rad/s2", "_rad_per_s2", 1.0, 0};
constexpr Unit kGravities{"g", "_g", kGravity, 2};
constexpr Unit kPlain{"", "", 1.0, 3};

// In the order of enum Dimension.
constexpr std::array kDimensions{
    DimensionRow{Dimension::kLength,
                 "length",
                 "a length such as 345, '13 1/2 in' or '345 mm'",
                 {"mm", "_mm", 1e-3, 1},
                 {"in", "_in", kInch, 2}},
    DimensionRow{Dimension::kMass,
                 "mass",
                 "a mass such as 128, '128 kg' or '282 lb'",
                 {"kg", "_kg", 1.0, 1},
                 {"lb", "_lb", kPound, 0}},
    DimensionRow{Dimension::kForce,
                 "force",
                 "a force such as 700, '700 N' or '157 lbf'",
                 {"N", "_n", 1.0, 0},
                 {"lbf", "_lbf", kPoundForce, 0}},
    DimensionRow{Dimension::kRate,
                 "spring rate",
                 "a spring rate such as 26, '26 N/mm' or '150 lbf/in'",
                 {"N/mm", "_n_per_mm", 1e3, 2},
                 {"lbf/in", "_lbf_per_in", kPoundForce / kInch, 1}},
    DimensionRow{Dimension::kAngle, "angle", "an angle such as 3, '3 deg' or '0.05 rad'", kDeg,
                 kDeg},
    DimensionRow{Dimension::kRollRate,
                 "roll rate",
                 "a roll rate such as 210, '210 N*m/deg' or '155 lbf*ft/deg'",
                 {"N*m/deg", "_n_m_per_deg", 1.0 / kRadiansInDegree, 1},
                 {"lbf*ft/deg", "_lbf_ft_per_deg", kPoundForce* kFoot / kRadiansInDegree, 1}},
    DimensionRow{Dimension::kDamping,
                 "damping rate",
                 "a damping rate such as 1.1, '1.1 N*s/mm' or '6.3 lbf*s/in'",
                 {"N*s/mm", "_n_s_per_mm", 1e3, 2},
                 {"lbf*s/in", "_lbf_s_per_in", kPoundForce / kInch, 2}},
    DimensionRow{Dimension::kModulus,
                 "shear modulus",
                 "a shear modulus such as '81.5 GPa' or '11.5 Mpsi'",
                 {"GPa", "_gpa", 1e9, 2},
                 {"Mpsi", "_mpsi", 1e6 * kPoundForce / (kInch * kInch), 2}},
    DimensionRow{Dimension::kInertia,
                 "inertia",
                 "an inertia such as 2100, '2100 kg*m2' or '50000 lb*ft2'",
                 {"kg*m2", "_kg_m2", 1.0, 0},
                 {"lb*ft2", "_lb_ft2", kPound* kFoot* kFoot, 0}},
    DimensionRow{Dimension::kShaftSpeed, "shaft speed", "a shaft speed such as 3600 or '3600 rpm'",
                 kRevs, kRevs},
    DimensionRow{Dimension::kFrequency, "frequency", "a frequency such as 1.3 or '1.3 Hz'", kHertz,
                 kHertz},
    DimensionRow{Dimension::kPercent, "percentage", "a percentage such as 60 or '60 %'", kPct,
                 kPct},
    DimensionRow{Dimension::kAngleRatio, "ratio of angles", "a ratio of angles such as 0.05",
                 kDegPerDeg, kDegPerDeg},
    DimensionRow{Dimension::kRollGradient, "roll gradient",
                 "a roll gradient such as 5 or '5 deg/g'", kDegPerG, kDegPerG},
    DimensionRow{Dimension::kTorque,
                 "torque",
                 "a torque such as 1500, '1500 N*m' or '1100 lbf*ft'",
                 {"N*m", "_n_m", 1.0, 0},
                 {"lbf*ft", "_lbf_ft", kPoundForce* kFoot, 0}},
    DimensionRow{Dimension::kAcceleration, "angular acceleration",
                 "an angular acceleration such as 400 or '400 rad/s2'", kRadPerS2, kRadPerS2},
    DimensionRow{Dimension::kAngleRate,
                 "angle per length",
                 "an angle per length such as '0.1 deg/in' or '0.004 deg/mm'",
                 {"deg/mm", "_deg_per_mm", kRadiansInDegree / 1e-3, 4},
                 {"deg/in", "_deg_per_in", kRadiansInDegree / kInch, 3}},
    DimensionRow{Dimension::kLateral, "sideways acceleration",
                 "an acceleration such as 0.5, '0.5 g' or '4.9 m/s2'", kGravities, kGravities},
    DimensionRow{Dimension::kNumber, "plain number", "a plain number such as 0.64", kPlain, kPlain},
};

constexpr bool RowsFollowTheEnum() {
  for (std::size_t i = 0; i < kDimensions.size(); ++i) {
    if (kDimensions[i].dimension != static_cast<Dimension>(i)) return false;
  }
  return kDimensions.size() == static_cast<std::size_t>(Dimension::kNumber) + 1;
}
static_assert(RowsFollowTheEnum());

const DimensionRow& RowOf(Dimension dimension) {
  return kDimensions[static_cast<std::size_t>(dimension)];
}

using D = Dimension;

// Every unit a value string may carry. A '*' may be left out or written as a blank, '-' or a dot;
// capitals do not matter. First the ones worth showing, then other ways to write them.
constexpr std::array kSpellings{
    UnitSpelling{"mm", D::kLength, 1e-3, true},
    UnitSpelling{"cm", D::kLength, 1e-2, true},
    UnitSpelling{"m", D::kLength, 1.0, true},
    UnitSpelling{"in", D::kLength, kInch, true},
    UnitSpelling{"ft", D::kLength, kFoot, true},
    UnitSpelling{"\"", D::kLength, kInch, false},
    UnitSpelling{"inch", D::kLength, kInch, false},
    UnitSpelling{"inches", D::kLength, kInch, false},
    UnitSpelling{"'", D::kLength, kFoot, false},
    UnitSpelling{"foot", D::kLength, kFoot, false},
    UnitSpelling{"feet", D::kLength, kFoot, false},
    UnitSpelling{"kg", D::kMass, 1.0, true},
    UnitSpelling{"g", D::kMass, 1e-3, true},
    UnitSpelling{"t", D::kMass, 1e3, true},
    UnitSpelling{"lb", D::kMass, kPound, true},
    UnitSpelling{"lbs", D::kMass, kPound, false},
    UnitSpelling{"lbm", D::kMass, kPound, false},
    UnitSpelling{"pound", D::kMass, kPound, false},
    UnitSpelling{"pounds", D::kMass, kPound, false},
    UnitSpelling{"#", D::kMass, kPound, false},
    UnitSpelling{"kgs", D::kMass, 1.0, false},
    UnitSpelling{"N", D::kForce, 1.0, true},
    UnitSpelling{"kN", D::kForce, 1e3, true},
    UnitSpelling{"lbf", D::kForce, kPoundForce, true},
    UnitSpelling{"kgf", D::kForce, kGravity, true},
    UnitSpelling{"daN", D::kForce, 10.0, true},
    UnitSpelling{"lb", D::kForce, kPoundForce, false},
    UnitSpelling{"lbs", D::kForce, kPoundForce, false},
    UnitSpelling{"N/mm", D::kRate, 1e3, true},
    UnitSpelling{"kN/mm", D::kRate, 1e6, true},
    UnitSpelling{"N/m", D::kRate, 1.0, true},
    UnitSpelling{"kN/m", D::kRate, 1e3, true},
    UnitSpelling{"lbf/in", D::kRate, kPoundForce / kInch, true},
    UnitSpelling{"lbf/ft", D::kRate, kPoundForce / kFoot, true},
    UnitSpelling{"kgf/mm", D::kRate, kGravity * 1e3, true},
    UnitSpelling{"lb/in", D::kRate, kPoundForce / kInch, true},
    UnitSpelling{"lbs/in", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"#/in", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"#/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"ppi", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"pound/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"pounds/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"lb/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"lbs/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"lbf/inch", D::kRate, kPoundForce / kInch, false},
    UnitSpelling{"lb/ft", D::kRate, kPoundForce / kFoot, false},
    UnitSpelling{"kgf/cm", D::kRate, kGravity * 1e2, false},
    UnitSpelling{"N/cm", D::kRate, 1e2, false},
    UnitSpelling{"deg", D::kAngle, kRadiansInDegree, true},
    UnitSpelling{"rad", D::kAngle, 1.0, true},
    UnitSpelling{"mrad", D::kAngle, 1e-3, false},
    UnitSpelling{"degree", D::kAngle, kRadiansInDegree, false},
    UnitSpelling{"degrees", D::kAngle, kRadiansInDegree, false},
    UnitSpelling{"N*m/deg", D::kRollRate, 1.0 / kRadiansInDegree, true},
    UnitSpelling{"N*m/rad", D::kRollRate, 1.0, true},
    UnitSpelling{"kN*m/deg", D::kRollRate, 1e3 / kRadiansInDegree, true},
    UnitSpelling{"kN*m/rad", D::kRollRate, 1e3, true},
    UnitSpelling{"lbf*ft/deg", D::kRollRate, kPoundForce* kFoot / kRadiansInDegree, true},
    UnitSpelling{"lbf*in/deg", D::kRollRate, kPoundForce* kInch / kRadiansInDegree, true},
    UnitSpelling{"lbf*ft/rad", D::kRollRate, kPoundForce* kFoot, true},
    UnitSpelling{"lbf*in/rad", D::kRollRate, kPoundForce* kInch, true},
    UnitSpelling{"ft*lbf/deg", D::kRollRate, kPoundForce* kFoot / kRadiansInDegree, false},
    UnitSpelling{"in*lbf/deg", D::kRollRate, kPoundForce* kInch / kRadiansInDegree, false},
    UnitSpelling{"lb*ft/deg", D::kRollRate, kPoundForce* kFoot / kRadiansInDegree, false},
    UnitSpelling{"ft*lb/deg", D::kRollRate, kPoundForce* kFoot / kRadiansInDegree, false},
    UnitSpelling{"lb*in/deg", D::kRollRate, kPoundForce* kInch / kRadiansInDegree, false},
    UnitSpelling{"in*lb/deg", D::kRollRate, kPoundForce* kInch / kRadiansInDegree, false},
    UnitSpelling{"N*s/mm", D::kDamping, 1e3, true},
    UnitSpelling{"N*s/m", D::kDamping, 1.0, true},
    UnitSpelling{"kN*s/m", D::kDamping, 1e3, true},
    UnitSpelling{"lbf*s/in", D::kDamping, kPoundForce / kInch, true},
    UnitSpelling{"lb*s/in", D::kDamping, kPoundForce / kInch, false},
    UnitSpelling{"GPa", D::kModulus, 1e9, true},
    UnitSpelling{"MPa", D::kModulus, 1e6, true},
    UnitSpelling{"N/mm2", D::kModulus, 1e6, true},
    UnitSpelling{"psi", D::kModulus, kPoundForce / (kInch * kInch), true},
    UnitSpelling{"Mpsi", D::kModulus, 1e6 * kPoundForce / (kInch * kInch), true},
    UnitSpelling{"ksi", D::kModulus, 1e3 * kPoundForce / (kInch * kInch), false},
    UnitSpelling{"kg*m2", D::kInertia, 1.0, true},
    UnitSpelling{"lb*ft2", D::kInertia, kPound* kFoot* kFoot, true},
    UnitSpelling{"lb*in2", D::kInertia, kPound* kInch* kInch, true},
    UnitSpelling{"lbf*ft*s2", D::kInertia, kPoundForce* kFoot, true},
    UnitSpelling{"lbf*in*s2", D::kInertia, kPoundForce* kInch, true},
    UnitSpelling{"slug*ft2", D::kInertia, kPoundForce* kFoot, true},
    UnitSpelling{"rpm", D::kShaftSpeed, kRpm, true},
    UnitSpelling{"rad/s", D::kShaftSpeed, 1.0, true},
    UnitSpelling{"1/min", D::kShaftSpeed, kRpm, false},
    UnitSpelling{"r/min", D::kShaftSpeed, kRpm, false},
    UnitSpelling{"Hz", D::kFrequency, 1.0, true},
    UnitSpelling{"%", D::kPercent, 0.01, true},
    UnitSpelling{"deg/deg", D::kAngleRatio, 1.0, true},
    UnitSpelling{"deg/g", D::kRollGradient, kRadiansInDegree / kGravity, true},
    UnitSpelling{"g", D::kLateral, kGravity, true},
    UnitSpelling{"m/s2", D::kLateral, 1.0, true},
    UnitSpelling{"ft/s2", D::kLateral, kFoot, false},
    UnitSpelling{"N*m", D::kTorque, 1.0, true},
    UnitSpelling{"kN*m", D::kTorque, 1e3, true},
    UnitSpelling{"lbf*ft", D::kTorque, kPoundForce* kFoot, true},
    UnitSpelling{"lbf*in", D::kTorque, kPoundForce* kInch, true},
    UnitSpelling{"kgf*m", D::kTorque, kGravity, true},
    UnitSpelling{"lb*ft", D::kTorque, kPoundForce* kFoot, false},
    UnitSpelling{"ft*lb", D::kTorque, kPoundForce* kFoot, false},
    UnitSpelling{"ft*lbf", D::kTorque, kPoundForce* kFoot, false},
    UnitSpelling{"lb*in", D::kTorque, kPoundForce* kInch, false},
    UnitSpelling{"in*lb", D::kTorque, kPoundForce* kInch, false},
    UnitSpelling{"in*lbf", D::kTorque, kPoundForce* kInch, false},
    UnitSpelling{"rad/s2", D::kAcceleration, 1.0, true},
    UnitSpelling{"deg/mm", D::kAngleRate, kRadiansInDegree / 1e-3, true},
    UnitSpelling{"deg/in", D::kAngleRate, kRadiansInDegree / kInch, true},
    UnitSpelling{"deg/m", D::kAngleRate, kRadiansInDegree, true},
    UnitSpelling{"rad/m", D::kAngleRate, 1.0, true},
};

}  // namespace

std::span<const UnitSpelling> UnitSpellings() { return kSpellings; }

const Unit& UnitOf(Dimension dimension, UnitSystem system) {
  const DimensionRow& row = RowOf(dimension);
  return system == UnitSystem::kMetric ? row.metric : row.inch;
}

double ToSi(double value, Dimension dimension, UnitSystem system) {
  return value * UnitOf(dimension, system).si;
}

double FromSi(double si, Dimension dimension, UnitSystem system) {
  return si / UnitOf(dimension, system).si;
}

double RoundAmount(double metric, double inch, Dimension dimension, UnitSystem system) {
  return ToSi(system == UnitSystem::kMetric ? metric : inch, dimension, system);
}

std::optional<UnitSystem> ParseUnitSystem(std::string_view text) {
  if (text == "metric") return UnitSystem::kMetric;
  if (text == "inch") return UnitSystem::kInch;
  return std::nullopt;
}

std::string_view UnitSystemName(UnitSystem system) {
  return system == UnitSystem::kMetric ? "metric" : "inch";
}

std::string_view DimensionName(Dimension dimension) { return RowOf(dimension).name; }

std::string WantedText(Dimension dimension) { return std::string(RowOf(dimension).examples); }

std::vector<std::string_view> UnitNames(Dimension dimension) {
  std::vector<std::string_view> names;
  for (const UnitSpelling& spelling : UnitSpellings()) {
    if (spelling.shown && spelling.dimension == dimension) names.push_back(spelling.text);
  }
  return names;
}

std::string FormatValue(double si, Dimension dimension, UnitSystem system) {
  const Unit& unit = UnitOf(dimension, system);
  const double value = FromSi(si, dimension, system) + 0.0;  // + 0.0 turns -0 into 0
  return unit.name.empty() ? fmt::format("{:.6g}", value)
                           : fmt::format("{:.6g} {}", value, unit.name);
}

std::string FormatFraction(double length, int parts) {
  const long long rounded = std::llround(length / kInch * parts);
  if (rounded == 0) return "0";
  const long long size = std::llabs(rounded);
  const std::string sign = rounded < 0 ? "-" : "";
  const long long whole = size / parts;
  long long numerator = size % parts;
  if (numerator == 0) return fmt::format("{}{}", sign, whole);
  long long denominator = parts;
  for (; numerator % 2 == 0; numerator /= 2) denominator /= 2;
  if (whole == 0) return fmt::format("{}{}/{}", sign, numerator, denominator);
  return fmt::format("{}{} {}/{}", sign, whole, numerator, denominator);
}

}  // namespace linkwright
