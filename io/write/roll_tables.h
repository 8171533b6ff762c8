// SPDX-License-Identifier: MIT
// The tables of `roll`: name, unit, definition and value of each column.
#pragma once

#include "io/write/json.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {

// vehicle, roll stiffness, roll axis, turn, load transfer, wheels, wheel lift, and with a torque:
// shaft torque.
[[nodiscard]] std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
