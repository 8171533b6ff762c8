// SPDX-License-Identifier: MIT
#include "solver/rest/link_loads.h"

#include <Eigen/LU>
#include <cmath>

#include "solver/model/masses.h"

namespace linkwright {
namespace {

// A force's work per unit of x, y, steer, pitch, z and roll.
using SixVector = Eigen::Matrix<double, 6, 1>;

struct HousingAxes {
  Eigen::Isometry3d X_CA;
  Eigen::Vector3d forward;  // level, the axis of roll
  Eigen::Vector3d lateral;  // the axis of pitch, which turns nose up about its negative
};

HousingAxes AxesOf(const Pose& pose) {
  const Eigen::Isometry3d X_CA = Transform(pose);
  return {.X_CA = X_CA,
          .forward = {std::cos(pose.steer), std::sin(pose.steer), 0.0},
          .lateral = X_CA.linear().col(1)};
}

SixVector WorkOf(const HousingAxes& axes, const Eigen::Vector3d& force_C,
                 const Eigen::Vector3d& p_AQ) {
  const Eigen::Vector3d moment = (axes.X_CA.linear() * p_AQ).cross(force_C);
  SixVector work;
  work << force_C.x(), force_C.y(), moment.z(), -axes.lateral.dot(moment), force_C.z(),
      axes.forward.dot(moment);
  return work;
}

SixVector WorkOfLoads(const Axle& axle, const RigAxle& prepared, const HousingMotion& motion,
                      const HousingAxes& axes, const Eigen::Vector3d& up_C) {
  SixVector work = SixVector::Zero();
  for (const Pusher& pusher : prepared.pushers) {
    const Eigen::Vector3d d = axes.X_CA * pusher.p_AQ - pusher.p_CP;
    const double push = Evaluate(*pusher.law, d.norm()).force;
    work += WorkOf(axes, push * d.normalized(), pusher.p_AQ);
  }
  const Mass& unsprung = *axle.unsprung;
  work += WorkOf(axes, -unsprung.mass * kStandardGravity * up_C,
                 OnHousing(prepared.frame, unsprung.p_CM));
  if (axle.bar_roll_rate) {
    work[5] -= *axle.bar_roll_rate * (motion.pose.roll - prepared.frame.measured.roll);
  }
  return work;
}

}  // namespace

// Unknowns: the small give of the four pose unknowns, whose stretch of the links is their force
// over their rate, and the two wheel forces.
HousingBalance BalanceHousing(const Axle& axle, const RigAxle& prepared,
                              const HousingMotion& motion, const Eigen::Vector3d& up_C) {
  const HousingAxes axes = AxesOf(motion.pose);
  const size_t n = prepared.frame.links.size();
  Eigen::Matrix<double, 6, 6> A = Eigen::Matrix<double, 6, 6>::Zero();
  SixVector b = WorkOfLoads(axle, prepared, motion, axes, up_C);
  std::vector<SixVector> pull(n);  // work of a unit tension, reversed: the stretch per coordinate
  for (size_t i = 0; i < n; ++i) {
    const FrameLink& link = prepared.frame.links[i];
    const Eigen::Vector3d d = axes.X_CA * link.p_AQ - link.p_CP;
    pull[i] = WorkOf(axes, d.normalized(), link.p_AQ);
    A.leftCols<4>() += link.rate * pull[i] * pull[i].head<4>().transpose();
    if (!motion.link_forces.empty()) b -= motion.link_forces[i] * pull[i];
  }
  const double half = 0.5 * prepared.frame.track;
  A.col(4) = -WorkOf(axes, up_C, {0.0, half, 0.0});
  A.col(5) = -WorkOf(axes, up_C, {0.0, -half, 0.0});
  const SixVector x = A.fullPivLu().solve(b);
  HousingBalance balance{.link_force = std::vector<double>(n, 0.0), .wheel_force = {x[4], x[5]}};
  for (size_t i = 0; i < n; ++i) {
    balance.link_force[i] = prepared.frame.links[i].rate * pull[i].head<4>().dot(x.head<4>());
    if (!motion.link_forces.empty()) balance.link_force[i] += motion.link_forces[i];
  }
  return balance;
}

}  // namespace linkwright
