// SPDX-License-Identifier: MIT
// A rigid arm bushed to a housing at two eyes and to the chassis at one.
//
// Across the eyes' bolts everything happens in a plane of the housing. The arm swings out of it
// freely about the midpoint of its two eyes, as its bushings let it, and keeps its length while it
// does.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>

#include "solver/pose/rotation.h"

namespace linkwright {

// The arm as measured, with nothing in its bushings. Plane coordinates have their origin at the
// midpoint of the two eyes: along, from there to the chassis eye, and across, square to it.
struct FrameArm {
  Eigen::Vector3d mid;                  // of the eyes on the housing, in A [m]
  Eigen::Vector3d along, across, bolt;  // right-handed, in A (unit)
  Eigen::Vector3d chassis_eye;          // in C [m]
  double reach, aside;                  // of the chassis eye: along, and along the bolt [m]
  std::array<Eigen::Vector2d, 2> eye;   // on the housing, in the plane [m]
  double frame_rate, axle_rate;         // radial, of the one bushing and of each of the two [N/m]
};

// Where the chassis eye is in the plane, less where it was measured [m]: swung back about the
// midpoint of the two eyes until it stands as far aside as it did. Not a number where it is farther
// aside than the arm is long.
//   p, R      housing centre in C and R_CA
//   returns   {along, across}
//   source    docs/theory.md (101)
template <typename T>
std::array<T, 2> EyeMoved(const FrameArm& arm, const Vector3<T>& p, const Rotation<T>& R) {
  using std::sqrt;
  const Vector3<T> in_A = RotateBack(R, -(p - arm.chassis_eye)) - arm.mid;
  const T x = Dot(in_A, arm.along), y = Dot(in_A, arm.across), aside = Dot(in_A, arm.bolt);
  const T square = x * x + y * y;
  const T swing = sqrt((square + aside * aside - arm.aside * arm.aside) / square);
  return {x * swing - arm.reach, y * swing};
}

// What the bushings hold once the arm has come to rest between them.
template <typename T>
struct ArmStrain {
  std::array<T, 2> tension;             // on the chassis eye's bushing, along and across [N]
  std::array<std::array<T, 2>, 2> eye;  // on each of the housing's bushings [N]
  T energy;                             // [J]
};

// The arm's best place among its three points in the plane: a weighted fit of one triangle on
// another, whose turn has a closed form, eyes in a row or not.
//   moved    of the chassis eye (EyeMoved)
//   source   docs/theory.md (102)
template <typename T>
ArmStrain<T> StrainOf(const FrameArm& arm, const std::array<T, 2>& moved) {
  using std::sqrt;
  // Of the chassis eye: the eyes' midpoint is the origin, so the centroid lies on the way to it.
  const double share = arm.frame_rate / (arm.frame_rate + 2.0 * arm.axle_rate);
  const std::array<double, 3> rate{arm.frame_rate, arm.axle_rate, arm.axle_rate};
  const std::array<Eigen::Vector2d, 3> point{Eigen::Vector2d(arm.reach, 0.0), arm.eye[0],
                                             arm.eye[1]};
  const std::array<T, 2> centre{(moved[0] + arm.reach) * share, moved[1] * share};
  T along{}, across{};
  std::array<std::array<T, 2>, 3> held;
  std::array<Eigen::Vector2d, 3> own;
  for (size_t i = 0; i < 3; ++i) {
    own[i] = point[i] - share * point[0];
    held[i] = {-(centre[0] - point[i].x()), -(centre[1] - point[i].y())};
    if (i == 0) held[i] = {held[i][0] + moved[0], held[i][1] + moved[1]};
    along = along + (held[i][0] * own[i].x() + held[i][1] * own[i].y()) * rate[i];
    across = across + (held[i][1] * own[i].x() - held[i][0] * own[i].y()) * rate[i];
  }
  const T norm = sqrt(along * along + across * across);
  const T c = along / norm, s = across / norm;
  ArmStrain<T> strain{};
  for (size_t i = 0; i < 3; ++i) {
    const std::array<T, 2> gap{held[i][0] - (c * own[i].x() - s * own[i].y()),
                               held[i][1] - (s * own[i].x() + c * own[i].y())};
    const std::array<T, 2> force{gap[0] * rate[i], gap[1] * rate[i]};
    (i == 0 ? strain.tension : strain.eye[i - 1]) = force;
    strain.energy = strain.energy + (gap[0] * force[0] + gap[1] * force[1]) * 0.5;
  }
  return strain;
}

}  // namespace linkwright
