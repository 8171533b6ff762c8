// SPDX-License-Identifier: MIT
// Speed ripple of two joints in one shaft, in space.
#pragma once

#include "solver/geometry/cardan.h"

namespace linkwright {

//   input, shaft, output   unit vectors along the three shafts, all pointing from input to output
//   phase    angle by which the output-side inner yoke is turned ahead of the input-side one about
//            `shaft` [rad]
//   first, second   whether each joint is a single cross; a double one runs at constant velocity
inline double SpeedRipple(const Eigen::Vector3d& input, const Eigen::Vector3d& shaft,
                          const Eigen::Vector3d& output, double phase, bool first, bool second) {
  const auto kind = [](bool single) { return single ? JointKind::kSingle : JointKind::kDouble; };
  return RippleOf(TurnMap({.along = {input, shaft, output},
                           .joints = {kind(first), kind(second)},
                           .phase = {phase, 0.0}},
                          2));
}

}  // namespace linkwright
