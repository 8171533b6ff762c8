// SPDX-License-Identifier: MIT
#include "solver/pose/link_ends.h"

#include <cmath>

namespace linkwright {
namespace {

// Turn of q about a unit axis (swing-twist decomposition) [rad].
double TurnAbout(const Eigen::Quaterniond& q, const Eigen::Vector3d& axis) {
  return std::remainder(2.0 * std::atan2(q.vec().dot(axis), q.w()), 2.0 * M_PI);
}

// The link's turn against one bracket, in the axes both had when measured.
JointTurn TurnOfJoint(const Eigen::Quaterniond& link_in_bracket, const Eigen::Vector3d& along,
                      const Eigen::Vector3d& bolt) {
  const Eigen::Vector3d bore = link_in_bracket * bolt;
  return {.swing = std::abs(TurnAbout(link_in_bracket, bolt)),
          .twist = TurnAbout(link_in_bracket, along),
          .misalignment = std::atan2(bolt.cross(bore).norm(), bolt.dot(bore))};
}

}  // namespace

LinkTurn TurnOfLink(const AxleFrame& frame, const FrameLink& link, const Eigen::Vector3d& bolt,
                    const Eigen::Isometry3d& X_CA) {
  const Eigen::Vector3d before = (frame.X_CA * link.p_AQ - link.p_CP).normalized();
  const Eigen::Vector3d now = (X_CA * link.p_AQ - link.p_CP).normalized();
  const Eigen::Quaterniond housing(X_CA.linear() * frame.X_CA.linear().transpose());
  // The link follows its ends by the shortest turn, then rolls about itself until both joints are
  // twisted alike.
  const Eigen::Quaterniond shortest = Eigen::Quaterniond::FromTwoVectors(before, now);
  const double twist = TurnAbout(shortest.conjugate() * housing, before);
  const Eigen::Quaterniond turned = shortest * Eigen::AngleAxisd(0.5 * twist, before);
  return {.frame = TurnOfJoint(turned, before, bolt),
          .axle = TurnOfJoint(housing.conjugate() * turned, before, bolt)};
}

Eigen::Vector3d UsualBolt(const FrameLink& link, const AxleFrame& frame) {
  const Eigen::Vector3d along = frame.X_CA * link.p_AQ - link.p_CP;
  const Eigen::Vector3d level = Eigen::Vector3d::UnitZ().cross(along);
  if (level.norm() < 1e-6 * along.norm()) return Eigen::Vector3d::UnitY();
  return level.normalized();
}

}  // namespace linkwright
