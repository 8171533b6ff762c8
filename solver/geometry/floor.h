// SPDX-License-Identifier: MIT
// The floor under the tyres in side view, and its axes.
#pragma once

#include <Eigen/Core>
#include <array>

namespace linkwright {

// A line in the xz plane of C, seen as a plane square to it.
//   e       forward along the floor, in C;  n   up from the floor, in C (unit, no y component)
//   offset  n . p for points p on the floor [m]
struct Floor {
  Eigen::Vector3d e = Eigen::Vector3d::UnitX();
  Eigen::Vector3d n = Eigen::Vector3d::UnitZ();
  double offset = 0.0;
};

// The line below both wheel centres that touches circles of the loaded radii about them.
//   p_CA     front and rear housing centre, from Co, in C [m]
//   radius   front and rear loaded radius [m]
//   errors   none; the centres must be further apart in side view than the radii differ
//   source   docs/theory.md (20)
[[nodiscard]] Floor FloorUnder(const std::array<Eigen::Vector3d, 2>& p_CA,
                               const std::array<double, 2>& radius);

// The floor of a vehicle known by one axle: its chassis stands level as measured, and the other
// axle counts as one that rises with this one, so that the floor's axes are those of C.
//   p_CA     the housing centre, from Co, in C [m]
//   radius   loaded [m]
//   source   docs/theory.md (20a)
[[nodiscard]] Floor LevelFloorUnder(const Eigen::Vector3d& p_CA, double radius);

// Height of a point of C above the floor [m].
[[nodiscard]] double HeightAbove(const Floor& floor, const Eigen::Vector3d& p_C);

// Minus the elevation of the floor line in chassis axes: nose of the body up + [rad].
[[nodiscard]] double Rake(const Floor& floor);

}  // namespace linkwright
