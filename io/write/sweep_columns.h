// SPDX-License-Identifier: MIT
// The columns of a sweep: name, unit, definition and value of each, in one list.
#pragma once

#include "io/write/data_table.h"
#include "solver/study/curves/sweep.h"

namespace linkwright {

// Every column the vehicle has data for, one row a travel.
[[nodiscard]] DataTable SweepTable(const Vehicle& vehicle, const Sweep& sweep, UnitSystem units);

}  // namespace linkwright
