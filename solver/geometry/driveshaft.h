// SPDX-License-Identifier: MIT
// One driveshaft between its output and a pinion: length, joint angles, speed ripple.
#pragma once

#include "solver/pose/axle_frame.h"

namespace linkwright {

struct DriveshaftState {
  double length;        // between joint centres [m]
  double output_angle;  // at the joint on the output [rad, never negative]
  double axle_angle;    // at the joint on the pinion [rad, never negative]
  double ripple;  // (greatest - least) / mean of the pinion's speed over a turn at steady output
                  // speed [-]
};

// State of a shaft with its axle's housing at X_CA.
//   axle     the one the shaft drives, with a pinion
//   errors   ModelError without a pinion or where both joints are at one point
//   source   docs/theory.md (27), (28)
[[nodiscard]] DriveshaftState EvaluateDriveshaft(const Driveshaft& shaft, const Axle& axle,
                                                 const AxleFrame& frame,
                                                 const Eigen::Isometry3d& X_CA);

// Speed ripple of two crosses in one shaft, in space.
//   input, shaft, output   unit vectors along the three shafts, all pointing from input to output
//   phase    angle by which the output-side inner yoke is turned ahead of the input-side one about
//            `shaft` [rad]
//   first, second   whether each joint is a single cross; a double one runs at constant velocity
//   source   docs/theory.md (28)
[[nodiscard]] double SpeedRipple(const Eigen::Vector3d& input, const Eigen::Vector3d& shaft,
                                 const Eigen::Vector3d& output, double phase, bool first,
                                 bool second);

}  // namespace linkwright
