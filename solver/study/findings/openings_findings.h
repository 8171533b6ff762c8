// SPDX-License-Identifier: MIT
// What wheels and tyres in their openings are pointed at for.
#pragma once

#include "solver/study/findings/finding.h"
#include "solver/study/openings/centring.h"

namespace linkwright {

[[nodiscard]] std::vector<Finding> OpeningsFindings(const Vehicle& vehicle,
                                                    const OpeningsReport& report);

// Plans to centre the wheels that were not found.
[[nodiscard]] std::vector<Finding> PlanFindings(const std::vector<CentringPlan>& plans);

}  // namespace linkwright
