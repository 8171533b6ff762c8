// SPDX-License-Identifier: MIT
// What the ride about a stance is pointed at for.
#pragma once

#include "solver/study/findings/finding.h"
#include "solver/study/ride/ride_study.h"

namespace linkwright {

//   load   name of the one that the stance is under
[[nodiscard]] std::vector<Finding> RideFindings(const Vehicle& vehicle, const std::string& load,
                                                const RideReport& report);

// How an axle's ride frequency is judged: by its coils, or where a stop touches by that.
[[nodiscard]] Finding JudgeFrequency(size_t axle, double frequency, bool stop_touches,
                                     const Aims& aims);

}  // namespace linkwright
