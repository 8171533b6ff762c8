// SPDX-License-Identifier: MIT
// The line on the floor that joins both axles' contact points: what small motions sway and yaw
// about.
#pragma once

#include "solver/rest/total_energy.h"

namespace linkwright {

// Both axles' contact points and the floor's directions, in C, as functions of the seven unknowns.
//   contact    the point of the housing that the tyres hold: a fixed radius straight down in the
//              plane midway between its wheels, square to its lateral axis [m]
//   along, left, up   unit: on the floor from the rear contact to the front one, to its left, the
//                     floor's normal
//   source     docs/theory.md (84)
struct ContactLine {
  std::array<RestPoint, 2> contact;
  RestFunction length;  // of the line [m]
  RestPoint along, left, up;
};

[[nodiscard]] ContactLine FindContactLine(const RestState& state,
                                          const std::array<double, 2>& radius);

// The radii that put both contacts on the floor at a state: the mean of an axle's two wheels'
// contacts [m].
[[nodiscard]] std::array<double, 2> ContactRadii(const RestState& state);

// Points fixed in C, and riding on a housing.
[[nodiscard]] RestPoint BodyPoint(const Eigen::Vector3d& p_C);
[[nodiscard]] RestPoint AxlePoint(const RestState& state, size_t axle, const Eigen::Vector3d& p_AQ);

}  // namespace linkwright
