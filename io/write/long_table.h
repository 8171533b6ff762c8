// SPDX-License-Identifier: MIT
// Several tables as one with a line a value, where one CSV must hold them all.
#pragma once

#include "io/write/json.h"

namespace linkwright {

// Columns table, row (the text of each row's first cell), quantity, unit, value. Values stand in
// the units of their table.
[[nodiscard]] DataTable ToLongTable(const std::vector<NamedTable>& tables);

}  // namespace linkwright
