// SPDX-License-Identifier: MIT
#include "io/write/long_table.h"

#include <fmt/format.h>

namespace linkwright {
namespace {

// A value as the long table's value column holds it: numbers already in their unit, since one
// column has many units.
Cell InUnits(const Cell& cell, Dimension dimension, UnitSystem units) {
  if (std::holds_alternative<double>(cell)) return Cell(NumberIn(cell, dimension, units));
  return cell;
}

std::string RowName(const Cell& cell, const Column& column, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  const std::optional<double> number = NumberIn(cell, column.dimension, units);
  return number ? fmt::format("{:.12g}", *number) : std::string();
}

}  // namespace

DataTable ToLongTable(const std::vector<NamedTable>& tables) {
  DataTable all;
  for (const char* name : {"table", "row", "quantity", "unit", "value"}) {
    all.columns.push_back({name, name, Dimension::kNumber, "", ""});
  }
  for (const NamedTable& named : tables) {
    const DataTable& table = named.table;
    for (const std::vector<Cell>& row : table.rows) {
      for (size_t i = 1; i < row.size(); ++i) {
        const Column& column = table.columns[i];
        const Unit& unit = UnitOf(column.dimension, table.units);
        all.rows.push_back({named.name, RowName(row[0], table.columns[0], table.units), column.name,
                            std::string(unit.name),
                            InUnits(row[i], column.dimension, table.units)});
      }
    }
  }
  return all;
}

}  // namespace linkwright
