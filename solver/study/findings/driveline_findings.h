// SPDX-License-Identifier: MIT
// What shafts are pointed at for.
#pragma once

#include "solver/study/driveline/driveline.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// Each joint at rest, the pair against one another, the pinion against where it is wanted, the slip
// over the travel, accelerations at speed, and a torque that finds no balance. What is judged of a
// whole shaft is told, past its aim or not.
[[nodiscard]] std::vector<Finding> DrivelineFindings(const Vehicle& vehicle,
                                                     const std::vector<ShaftReport>& reports);

// The least of something over every place of the housing.
[[nodiscard]] double LeastOver(const ShaftReport& report, std::optional<double> ShaftPlace::*what);

// What a spline is to keep before it bottoms and before it parts: the shaft's own aim, else the
// vehicle's [m].
[[nodiscard]] double AimBeforeBottoming(const Vehicle& vehicle, size_t shaft);
[[nodiscard]] double AimBeforeParting(const Vehicle& vehicle, size_t shaft);

}  // namespace linkwright
