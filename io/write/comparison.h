// SPDX-License-Identifier: MIT
// Two results of the same command side by side, column by column, with the differences.
#pragma once

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

// The same as a table: part, row, quantity, unit, first, second, difference, in `units`; for CSV.
[[nodiscard]] DataTable ToComparisonTable(const std::string& part, const Column& row_column,
                                          const std::vector<ComparedValue>& values,
                                          UnitSystem units);

}  // namespace linkwright
