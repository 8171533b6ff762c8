// SPDX-License-Identifier: MIT
// The walks of both axles from one stance, each walked once, whatever asks for it.
#pragma once

#include <map>
#include <tuple>

#include "solver/study/walk/axle_walk.h"

namespace linkwright {

// From where a vehicle moves, and the walks made from there so far. The rig and the stance must
// outlive it. Not for two threads at once.
struct Walks {
  //   stance   null: the measured stance
  //   watch    the least that is watched on every walk: what later questions will ask for
  Walks(const Rig& rig, const Stance* stance, Watch watch = Watch::kRows);

  const Rig* rig;
  const Stance* stance;
  std::array<double, 2> start;  // mean travel of each axle's wheels there [m]
  Watch watch;

  // By axle, motion, wheel and whether the parameter grows; what was watched, and how far.
  struct Kept {
    Watch watch;
    double far;
    AxleWalk walk;
  };
  mutable std::map<std::tuple<size_t, MotionKind, size_t, bool>, Kept> kept;
};

// One axle walked one way: to the first end of rows (kRows) or as far as the motion is looked into,
// with whatever is watched by then. Good until a longer walk of the same kind is asked for.
//   wheel   of kOneWheel: front left, front right, rear left, rear right
//   sign    -1 or 1, the way
//   far     at least so far unless the links or an end stop it [m] or [rad]; 0: as MotionReach
//   errors  as WalkAxle
[[nodiscard]] const AxleWalk& Walked(const Walks& walks, size_t axle, MotionKind motion,
                                     size_t wheel, double sign, Watch watch, double far = 0.0);

// The housing's place in the stance that every motion starts from. errors: as WalkAxle
[[nodiscard]] HousingMotion StartMotion(const Walks& walks, size_t axle);

}  // namespace linkwright
