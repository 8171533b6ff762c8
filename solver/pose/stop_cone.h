// SPDX-License-Identifier: MIT
// A bump stop: a cone on one body that is pressed along its axis against a pad on the other.
#pragma once

#include <optional>

#include "solver/pose/axle_frame.h"

namespace linkwright {

// A stop prepared: where its ends are, and its axis in the measured stance, kept by both bodies.
struct StopCone {
  Eigen::Vector3d p_CP;  // end on the chassis, from Co, in C [m]
  Eigen::Vector3d p_AQ;  // end on the housing, from Ao, in A [m]
  Eigen::Vector3d u_C;   // from the one to the other in the measured stance, as the chassis keeps
  Eigen::Vector3d u_A;   // it, in C, and as the housing does, in A (unit)
  bool on_axle;          // the housing carries the cone, the chassis the pad; else the other way
  std::optional<double> pad_radius;  // [m]; absent: the pad ends nowhere
};

// errors: none; the two ends lie apart (the reader refuses others)
[[nodiscard]] StopCone PrepareCone(const Stop& stop, const AxleFrame& frame);

// A cone and its pad at one pose.
template <typename T>
struct ConePlace {
  T length;            // along the cone's axis, from its seat to the plane of the pad [m]
  T lean;              // cosine between the cone's axis and the normal of the pad
  Vector3<T> normal;   // of the pad, pointing from the chassis to the housing, in C (unit)
  Vector3<T> contact;  // where the axis meets the plane of the pad, from Co, in C [m]
  Vector3<T> pad;      // the pad's point, from Co, in C [m]
};

// A cone with the housing's centre at p_CA and its orientation R_CA. Of no meaning at a lean of 0.
//   source   docs/theory.md (38)
template <typename T>
ConePlace<T> PlaceOf(const StopCone& cone, const Vector3<T>& p_CA, const Rotation<T>& R_CA) {
  const Vector3<T> p_CQ = Rotate(R_CA, cone.p_AQ) + p_CA;
  const Vector3<T> u = Rotate(R_CA, cone.u_A);  // the axis as the housing keeps it, in C
  const Vector3<T> across = p_CQ - cone.p_CP;
  const T lean = Dot(u, cone.u_C);
  if (cone.on_axle) {
    const T length = Dot(across, cone.u_C) / lean;
    return {length, lean, ConstantVector<T>(cone.u_C), p_CQ - length * u,
            ConstantVector<T>(cone.p_CP)};
  }
  const T length = Dot(across, u) / lean;
  return {length, lean, u, length * ConstantVector<T>(cone.u_C) + cone.p_CP, p_CQ};
}
[[nodiscard]] ConePlace<double> PlaceOf(const StopCone& cone, const Eigen::Isometry3d& X_CA);

// From the pad's point to where the axis meets its plane [m].
[[nodiscard]] double OffPadPoint(const ConePlace<double>& place);

// Whether a cone meets its pad; one that does not carries nothing and ends nothing.
[[nodiscard]] bool MeetsPad(const StopCone& cone, const ConePlace<double>& place);

}  // namespace linkwright
