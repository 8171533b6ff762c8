// SPDX-License-Identifier: MIT
#include "io/write/reading.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "io/write/amount.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

struct Ways {
  std::string_view name;  // what the column's own begins with, or ends in
  const char *plus, *minus;
};

// The first that fits; roll steer has its words by axle.
constexpr std::array kWays{Ways{"body_rise_", "up", "down"},
                           Ways{"travel_", "up", "down"},
                           Ways{"rake", "nose up", "nose down"},
                           Ways{"roll", "left up", "left down"},
                           Ways{"cg_x", "ahead", "back"},
                           Ways{"cg_y", "left", "right"},
                           Ways{"opening_up", "up", "down"},
                           Ways{"opening_ahead", "ahead", "back"},
                           Ways{"instant_center_ahead", "ahead", "back"},
                           Ways{"lateral_shift", "left", "right"},
                           Ways{"wheelbase_change", "longer", "shorter"},
                           Ways{"pinion_angle", "up", "down"},
                           Ways{"housing_pitch", "nose up", "nose down"},
                           Ways{"housing_roll", "left up", "left down"},
                           Ways{"roll_axis_slope", "up ahead", "down ahead"},
                           Ways{"steer", "left", "right"}};

bool IsWheelLoad(const Column& column) { return column.name.starts_with("wheel_load_"); }

bool HasDigit(const std::string& shown) {
  return shown.find_first_of("123456789") != std::string::npos;
}

std::string SizeOf(const Column& column, double si, UnitSystem units) {
  if (column.dimension == Dimension::kPercent) {
    const auto percent = NumberIn(si, Dimension::kPercent, units);
    return percent ? ShowNumber(*percent, 0) : "no number";
  }
  if (DimensionRead(column) != Dimension::kMass) return ShowBare(si, column.dimension, units);
  const double kilograms = IsWheelLoad(column) ? si / kStandardGravity : si;
  const auto mass = NumberIn(kilograms, Dimension::kMass, units);
  return mass ? ShowNumber(*mass, 0) : "no number";
}

std::string UnitAfter(const Column& column, UnitSystem units) {
  const std::string_view name = UnitOf(DimensionRead(column), units).name;
  return name.empty() ? std::string() : " " + std::string(name);
}

std::string ReadWith(const Column& column, double si, UnitSystem units, const std::string& unit) {
  const auto ways = WaysOf(column);
  if (!ways) return SizeOf(column, si, units) + unit;
  const std::string size = SizeOf(column, std::abs(si), units);
  if (!HasDigit(size)) return "none";
  return size + unit + " " + (si < 0.0 ? ways->second : ways->first);
}

}  // namespace

std::optional<std::pair<const char*, const char*>> WaysOf(const Column& column) {
  const std::string_view name = column.name;
  if (name.ends_with("roll_steer")) {
    constexpr std::pair kUnder{"understeer", "oversteer"}, kOver{"oversteer", "understeer"};
    return name.starts_with("rear") ? kUnder : kOver;
  }
  for (const Ways& ways : kWays) {
    const bool whole = ways.name == "roll" || ways.name == "rake";
    const bool is_it = whole                      ? name == ways.name
                       : ways.name.ends_with('_') ? name.starts_with(ways.name)
                                                  : name.ends_with(ways.name);
    if (is_it) return std::pair{ways.plus, ways.minus};
  }
  return std::nullopt;
}

double ReadsTo(const Column& column, double about) {
  constexpr auto kMetric = UnitSystem::kMetric, kInch = UnitSystem::kInch;
  const double share = 0.01 * std::abs(about);
  switch (column.dimension) {
    case Dimension::kLength:
      return ToSi(1.0 / 16.0, Dimension::kLength, kInch);
    case Dimension::kAngle:
      return ToSi(0.1, Dimension::kAngle, kMetric);
    case Dimension::kMass:
      return ToSi(5.0, Dimension::kMass, kInch);
    case Dimension::kForce:
      return ToSi(5.0, Dimension::kForce, kInch);
    case Dimension::kFrequency:
      return 0.02;
    case Dimension::kPercent:
      return 0.01;
    case Dimension::kAngleRatio:
      return 0.005;
    case Dimension::kRollGradient:
      return ToSi(0.1, Dimension::kRollGradient, kMetric);
    default:
      return std::max(share, ToSi(1.0, column.dimension, kMetric));
  }
}

Dimension DimensionRead(const Column& column) {
  return IsWheelLoad(column) ? Dimension::kMass : column.dimension;
}

std::string ReadOut(const Column& column, double si, UnitSystem units) {
  return ReadWith(column, si, units, UnitAfter(column, units));
}

std::string ReadBare(const Column& column, double si, UnitSystem units) {
  return ReadWith(column, si, units, {});
}

std::string ReadFromTo(const Column& column, double first, double second, UnitSystem units) {
  const auto ways = WaysOf(column);
  const std::string from = ReadOut(column, first, units), to = ReadOut(column, second, units);
  const bool one_way = !ways || (first < 0.0) == (second < 0.0);
  if (!one_way || from == "none" || to == "none") return from + " to " + to;
  return SizeOf(column, ways ? std::abs(first) : first, units) + " to " + to;
}

std::string ReadChange(const Column& column, double change, UnitSystem units) {
  const auto ways = WaysOf(column);
  const std::string size = column.dimension == Dimension::kAngleRatio
                               ? ShowNumber(std::abs(change), 2)
                               : SizeOf(column, std::abs(change), units);
  if (!HasDigit(size)) return "none";
  if (!ways) return size + (change < 0.0 ? " less" : " more");
  return size + " " + (change < 0.0 ? ways->second : ways->first);
}

std::string FullName(const Column& column) {
  for (const char* axle : {"front", "rear"}) {
    if (column.name.starts_with(std::string(axle) + "_") &&
        column.head.find(axle) == std::string::npos) {
      return std::string(axle) + " " + column.head;
    }
  }
  return column.head;
}

}  // namespace linkwright
