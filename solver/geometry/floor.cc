// SPDX-License-Identifier: MIT
#include "solver/geometry/floor.h"

#include <cmath>

namespace linkwright {

// With D the vector from the rear centre to the front one, n . D = r_front - r_rear and n is a unit
// vector, so the elevation of e is that of D less asin((r_front - r_rear) / |D|).
Floor FloorUnder(const std::array<Eigen::Vector3d, 2>& p_CA, const std::array<double, 2>& radius) {
  const double dx = p_CA[0].x() - p_CA[1].x();
  const double dz = p_CA[0].z() - p_CA[1].z();
  const double elevation =
      std::atan2(dz, dx) - std::asin((radius[0] - radius[1]) / std::hypot(dx, dz));
  Floor floor;
  floor.e = {std::cos(elevation), 0.0, std::sin(elevation)};
  floor.n = {-std::sin(elevation), 0.0, std::cos(elevation)};
  floor.offset = floor.n.dot(p_CA[0]) - radius[0];
  return floor;
}

Floor LevelFloorUnder(const Eigen::Vector3d& p_CA, double radius) {
  Floor floor;
  floor.offset = floor.n.dot(p_CA) - radius;
  return floor;
}

double HeightAbove(const Floor& floor, const Eigen::Vector3d& p_C) {
  return floor.n.dot(p_C) - floor.offset;
}

double Rake(const Floor& floor) { return -std::atan2(floor.e.z(), floor.e.x()); }

}  // namespace linkwright
