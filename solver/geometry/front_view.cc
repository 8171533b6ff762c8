// SPDX-License-Identifier: MIT
#include "solver/geometry/front_view.h"

#include <cmath>

namespace linkwright {

// A point h above the centre moves sideways at v_y - h (w . e); it rests at h = v_y / (w . e).
double RollCenterHeight(const HousingMotion& motion, const Floor& floor) {
  const Eigen::Vector3d w = TurnPerRoll(motion);
  return HeightAbove(floor, CentreOf(motion)) + motion.p[1].r / w.dot(floor.e);
}

double RollSteer(const HousingMotion& motion, const Floor& floor) {
  const Eigen::Vector3d w = TurnPerRoll(motion);
  return -w.dot(floor.n) / w.dot(floor.e);
}

RollAxis JoinRollCenters(const std::array<Eigen::Vector3d, 2>& p_CA,
                         const std::array<double, 2>& roll_center, const Floor& floor,
                         const Eigen::Vector3d& p_CM) {
  const double front = floor.e.dot(p_CA[0]), rear = floor.e.dot(p_CA[1]);
  const double rise = (roll_center[0] - roll_center[1]) / (front - rear);
  return {.height = roll_center[1] + rise * (floor.e.dot(p_CM) - rear), .slope = std::atan(rise)};
}

double RollAxisSlope(const std::array<Eigen::Vector3d, 2>& p_CA,
                     const std::array<double, 2>& roll_center, const Floor& floor) {
  return JoinRollCenters(p_CA, roll_center, floor, p_CA[0]).slope;
}

}  // namespace linkwright
