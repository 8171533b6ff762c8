// SPDX-License-Identifier: MIT
// The pose of one axle: the solve, and the walk from one solved pose to another that never jumps to
// another assembly of the same links.
#pragma once

#include <functional>
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

// Determinant of the slope of the equations in the four unknowns at a pose: its sign tells the
// assembly, and it is 0 where the links line up.
[[nodiscard]] double SlopeDeterminant(const AxleFrame& frame, const Pose& pose);

// Where the links line up on a way.
struct Fold {
  double at;  // the way's parameter there
  Pose pose;  // the last one before it, nearer to it than 1e-9 of what was asked about
};

// The fold between a solved pose and a place that the links do not follow to: the determinant's
// square falls to 0 there like a straight line, and the pose goes like the root of what is left.
//   place    height and roll at a parameter of the way
//   from     parameter of the pose `solved`;  out   of the place beyond the fold
//   stuck    the last pose that MovePose reached on the way, near the fold
//   returns  absent where it is no such fold
//   source   docs/theory.md (5)
[[nodiscard]] std::optional<Fold> FindFold(const AxleFrame& frame,
                                           const std::function<AxlePlace(double)>& place,
                                           double from, const Pose& solved, double out,
                                           const Pose& stuck);

}  // namespace linkwright
