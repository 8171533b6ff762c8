// SPDX-License-Identifier: MIT
// The other one of a pair: the left one's mirror image in the plane y = 0.
#pragma once

#include <Eigen/Core>

#include "solver/model/vehicle.h"

namespace linkwright {

[[nodiscard]] inline Eigen::Vector3d Mirrored(const Eigen::Vector3d& point) {
  return {point.x(), -point.y(), point.z()};
}

[[nodiscard]] inline AArm Mirrored(AArm arm) {
  for (Eigen::Vector3d& eye : arm.p_CP) eye = Mirrored(eye);
  arm.p_CQ = Mirrored(arm.p_CQ);
  return arm;
}

[[nodiscard]] inline RadiusArm Mirrored(RadiusArm arm) {
  arm.p_CP = Mirrored(arm.p_CP);
  for (Eigen::Vector3d& eye : arm.p_CQ) eye = Mirrored(eye);
  return arm;
}

// A member between chassis and axle.
template <typename Member>
requires requires(Member member) { member.span; }
[[nodiscard]] Member Mirrored(Member member) {
  member.span = {Mirrored(member.span.p_CP), Mirrored(member.span.p_CQ)};
  return member;
}

}  // namespace linkwright
