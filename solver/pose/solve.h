// SPDX-License-Identifier: MIT
// The pose of one axle: the solve, and the walk from one solved pose to another that never jumps to
// another assembly of the same links.
#pragma once

#include <optional>

#include "solver/pose/axle_frame.h"
#include "solver/pose/motion.h"

namespace linkwright {

enum class SolveStatus {
  kConverged,      // four links: worst residual <= 1e-11 m; more: last Newton step <= 1e-12
  kNotConverged,   // the above not met from this guess
  kLinksStraight,  // MovePose: the links cannot follow; they line up before the wanted place
};

struct PoseSolution {
  Pose pose;  // the last pose reached
  SolveStatus status = SolveStatus::kNotConverged;
  double worst_link_error = 0.0;        // four links: greatest |residual| [m]; more: 0
  std::optional<size_t> blocking_link;  // with kLinksStraight: the link that carries the most there
};

// Finds the four unknowns at the guess's height and roll.
//   guess    z and roll are the wanted ones; the unknowns should be within some 10 mm and 2 deg
//   method   ceres::TinySolver (Levenberg-Marquardt) on the link residuals, weighted by each link's
//            rate where there are more than four; then Newton's method on the strain's gradient
//   source   docs/theory.md (3), (4)
[[nodiscard]] PoseSolution SolvePose(const AxleFrame& frame, const Pose& guess);

// Walks from a solved pose to another height [m] and roll [rad], in steps short enough that the
// branch cannot change: each step starts from the second-order prediction, must land near it, and
// must keep the sign of the equations' determinant.
[[nodiscard]] PoseSolution MovePose(const AxleFrame& frame, const HousingMotion& from, double z,
                                    double roll);

}  // namespace linkwright
