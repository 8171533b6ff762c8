// SPDX-License-Identifier: MIT
// One driveshaft between its output and a pinion: length, joint angles, speed ripple.
#pragma once

#include <optional>

#include "solver/geometry/cardan.h"
#include "solver/pose/axle_frame.h"

namespace linkwright {

struct DriveshaftState {
  double length;        // between the joint centres of the piece that slides: the whole shaft, or
                        // from its centre bearing to the pinion [m]
  double output_angle;  // at the joint on the output [rad, never negative]
  std::optional<double> center_angle;  // at the joint at the centre bearing, where there is one
                                       // [rad, never negative]
  double axle_angle;                   // at the joint on the pinion [rad, never negative]
  double ripple;  // (greatest - least) / mean of the pinion's speed over a turn at steady output
                  // speed [-]
};

// The shafts in a row: output, the piece or the two pieces, pinion, each pointing toward the axle.
//   X_CA     pose of its axle's housing
//   errors   ModelError without a pinion or where two joints are at one point
//   source   docs/theory.md (27), (60)
struct DriveshaftLine {
  JointChain chain;            // phases of the pieces; of the pinion none
  std::vector<double> length;  // of each piece, the one at the output first [m]
  bool yoke_ahead;             // the pinion's yoke stands ahead of the wheel centre
};
[[nodiscard]] DriveshaftLine LineOf(const Driveshaft& shaft, const Axle& axle,
                                    const AxleFrame& frame, const Eigen::Isometry3d& X_CA);

// State of a shaft with its axle's housing at X_CA.
//   axle     the one the shaft drives, with a pinion
//   errors   as LineOf
//   source   docs/theory.md (27), (28), (60)
[[nodiscard]] DriveshaftState EvaluateDriveshaft(const Driveshaft& shaft, const Axle& axle,
                                                 const AxleFrame& frame,
                                                 const Eigen::Isometry3d& X_CA);

// How far the pinion is from where every joint before it cancels.
struct PinionAim {
  double turn;       // by which its yoke end has to come up, about the housing's lateral axis, to
                     // point as near as it can to a direction that cancels [rad]
  double left_over;  // what then remains between the two: what no turn in side view mends [rad]
  bool crossed;      // which of the two directions: the one across the shaft from the other
};

// The aim at the nearer of both directions, or at the one asked for.
//   u_C      the housing's lateral axis in C (unit)
//   returns  absent where the pinion's joint is a double one: its angle then cancels nothing
//   source   docs/theory.md (64)
[[nodiscard]] std::optional<PinionAim> AimPinion(const DriveshaftLine& line,
                                                 const Eigen::Vector3d& u_C,
                                                 std::optional<bool> crossed);

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
