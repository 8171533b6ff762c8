// SPDX-License-Identifier: MIT
// One driveshaft between its output and a pinion: length, joint angles, speed ripple.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

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

// A turn of the pinion that leaves the row of joints running as evenly as any turn near it.
struct PinionAim {
  double turn;       // by which its yoke end has to come up, about the housing's lateral axis [rad]
  double net_angle;  // of the row then [rad]
};

constexpr double kMostTurn = 0.25 * M_PI;  // [rad] what a cross can work through

// All of them within kMostTurn of where it is, ascending by turn; the joint's place stays.
//   u_C      the housing's lateral axis in C (unit)
//   returns  none where the pinion's joint is a double one: its angle then cancels nothing
//   source   docs/theory.md (64)
[[nodiscard]] std::vector<PinionAim> PinionAims(const DriveshaftLine& line,
                                                const Eigen::Vector3d& u_C);

// The net angle of a row whose pinion's yoke end has come up by so much [rad].
[[nodiscard]] double NetAngleTurned(const DriveshaftLine& line, const Eigen::Vector3d& u_C,
                                    double up);

// Of the piece that slides, between its joints, at which slip_left is left before it bottoms [m].
[[nodiscard]] double MadeLength(const Driveshaft& shaft, const Axle& axle, const AxleFrame& frame);

}  // namespace linkwright
