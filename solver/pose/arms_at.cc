// SPDX-License-Identifier: MIT
#include "solver/pose/arms_at.h"

#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/pose/arms.h"
#include "solver/pose/link_equations.h"

namespace linkwright {

std::vector<ArmAt> ArmsAt(const Axle& axle, const AxleFrame& frame, const Pose& pose) {
  const Eigen::Isometry3d X_CA = Transform(pose);
  std::vector<double> force;
  if (frame.links.size() > 4) {
    const LinkStrain<double> strain = StrainOf(frame, StretchesAt(frame, CoordinatesOf(pose)));
    force = AxialForces(frame, pose, strain.tension);
  }
  std::vector<ArmAt> arms;
  for (const ArmFit& arm : ArmsOf(axle)) {
    const Eigen::Vector3d p_QP_C = arm.holes.p_CP - X_CA * OnHousing(frame, arm.holes.p_CQ);
    const double longer = arm.LongerBy();
    const size_t i = arms.size();
    arms.push_back({.name = arm.name,
                    .part = arm.part,
                    .length = arm.length,
                    .longer = longer,
                    .side = std::atan2(p_QP_C.z(), std::abs(p_QP_C.x())),
                    .plan = std::atan2(p_QP_C.y(), std::abs(p_QP_C.x())),
                    .turns = arm.thread ? std::optional(longer / *arm.thread) : std::nullopt,
                    .strain_force = force.empty() ? std::nullopt : std::optional(force[i])});
  }
  return arms;
}

}  // namespace linkwright
