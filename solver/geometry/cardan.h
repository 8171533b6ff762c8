// SPDX-License-Identifier: MIT
// Any number of joints in one line of shafts: how unevenly the last one turns, and where it would
// have to point for all of them to cancel.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "solver/model/vehicle.h"

namespace linkwright {

// Shafts in a row, joint i between shaft i and shaft i + 1.
struct JointChain {
  std::vector<Eigen::Vector3d> along;  // unit vectors in C, input first, all pointing from input to
                                       // output; none turned back on the one before it
  std::vector<JointKind> joints;       // one fewer than `along`
  std::vector<double> phase;  // of shaft i + 1: its yoke at the far joint ahead of the one at joint
                              // i, right-handed about its direction [rad]; the last plays no part
};

// How the direction of a yoke's pin across the first shaft goes over into that of the driven yoke
// of a later one, up to its length: what says everything about the turn between the two.
//   joints   how many joints to pass
//   returns  2 x 2 with a positive determinant; across each shaft in a right-handed basis of its
//            own
//   source   docs/theory.md (60)
[[nodiscard]] Eigen::Matrix2d TurnMap(const JointChain& chain, size_t joints);

// Speed ripple of the last shaft at a steady first one: (greatest - least) / mean [-].
[[nodiscard]] double RippleOf(const Eigen::Matrix2d& turn_map);

// The angle of the one single joint that would run exactly as unevenly: the net angle [rad].
//   source   docs/theory.md (61)
[[nodiscard]] double NetAngle(const Eigen::Matrix2d& turn_map);

// The map from the last shaft back to the one past `joints` joints: how unevenly that piece turns
// when the last one turns steadily (coasting).
[[nodiscard]] Eigen::Matrix2d BackMap(const JointChain& chain, size_t joints);

// Greatest angular acceleration over a turn behind one cross at an angle [rad], per square of the
// driving shaft's steady speed [-]; of a chain, at its net angle.
//   source   [Khurmi] ch. 9; docs/theory.md (63)
[[nodiscard]] double PeakAcceleration(double angle);

// One joint, seen from the side and from above.
struct JointParts {
  double side;   // the shaft after it rises more than the one before [rad]
  double plan;   // it points more to the left [rad]
  double angle;  // in space, never negative [rad]
};

//   before, after   unit vectors in C, both pointing from input to output, not across the vehicle
//   source          docs/theory.md (55)
[[nodiscard]] JointParts PartsOf(const Eigen::Vector3d& before, const Eigen::Vector3d& after);

// Angle between two directions in space [rad, never negative].
[[nodiscard]] double AngleBetween(const Eigen::Vector3d& a, const Eigen::Vector3d& b);

}  // namespace linkwright
