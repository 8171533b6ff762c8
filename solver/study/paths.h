// SPDX-License-Identifier: MIT
// Where a motion starts, bounce as a path, and what both axles' poses are to one another.
#pragma once

#include "solver/study/walk.h"

namespace linkwright {

// Travel between the diagonals: the mean travel of front right and rear left less that of front
// left and rear right, from both housings' poses [m]. source: docs/theory.md (71)
[[nodiscard]] double DiagonalTravel(const Rig& rig, const std::array<Pose, 2>& pose);

// The mean travel of each axle's wheels in a stance, where a motion starts; 0 for null [m].
[[nodiscard]] std::array<double, 2> StartOf(const Rig& rig, const Stance* stance);

// Bounce as a path: both wheels of an axle by the parameter [m].
[[nodiscard]] AxlePath BouncePath(const Rig& rig, const std::array<double, 2>& start);

}  // namespace linkwright
