// SPDX-License-Identifier: MIT
// What bounce does to a housing in side view: instant centre, and what drive and brakes do.
#pragma once

#include <Eigen/Core>
#include <optional>

#include "solver/geometry/floor.h"
#include "solver/pose/motion.h"

namespace linkwright {

// The point of the housing at rest in bounce, in floor axes.
struct InstantCenter {
  double ahead;   // of the housing centre, along the floor [m]
  double height;  // above the floor [m]
};

// Absent where the housing does not rotate: below kNoRotation it is 10 000 km away.
//   source   docs/theory.md (21)
constexpr double kNoRotation = 1e-7;  // [rad/m]
[[nodiscard]] std::optional<InstantCenter> SideInstantCenter(const HousingMotion& motion,
                                                             const Floor& floor);

// Forward motion of the contact point per unit of its rise, with the wheels locked to the housing,
// in floor axes [m/m].
//   radius   loaded radius [m];  source   docs/theory.md (22)
[[nodiscard]] double ContactSlope(const HousingMotion& motion, const Floor& floor, double radius);

// Share of the load transfer that the links take: share * slope * wheelbase / cg height, no sign
// [-]. The sign of each named quantity is its caller's. source: docs/theory.md (23)
[[nodiscard]] double TransferShare(double torque_share, double contact_slope, double wheelbase,
                                   double cg_height);

}  // namespace linkwright
