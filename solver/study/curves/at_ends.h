// SPDX-License-Identifier: MIT
// One axle at the two ends of its travel and at rest: the curves in three rows.
#pragma once

#include "solver/study/curves/sweep.h"

namespace linkwright {

// Full droop, rest, full bump, each as a row of a sweep of this axle alone.
struct AxleAtEnds {
  std::array<double, 3> travel;              // [m]
  std::array<std::optional<AxleRow>, 3> at;  // absent: the links do not follow so far
};

//   droop, bump   how far it goes from the stance that the walks begin at, the first 0 or less, the
//                 second 0 or more [m]
//   errors        as SweepBounce
[[nodiscard]] AxleAtEnds RowsAtEnds(const Walks& walks, size_t axle, double droop, double bump);

}  // namespace linkwright
