// SPDX-License-Identifier: MIT
#include "solver/geometry/side_view.h"

#include <cmath>

namespace linkwright {
namespace {

Eigen::Vector3d CentreVelocity(const HousingMotion& motion) {
  return {motion.p[0].z, motion.p[1].z, motion.p[2].z};
}

}  // namespace

// Nose-up rotation w moves a point (dx, dz) off the centre by (-w dz, w dx): it rests where that is
// minus the centre's own velocity.
std::optional<InstantCenter> SideInstantCenter(const HousingMotion& motion, const Floor& floor) {
  const double w = -TurnPerHeight(motion).y();
  if (!(std::abs(w) > kNoRotation)) return std::nullopt;
  const Eigen::Vector3d v = CentreVelocity(motion);
  const Eigen::Vector3d arm(-v.z() / w, 0.0, v.x() / w);
  return InstantCenter{.ahead = arm.dot(floor.e),
                       .height = HeightAbove(floor, CentreOf(motion) + arm)};
}

double ContactSlope(const HousingMotion& motion, const Floor& floor, double radius) {
  const Eigen::Vector3d arm = -radius * floor.n;
  const Eigen::Vector3d v = CentreVelocity(motion) + TurnPerHeight(motion).cross(arm);
  return v.dot(floor.e) / v.dot(floor.n);
}

double TransferShare(double torque_share, double contact_slope, double wheelbase,
                     double cg_height) {
  return torque_share * contact_slope * wheelbase / cg_height;
}

}  // namespace linkwright
