// SPDX-License-Identifier: MIT
// The yardstick: one pose of a four-link axle by Newton's method, written out by hand.
#pragma once

#include "solver/pose/axle_frame.h"

namespace linkwright::bench {

// From a guess near the pose, whose height and roll are the wanted ones, to the solver's own 1e-11
// m.
[[nodiscard]] Pose SolveByNewton(const AxleFrame& frame, const Pose& guess);

}  // namespace linkwright::bench
