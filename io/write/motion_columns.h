// SPDX-License-Identifier: MIT
// The columns of the motions beside bounce, in one list.
#pragma once

#include "io/write/data_table.h"
#include "solver/study/curves/motions.h"

namespace linkwright {

// One row a step of the motion. Geometry-only files leave out forces.
[[nodiscard]] DataTable MotionTable(const Vehicle& vehicle, const MotionSweep& sweep,
                                    UnitSystem units);

// Every column there can be, "A" for an axle, "S" for a side, "LINK" for a link: for the output
// reference.
[[nodiscard]] std::vector<Column> AllMotionColumns();

}  // namespace linkwright
