// SPDX-License-Identifier: MIT
#include "io/write/data_table.h"

#include <fmt/format.h>

#include <cmath>

namespace linkwright {

// Not inline: seen through, it makes the compiler warn of a string that no cell holds.
Cell::Cell(std::optional<double> value) {
  if (value) emplace<double>(*value);
}

Cell CellIf(bool has_meaning, double value) { return has_meaning ? Cell(value) : Cell(); }

std::optional<double> NumberIn(const Cell& cell, Dimension dimension, UnitSystem units) {
  const auto* number = std::get_if<double>(&cell);
  if (number == nullptr) return std::nullopt;
  const double shown = FromSi(*number, dimension, units) + 0.0;
  return std::isfinite(shown) ? std::optional(shown) : std::nullopt;
}

std::string PlainText(const Cell& cell, Dimension dimension, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  const std::optional<double> number = NumberIn(cell, dimension, units);
  return number ? fmt::format("{:.12g}", *number) : std::string();
}

Cell InUnits(const Cell& cell, Dimension dimension, UnitSystem units) {
  return std::holds_alternative<double>(cell) ? Cell(NumberIn(cell, dimension, units)) : cell;
}

DataTable WithoutDetail(const DataTable& table) {
  DataTable less{.units = table.units, .columns = {}, .rows = {}};
  less.rows.resize(table.rows.size());
  for (size_t c = 0; c < table.columns.size(); ++c) {
    if (table.columns[c].detail) continue;
    less.columns.push_back(table.columns[c]);
    for (size_t r = 0; r < table.rows.size(); ++r) less.rows[r].push_back(table.rows[r][c]);
  }
  return less;
}

std::optional<size_t> FindColumn(const DataTable& table, const std::string& name) {
  for (size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].name == name) return i;
  }
  return std::nullopt;
}

std::string NameWithUnit(const Column& column, UnitSystem units) {
  return column.name + std::string(UnitOf(column.dimension, units).suffix);
}

std::string UnitName(const Column& column, UnitSystem units) {
  return std::string(UnitOf(column.dimension, units).name);
}

}  // namespace linkwright
