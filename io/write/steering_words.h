// SPDX-License-Identifier: MIT
// The answer of `steering` in sentences: how much bump steers and which way, what to move, toe,
// lock to lock, caster, and what centres an axle.
#pragma once

#include <string>
#include <vector>

#include "io/units.h"
#include "solver/study/steering/steering_report.h"

namespace linkwright {

// At most eight.
[[nodiscard]] std::vector<std::string> SteeringSentences(const Vehicle& vehicle,
                                                         const SteeringReport& report,
                                                         UnitSystem units);

}  // namespace linkwright
