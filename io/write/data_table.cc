// SPDX-License-Identifier: MIT
#include "io/write/data_table.h"

namespace linkwright {

Cell CellIf(bool has_meaning, double value) {
  return ToCell(has_meaning ? std::optional(value) : std::nullopt);
}

Cell ToCell(std::optional<double> value) {
  if (!value) return std::monostate{};
  return *value;
}

std::string NameWithUnit(const Column& column, UnitSystem units) {
  return column.name + std::string(UnitOf(column.dimension, units).suffix);
}

}  // namespace linkwright
