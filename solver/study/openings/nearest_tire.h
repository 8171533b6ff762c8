// SPDX-License-Identifier: MIT
// Where in a motion, and at which steer, a tyre is nearest to its opening.
#pragma once

#include "solver/study/openings/openings.h"
#include "solver/study/openings/swept_motion.h"

namespace linkwright {

// One tyre and what it may touch.
struct TireQuestion {
  const Rig* rig;
  size_t axle, side;
  Surface surface;
  TireShape shape;
};

// The least gap over a motion, the steering held or from lock to lock.
//   start     mean travel of the axle's wheels where the motion's parameter is 0 [m]
//   lock      steer of the wheel inside the bend [rad]; absent: the steering wheel is held
//   refused   set where a knuckle does not follow somewhere
//   returns   the least to 0.01 mm: every low place is closed in on that could hold it, creases
//             between them or not; absent where no place could be had
//   source    docs/theory.md (77)
[[nodiscard]] std::optional<NearestTire> FindNearest(const TireQuestion& question,
                                                     const SweptMotion& swept, double start,
                                                     std::optional<double> lock, bool& refused);

}  // namespace linkwright
