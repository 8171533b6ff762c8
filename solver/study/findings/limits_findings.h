// SPDX-License-Identifier: MIT
// What the ends of travel, and the parts advised for a travel, are pointed at for.
#pragma once

#include "solver/study/findings/finding.h"
#include "solver/study/travel/limits.h"
#include "solver/study/travel/travel_parts.h"

namespace linkwright {

// How the travel ends as the file has it, and what is left of everything there and at rest.
//   advice   where parts are advised for a travel, its coils are judged in that; null: as found
[[nodiscard]] std::vector<Finding> LimitsFindings(const Vehicle& vehicle,
                                                  const LimitsReport& limits,
                                                  const PartsAdvice* advice = nullptr);

// What no part advised mends, heights that are no order, coils in the travel wanted.
[[nodiscard]] std::vector<Finding> AdviceFindings(const Vehicle& vehicle,
                                                  const PartsAdvice& advice);

}  // namespace linkwright
