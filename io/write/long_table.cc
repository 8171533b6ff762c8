// SPDX-License-Identifier: MIT
#include "io/write/long_table.h"

#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

// One value: its table, its row, its column.
struct LongPlace {
  const NamedTable& in;
  const std::vector<Cell>& row;
  const Column& column;
  const Cell& value;
};

// The text of its row's first cell.
std::string RowName(const LongPlace& at) {
  const DataTable& table = at.in.table;
  return PlainText(at.row[0], table.columns[0].dimension, table.units);
}

}  // namespace

DataTable ToLongTable(const std::vector<NamedTable>& tables) {
  const TableOf<LongPlace> columns{
      {"table", "table", kNumber, "", [](auto& at) { return at.in.name; }},
      {"row", "row", kNumber, "", RowName},
      {"quantity", "quantity", kNumber, "", [](auto& at) { return at.column.name; }},
      {"unit", "unit", kNumber, "",
       [](auto& at) { return UnitName(at.column, at.in.table.units); }},
      {"value", "value", kNumber, "",
       [](auto& at) { return InUnits(at.value, at.column.dimension, at.in.table.units); }}};
  std::vector<LongPlace> values;
  for (const NamedTable& named : tables) {
    for (const std::vector<Cell>& row : named.table.rows) {
      for (size_t i = 1; i < row.size(); ++i) {
        values.push_back({named, row, named.table.columns[i], row[i]});
      }
    }
  }
  return ToTable(columns, values);
}

}  // namespace linkwright
