// SPDX-License-Identifier: MIT
// The column tables of docs/output.md, made from the lists that fill the results.
#pragma once

#include <string>
#include <vector>

#include "io/write/data_table.h"

namespace linkwright {

// A markdown table, one line a column: its name in metric and in inch units, and its definition.
[[nodiscard]] std::string ColumnReference(const std::vector<Column>& columns);

// A markdown table of what each name ends with and the unit that stands for, in both systems.
[[nodiscard]] std::string UnitReference();

}  // namespace linkwright
