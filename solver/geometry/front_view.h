// SPDX-License-Identifier: MIT
// What roll does to a housing: roll centre, roll steer, and the roll axis through both axles.
#pragma once

#include "solver/geometry/floor.h"
#include "solver/pose/motion.h"

namespace linkwright {

// Height of the roll centre above the floor: on the line through the housing centre along n, where
// antisymmetric travel gives no sideways motion [m].
//   source   SAE J670 (transverse vertical plane of the wheel centres); docs/theory.md (24)
[[nodiscard]] double RollCenterHeight(const HousingMotion& motion, const Floor& floor);

// Axle steer per unit of body roll over a level housing, left + [rad/rad].
//   source   docs/theory.md (25)
[[nodiscard]] double RollSteer(const HousingMotion& motion, const Floor& floor);

// The line joining both roll centres.
struct RollAxis {
  double height;  // where the perpendicular to the floor through a point meets it [m]
  double slope;   // against the floor, rising toward the front + [rad]
};

//   p_CA     front and rear housing centre in C [m];  roll_center   their heights [m]
//   p_CM     the point it is read under or over: the sprung centre of mass [m]
//   source   docs/theory.md (26)
[[nodiscard]] RollAxis JoinRollCenters(const std::array<Eigen::Vector3d, 2>& p_CA,
                                       const std::array<double, 2>& roll_center, const Floor& floor,
                                       const Eigen::Vector3d& p_CM);

// The slope alone, which needs no mass [rad].
[[nodiscard]] double RollAxisSlope(const std::array<Eigen::Vector3d, 2>& p_CA,
                                   const std::array<double, 2>& roll_center, const Floor& floor);

}  // namespace linkwright
