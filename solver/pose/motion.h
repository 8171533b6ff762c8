// SPDX-License-Identifier: MIT
// How a housing moves through a pose: first and second derivatives by its height and roll, by the
// implicit function theorem (no differencing).
#pragma once

#include <vector>

#include "solver/numeric/taylor.h"
#include "solver/pose/axle_frame.h"
#include "solver/pose/rotation.h"

namespace linkwright {

struct HousingMotion {
  Pose pose;
  std::array<Taylor, 4> q;          // x, y [m], steer, pitch [rad], by z [m] and roll [rad]
  TaylorPoint p;                    // housing centre in C [m]
  Rotation<Taylor> R;               // R_CA
  std::vector<double> link_forces;  // from over-constraint, tension + [N]; empty for four links
  Taylor strain;                    // energy in over-constrained links [J]; 0 for four
  double determinant = 0.0;         // SlopeDeterminant there
};

// Derivatives at a solved pose.
//   pose     a root of the link equations (SolvePose, MovePose)
//   errors   none; at a singular pose the derivatives are not finite, so callers keep away
//   source   docs/theory.md (5)
[[nodiscard]] HousingMotion EvaluateMotion(const AxleFrame& frame, const Pose& pose);

// The housing's centre at the pose, in C [m].
[[nodiscard]] Eigen::Vector3d CentreOf(const HousingMotion& motion);

// Motion of a point that rides on the housing, in C [m].
[[nodiscard]] TaylorPoint MotionOf(const HousingMotion& motion, const Eigen::Vector3d& p_AQ);

// Distance from a chassis point to a point that rides on the housing [m].
[[nodiscard]] Taylor DistanceTo(const HousingMotion& motion, const Eigen::Vector3d& p_CP,
                                const Eigen::Vector3d& p_AQ);

// Length of a member between the two [m].
[[nodiscard]] Taylor LengthOf(const AxleFrame& frame, const HousingMotion& motion,
                              const Span& span);

// Elevation over the xy plane of C of the housing's forward axis, the one that was chassis x in the
// measured stance; nose up + [rad].
[[nodiscard]] Taylor HousingPitch(const AxleFrame& frame, const HousingMotion& motion);

// Angular velocity of the housing in C per unit of roll at steady height, and per unit of height at
// steady roll [rad/rad, rad/m]. source: docs/theory.md (6)
[[nodiscard]] Eigen::Vector3d TurnPerRoll(const HousingMotion& motion);
[[nodiscard]] Eigen::Vector3d TurnPerHeight(const HousingMotion& motion);

// Second-order guess of the pose at another height and roll, for a warm start.
[[nodiscard]] Pose Predict(const HousingMotion& motion, double z, double roll);

}  // namespace linkwright
