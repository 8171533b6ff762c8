// SPDX-License-Identifier: MIT
#include "solver/pose/stop_cone.h"

namespace linkwright {

StopCone PrepareCone(const Stop& stop, const AxleFrame& frame) {
  const Eigen::Vector3d u_C = (stop.span.p_CQ - stop.span.p_CP).normalized();
  return {.p_CP = stop.span.p_CP,
          .p_AQ = OnHousing(frame, stop.span.p_CQ),
          .u_C = u_C,
          .u_A = frame.X_CA.linear().transpose() * u_C,
          .on_axle = stop.cone_on_axle,
          .pad_radius = stop.pad_radius};
}

ConePlace<double> PlaceOf(const StopCone& cone, const Eigen::Isometry3d& X_CA) {
  const Eigen::Vector3d p = X_CA.translation();
  const Eigen::Matrix3d R = X_CA.linear();
  return PlaceOf<double>(
      cone, {p.x(), p.y(), p.z()},
      {R(0, 0), R(0, 1), R(0, 2), R(1, 0), R(1, 1), R(1, 2), R(2, 0), R(2, 1), R(2, 2)});
}

double OffPadPoint(const ConePlace<double>& place) { return Norm(place.contact - place.pad); }

bool MeetsPad(const StopCone& cone, const ConePlace<double>& place) {
  if (!(place.lean > 0.0)) return false;
  return !cone.pad_radius || OffPadPoint(place) <= *cone.pad_radius;
}

}  // namespace linkwright
