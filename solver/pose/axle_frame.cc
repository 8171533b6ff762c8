// SPDX-License-Identifier: MIT
#include "solver/pose/axle_frame.h"

#include <cmath>

#include "solver/model/error.h"
#include "solver/pose/arms.h"
#include "solver/pose/rotation.h"

namespace linkwright {

AxleFrame PrepareAxle(const Axle& axle) {
  AxleFrame frame;
  const Eigen::Vector3d p_WrWl_C = axle.p_CW_l - axle.p_CW_r;
  frame.track = p_WrWl_C.norm();
  if (!(frame.track > 0.0)) {
    throw ModelError({"axles", axle.name, "wheel_center"}, "both wheel centres are at one point");
  }
  const Eigen::Vector3d u = p_WrWl_C / frame.track;
  const Eigen::Vector3d centre = 0.5 * (axle.p_CW_l + axle.p_CW_r);
  frame.measured = {.x = centre.x(),
                    .y = centre.y(),
                    .steer = std::atan2(-u.x(), u.y()),
                    .pitch = 0.0,
                    .z = centre.z(),
                    .roll = std::asin(u.z())};
  frame.X_CA = Transform(frame.measured);
  for (const Link& link : axle.links) {
    AddLeg(frame, link.span, LengthOf(link), link.rate, DisplayName(link.name),
           {"axles", axle.name, "links", link.name.key});
  }
  AddArms(axle, frame);
  AddCranks(axle, frame);
  return frame;
}

Eigen::MatrixXd LinkStiffness(const AxleFrame& frame, const std::vector<double>& stretch) {
  const auto n = static_cast<Eigen::Index>(frame.links.size());
  Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    stiffness(i, i) = frame.links[static_cast<size_t>(i)].rate;
  }
  for (const Coupling& pair : frame.couplings) {
    const Eigen::Matrix2d arm =
        StiffnessOf(*frame.links[pair.first].arm, {stretch[pair.first], stretch[pair.second]});
    const std::array index{static_cast<Eigen::Index>(pair.first),
                           static_cast<Eigen::Index>(pair.second)};
    for (int i = 0; i < 2; ++i) {
      for (int k = 0; k < 2; ++k) {
        stiffness(index[static_cast<size_t>(i)], index[static_cast<size_t>(k)]) = arm(i, k);
      }
    }
  }
  return stiffness;
}

Eigen::Vector3d OnHousing(const AxleFrame& frame, const Eigen::Vector3d& p_CQ) {
  return frame.X_CA.inverse(Eigen::Isometry) * p_CQ;
}

Eigen::Vector3d WheelCentre(const AxleFrame& frame, size_t side) {
  return {0.0, (side == 0 ? 0.5 : -0.5) * frame.track, 0.0};
}

double LengthAt(const Span& span, const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return (X_CA * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

AxlePlace PlaceAt(const AxleFrame& frame, double mean_travel, const Travels& wheels) {
  const double z = frame.measured.z + mean_travel + 0.5 * (wheels.left + wheels.right);
  if (wheels.left == wheels.right) return {.z = z, .roll = frame.measured.roll};
  const double up = std::sin(frame.measured.roll) + (wheels.left - wheels.right) / frame.track;
  return {.z = z, .roll = std::asin(up)};
}

Travels TravelsOf(const AxleFrame& frame, const Pose& pose) {
  const double mean = pose.z - frame.measured.z;
  const double half = 0.5 * frame.track * (std::sin(pose.roll) - std::sin(frame.measured.roll));
  return {mean + half, mean - half};
}

Eigen::Isometry3d Transform(const Pose& pose) {
  const Rotation<double> R = RotationOf(pose);
  Eigen::Isometry3d X_CA = Eigen::Isometry3d::Identity();
  X_CA.linear() << R[0], R[1], R[2], R[3], R[4], R[5], R[6], R[7], R[8];
  X_CA.translation() << pose.x, pose.y, pose.z;
  return X_CA;
}

}  // namespace linkwright
