// SPDX-License-Identifier: MIT
#include "io/write/amount.h"

#include <fmt/format.h>

#include <cmath>

#include "io/write/data_table.h"

namespace linkwright {

std::string ShowAmount(double si, Dimension dimension, UnitSystem units) {
  const Unit& unit = UnitOf(dimension, units);
  const std::optional<double> number = NumberIn(si, dimension, units);
  if (!number) return fmt::format("no number of {}", unit.name);
  return fmt::format("{} {}", ShowNumber(*number, unit.decimals), unit.name);
}

std::string ShowNumber(double value, int decimals) {
  if (!std::isfinite(value)) return "no number";
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find_first_of("123456789") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

}  // namespace linkwright
