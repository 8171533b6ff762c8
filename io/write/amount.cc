// SPDX-License-Identifier: MIT
#include "io/write/amount.h"

#include <fmt/format.h>

#include <cmath>

#include "io/write/data_table.h"
#include "solver/model/masses.h"

namespace linkwright {

std::string ShowAmount(double si, Dimension dimension, UnitSystem units) {
  const Unit& unit = UnitOf(dimension, units);
  const std::optional<double> number = NumberIn(si, dimension, units);
  if (!number) return fmt::format("no number of {}", unit.name);
  return fmt::format("{} {}", ShowBare(si, dimension, units), unit.name);
}

std::string ShowBare(double si, Dimension dimension, UnitSystem units) {
  const std::optional<double> number = NumberIn(si, dimension, units);
  if (!number) return "no number";
  int decimals = UnitOf(dimension, units).decimals;
  if (dimension == Dimension::kLength) {
    if (units == UnitSystem::kInch) return FormatFraction(si);
    decimals = 0;
  }
  if (dimension == Dimension::kAngle) decimals = 1;
  return ShowNumber(*number, decimals);
}

bool ShowsNothing(double si, Dimension dimension, UnitSystem units) {
  return ShowAmount(si, dimension, units) == ShowAmount(0.0, dimension, units);
}

std::string ShowFine(double length, UnitSystem units) {
  if (!std::isfinite(length)) return ShowAmount(length, Dimension::kLength, units);
  if (units == UnitSystem::kInch) return FormatFraction(length, 32) + " in";
  return ShowNumber(*NumberIn(length, Dimension::kLength, units), 1) + " mm";
}

std::string ShowOnScale(double force, UnitSystem units) {
  const bool metric = units == UnitSystem::kMetric;
  const std::optional<double> mass = NumberIn(force / kStandardGravity, Dimension::kMass, units);
  if (!mass) return "no number of kg";
  return ShowNumber(*mass, 0) + (metric ? " kg" : " lb");
}

std::string ShowNumber(double value, int decimals) {
  if (!std::isfinite(value)) return "no number";
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find_first_of("123456789") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

}  // namespace linkwright
