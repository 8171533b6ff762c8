// SPDX-License-Identifier: MIT
// Orientation of a housing in the chassis from the trade's own angles. Templated: double in the
// solve, Taylor for second derivatives, ceres::Jet in the tests.
#pragma once

#include <array>
#include <cmath>

#include "solver/numeric/vector3.h"

namespace linkwright {

// Row-major 3 x 3 rotation R_CA.
template <typename T>
using Rotation = std::array<T, 9>;

// R_CA = Rz(steer) Rx(roll) Ry(-pitch): steer turns left, roll lifts the left side, pitch lifts the
// nose. Column 1 is the lateral axis, whose height depends on roll alone.
//   steer, roll, pitch   [rad]
//   source               docs/theory.md (1)
template <typename T>
Rotation<T> HousingRotation(const T& steer, const T& roll, const T& pitch) {
  using std::cos;
  using std::sin;
  const T cs = cos(steer), ss = sin(steer);
  const T cr = cos(roll), sr = sin(roll);
  const T cp = cos(pitch), sp = sin(pitch);
  const T sr_sp = sr * sp, sr_cp = sr * cp;
  return {cs * cp + ss * sr_sp,
          -(ss * cr),
          ss * sr_cp - cs * sp,  //
          ss * cp - cs * sr_sp,
          cs * cr,
          -(ss * sp) - cs * sr_cp,  //
          cr * sp,
          sr,
          cr * cp};
}

// R a; a may be a constant vector.
template <typename T, typename Vector>
Vector3<T> Rotate(const Rotation<T>& R, const Vector& a) {
  return {R[0] * a[0] + R[1] * a[1] + R[2] * a[2],  //
          R[3] * a[0] + R[4] * a[1] + R[5] * a[2],  //
          R[6] * a[0] + R[7] * a[1] + R[8] * a[2]};
}

// R^T a.
template <typename T, typename Vector>
Vector3<T> RotateBack(const Rotation<T>& R, const Vector& a) {
  return {R[0] * a[0] + R[3] * a[1] + R[6] * a[2],  //
          R[1] * a[0] + R[4] * a[1] + R[7] * a[2],  //
          R[2] * a[0] + R[5] * a[1] + R[8] * a[2]};
}

// The housing's y axis in C.
template <typename T>
Vector3<T> LateralAxis(const Rotation<T>& R) {
  return {R[1], R[4], R[7]};
}

}  // namespace linkwright
