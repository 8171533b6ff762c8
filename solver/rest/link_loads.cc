// SPDX-License-Identifier: MIT
#include "solver/rest/link_loads.h"

#include <cmath>

#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/pose/link_equations.h"

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

// What the links are too long by in this pose [m].
std::vector<double> StretchAt(const AxleFrame& frame, const HousingMotion& motion) {
  std::vector<double> stretch(frame.links.size());
  LinkResiduals(frame.links, motion.pose, stretch.data(), nullptr);
  return stretch;
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
  const std::vector<SixVector> each = StretchPerCoordinate(prepared.frame, motion.pose);
  Eigen::Matrix<double, 6, Eigen::Dynamic> pull(6, n);
  for (size_t i = 0; i < n; ++i) pull.col(static_cast<Eigen::Index>(i)) = each[i];
  const Eigen::MatrixXd stiffness =
      LinkStiffness(prepared.frame, StretchAt(prepared.frame, motion));
  A.leftCols<4>() = pull * stiffness * pull.topRows<4>().transpose();
  for (size_t i = 0; i < motion.link_forces.size(); ++i) {
    b -= motion.link_forces[i] * each[i];
  }
  const double half = 0.5 * prepared.frame.track;
  A.col(4) = -WorkOf(axes, up_C, {0.0, half, 0.0});
  A.col(5) = -WorkOf(axes, up_C, {0.0, -half, 0.0});
  const SixVector x = SolveSquare(A, b);
  const Eigen::VectorXd shared = stiffness * (pull.topRows<4>().transpose() * x.head<4>());
  HousingBalance balance{.link_force = {shared.begin(), shared.end()}, .wheel_force = {x[4], x[5]}};
  for (size_t i = 0; i < motion.link_forces.size(); ++i) {
    balance.link_force[i] += motion.link_forces[i];
  }
  return balance;
}

}  // namespace linkwright
