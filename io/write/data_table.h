// SPDX-License-Identifier: MIT
// A result as columns and rows, the one form every writer takes. Values are SI here; a writer turns
// them into the table's unit system.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "io/units.h"

namespace linkwright {

// Nothing, a number in SI, or text; a number that is absent is nothing.
struct Cell : std::variant<std::monostate, double, std::string> {
  using variant::variant;
  Cell() = default;
  Cell(std::optional<double> value);  // NOLINT: what may be absent is a cell as it stands
};

// The number where it has a meaning, else nothing.
[[nodiscard]] Cell CellIf(bool has_meaning, double value);

// A cell's number in the table's units, as every writer shows it; absent where there is none: a
// number that is not finite never leaves the program. No "-0".
[[nodiscard]] std::optional<double> NumberIn(const Cell& cell, Dimension dimension,
                                             UnitSystem units);

// As a spreadsheet reads it: a text as it is, a number to twelve significant digits in the table's
// units; empty where there is none.
[[nodiscard]] std::string PlainText(const Cell& cell, Dimension dimension, UnitSystem units);

// A cell for a column that has many units: its number already in its own.
[[nodiscard]] Cell InUnits(const Cell& cell, Dimension dimension, UnitSystem units);

struct Column {
  std::string name;  // without its unit: "front_lateral_shift"
  std::string head;  // words over it in a table: "lateral shift"
  Dimension dimension = Dimension::kNumber;
  std::string group;       // columns of one group stand in one printed table
  std::string definition;  // one sentence, sign included; empty for the columns of `compare`
  bool detail = false;     // printed with --full and --table alone; files have it always
};

// Made of a list of columns that know their values: io/write/table_of.h.
struct DataTable {
  UnitSystem units = UnitSystem::kMetric;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;  // each as long as columns
};

// The table without what is printed with --full alone.
[[nodiscard]] DataTable WithoutDetail(const DataTable& table);

// The index of the column of that name, without unit.
[[nodiscard]] std::optional<size_t> FindColumn(const DataTable& table, const std::string& name);

// "front_lateral_shift_mm": the name that CSV and JSON use.
[[nodiscard]] std::string NameWithUnit(const Column& column, UnitSystem units);

// "mm": the unit its numbers stand in.
[[nodiscard]] std::string UnitName(const Column& column, UnitSystem units);

}  // namespace linkwright
