// SPDX-License-Identifier: MIT
// Two results of the same command side by side, column by column, with the differences.
#pragma once

#include <array>

#include "io/write/data_table.h"

namespace linkwright {

// One number of both: in which row, which quantity, what each has and second less first.
struct ComparedValue {
  Cell row;                                         // the rows' first cell: a load's name, a travel
  Column column;                                    // of the first table
  std::optional<double> first, second, difference;  // SI
};

// Pairs rows by their first cell (travels to within 1 um) and columns by name; what only one table
// has is left out. Both tables in the same unit system.
[[nodiscard]] std::vector<ComparedValue> CompareTables(const DataTable& first,
                                                       const DataTable& second);

// Those of one row together, and those of one column: each list in the order of its first value.
[[nodiscard]] std::vector<std::vector<ComparedValue>> ByRow(
    const std::vector<ComparedValue>& values);
[[nodiscard]] std::vector<std::vector<ComparedValue>> ByColumn(
    const std::vector<ComparedValue>& values);

// Values of one column, row by row: first, second, change.
//   row_column   of the rows' first cells
[[nodiscard]] DataTable ChangesOfColumn(const Column& row_column,
                                        const std::vector<ComparedValue>& values, UnitSystem units);

// Values of one row, a column each: the lines first, second and change under "WHAT: its name".
//   what   the row is: "load"
[[nodiscard]] DataTable ChangesOfRow(const std::string& what,
                                     const std::vector<ComparedValue>& values, UnitSystem units);

// Both tables in one, for a spreadsheet: the key column of the first, then for every column that
// both have first, second and difference side by side ("rear_anti_squat_first", ..._second,
// ..._difference). Rows of numbers (travels) are those that either has, ascending; rows of texts
// (loads) those that both have, in the order of the first.
[[nodiscard]] DataTable SideBySide(const DataTable& first, const DataTable& second);

// What a column has at its first row, at 0 and at its last row, in each of two tables.
struct CurveEnds {
  Column column;                                       // of the first table
  std::array<std::optional<double>, 3> first, second;  // SI; absent: no such row
};

// The columns that both have.
[[nodiscard]] std::vector<CurveEnds> CompareEnds(const DataTable& first, const DataTable& second);

}  // namespace linkwright
