// SPDX-License-Identifier: MIT
#include "tests/bench/newton.h"

#include <Eigen/LU>
#include <cmath>

namespace linkwright::bench {

Pose SolveByNewton(const AxleFrame& frame, const Pose& guess) {
  Pose pose = guess;
  for (int iteration = 0; iteration < 20; ++iteration) {
    const Eigen::Isometry3d X_CA = Transform(pose);
    const Eigen::Vector3d centre = X_CA.translation(), lateral = X_CA.linear().col(1);
    Eigen::Matrix4d J;
    Eigen::Vector4d residual;
    for (int i = 0; i < 4; ++i) {
      const FrameLink& link = frame.links[static_cast<size_t>(i)];
      const Eigen::Vector3d arm = X_CA.linear() * link.p_AQ;
      const Eigen::Vector3d d = centre + arm - link.p_CP;
      const double length = d.norm();
      const Eigen::Vector3d u = d / length;
      residual[i] = length - link.length;
      J.row(i) << u.x(), u.y(), u.y() * arm.x() - u.x() * arm.y(), -u.dot(lateral.cross(arm));
    }
    if (residual.cwiseAbs().maxCoeff() <= 1e-11) return pose;
    const Eigen::Vector4d step = J.partialPivLu().solve(residual);
    pose.x -= step[0], pose.y -= step[1], pose.steer -= step[2], pose.pitch -= step[3];
  }
  return pose;
}

}  // namespace linkwright::bench
