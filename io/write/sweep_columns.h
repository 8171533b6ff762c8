// SPDX-License-Identifier: MIT
// The columns of a sweep: name, unit, definition and value of each, in one list.
#pragma once

#include "io/write/data_table.h"
#include "solver/study/curves/sweep.h"

namespace linkwright {

// Every column the vehicle has data for, one row a travel.
[[nodiscard]] DataTable SweepTable(const Vehicle& vehicle, const Sweep& sweep, UnitSystem units);

// Every column a sweep can have, with "A" for the axle's name where there is one an axle: for the
// output reference.
[[nodiscard]] std::vector<Column> AllSweepColumns();

}  // namespace linkwright
