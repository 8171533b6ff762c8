// SPDX-License-Identifier: MIT
// What the steering and the place of the axles sideways are pointed at for.
#pragma once

#include "solver/study/findings/finding.h"
#include "solver/study/steering/steering_report.h"

namespace linkwright {

// What is judged is told, past its aim or not.
[[nodiscard]] std::vector<Finding> SteeringFindings(const Vehicle& vehicle,
                                                    const SteeringReport& report);

}  // namespace linkwright
