// SPDX-License-Identifier: MIT
// A function of the seven unknowns of a rest with its exact gradient and Hessian, and the
// arithmetic that keeps them exact: second-order forward differentiation, as
// solver/numeric/taylor.h has it for one housing.
#pragma once

#include <Eigen/Core>
#include <cstddef>

#include "solver/numeric/taylor.h"

namespace linkwright {

// Order of the seven unknowns of a rest.
enum RestUnknown { kHeave, kSlopeX, kSlopeY, kFrontHeight, kFrontRoll, kRearHeight, kRearRoll };
constexpr int kRestUnknowns = 7;
using RestVector = Eigen::Matrix<double, kRestUnknowns, 1>;
using RestMatrix = Eigen::Matrix<double, kRestUnknowns, kRestUnknowns>;

struct RestFunction {
  double value = 0.0;
  RestVector gradient = RestVector::Zero();
  RestMatrix hessian = RestMatrix::Zero();
};

// Index of an axle's height among the unknowns; its roll is the next one.
inline int HeightIndex(size_t axle) { return axle == 0 ? kFrontHeight : kRearHeight; }

// f(u) where f, its first and second derivative at u.value are known (chain rule).
inline RestFunction Chain(const RestFunction& u, double f, double df, double ddf) {
  return {f, df * u.gradient, ddf * u.gradient * u.gradient.transpose() + df * u.hessian};
}

inline RestFunction operator+(const RestFunction& a, const RestFunction& b) {
  return {a.value + b.value, a.gradient + b.gradient, a.hessian + b.hessian};
}
inline RestFunction operator*(double k, const RestFunction& a) {
  return {k * a.value, k * a.gradient, k * a.hessian};
}
// What an axle's own height and roll decide, among the seven.
inline RestFunction AlongAxle(const Taylor& t, size_t axle) {
  const int z = HeightIndex(axle), r = z + 1;
  RestFunction f;
  f.value = t.v;
  f.gradient[z] = t.z;
  f.gradient[r] = t.r;
  f.hessian(z, z) = t.zz;
  f.hessian(r, r) = t.rr;
  f.hessian(z, r) = f.hessian(r, z) = t.zr;
  return f;
}

}  // namespace linkwright
