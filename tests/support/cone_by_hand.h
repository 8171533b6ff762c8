// SPDX-License-Identifier: MIT
// A bump stop as a drawing shows it: a line that goes along with the one body, a plane that goes
// along with the other, and where the one cuts the other. None of it is the solver's.
#pragma once

#include <Eigen/Geometry>
#include <Eigen/LU>

#include "solver/model/vehicle.h"

namespace linkwright::check {

struct ConeByHand {
  double length;          // from the seat to where the line meets the plane, along the line [m]
  double beside;          // from the pad's point to there [m]
  double cosine;          // between the line and the plane's normal
  Eigen::Vector3d meets;  // there, in C [m]
  Eigen::Vector3d push;   // on the housing, per newton of squeeze along the cone
  [[nodiscard]] bool on(const Stop& stop) const {
    return cosine > 0.0 && (!stop.pad_radius || beside <= *stop.pad_radius);
  }
};

//   gone   the housing's motion from the measured stance, in C: X_CA now after its inverse then
inline ConeByHand ConeAt(const Stop& stop, const Eigen::Isometry3d& gone) {
  const Eigen::Isometry3d stays = Eigen::Isometry3d::Identity();
  const Eigen::Isometry3d& with_cone = stop.cone_on_axle ? gone : stays;
  const Eigen::Isometry3d& with_pad = stop.cone_on_axle ? stays : gone;
  const Eigen::Vector3d& seat_then = stop.cone_on_axle ? stop.span.p_CQ : stop.span.p_CP;
  const Eigen::Vector3d& pad_then = stop.cone_on_axle ? stop.span.p_CP : stop.span.p_CQ;
  const Eigen::Vector3d axis_then = (pad_then - seat_then).normalized();
  // Two directions in the plane of the pad; whichever.
  const Eigen::Vector3d some = axis_then.unitOrthogonal(), other = axis_then.cross(some);
  const Eigen::Vector3d seat = with_cone * seat_then, pad = with_pad * pad_then;
  const Eigen::Vector3d axis = with_cone.linear() * axis_then;
  const Eigen::Vector3d normal = with_pad.linear() * axis_then;
  // seat + length axis = pad + a some + b other
  Eigen::Matrix3d A;
  A << axis, -(with_pad.linear() * some), -(with_pad.linear() * other);
  const Eigen::Vector3d x = A.partialPivLu().solve(pad - seat);
  ConeByHand found;
  found.length = x[0];
  found.beside = std::hypot(x[1], x[2]);
  found.cosine = axis.dot(normal);
  found.meets = seat + x[0] * axis;
  // The pad gives way along its normal alone, so that is where its push goes; the squeeze is along
  // the axis. On a housing with the cone the reaction works.
  found.push = (stop.cone_on_axle ? -1.0 : 1.0) / found.cosine * normal;
  return found;
}

}  // namespace linkwright::check
