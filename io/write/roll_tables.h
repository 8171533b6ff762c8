// SPDX-License-Identifier: MIT
// The answer of `roll`, and its tables: name, unit, definition and value of each column.
#pragma once

#include "io/write/json.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {

// The answer of `roll` in at most eight sentences: how far it leans, when a wheel lifts and when it
// rolls over, the roll axis, roll steer.
[[nodiscard]] std::vector<std::string> RollAnswer(const Vehicle& vehicle, const RollStudy& study,
                                                  UnitSystem units);

// vehicle, roll stiffness, roll axis, turn, load transfer, wheels, wheel lift, and with a torque:
// shaft torque.
[[nodiscard]] std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
