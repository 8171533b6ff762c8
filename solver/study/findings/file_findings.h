// SPDX-License-Identifier: MIT
// What the measurements themselves give cause to look at: what the links do not hold, coils against
// scales, left against right, and what is possible but most likely a slip.
#pragma once

#include "solver/study/file/check.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// Measurements that are possible but most likely slips: a lost minus, a swapped end, a track for
// half a track. Each limit is far from what is built.
//   source   common practice; the limits are those beside FindingKind
[[nodiscard]] std::vector<Finding> FindOddities(const Vehicle& vehicle, const CheckReport& report);

// All that the report on the file is pointed at for. Needs no pose, so that it also judges links
// that leave an axle free.
//   source   docs/theory.md (105)
[[nodiscard]] std::vector<Finding> FileFindings(const Vehicle& vehicle, const CheckReport& report);

}  // namespace linkwright
