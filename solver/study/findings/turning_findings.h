// SPDX-License-Identifier: MIT
// What a vehicle is pointed at for in a corner.
#pragma once

#include "solver/study/findings/finding.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {

[[nodiscard]] std::vector<Finding> TurningFindings(const Vehicle& vehicle, const RollStudy& study);

}  // namespace linkwright
