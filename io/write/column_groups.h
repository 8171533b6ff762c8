// SPDX-License-Identifier: MIT
// The columns of a table by their groups, each of which is printed, or makes a sheet, by itself.
#pragma once

#include <string>
#include <vector>

#include "io/write/data_table.h"

namespace linkwright {

struct ColumnGroup {
  std::string name;
  std::vector<size_t> columns;  // indices; the table's first column leads every group
};

// In the order in which each is met first.
[[nodiscard]] std::vector<ColumnGroup> GroupsOf(const DataTable& table);

}  // namespace linkwright
