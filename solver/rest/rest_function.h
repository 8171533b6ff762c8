// SPDX-License-Identifier: MIT
// A function of the seven unknowns of a rest with its exact gradient and Hessian, and the
// arithmetic that keeps them exact: second-order forward differentiation, as solver/pose/taylor.h
// has it for one housing.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>

#include "solver/pose/taylor.h"

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

using RestPoint = std::array<RestFunction, 3>;

// Index of an axle's height among the unknowns; its roll is the next one.
inline int HeightIndex(size_t axle) { return axle == 0 ? kFrontHeight : kRearHeight; }

// f(u) where f, its first and second derivative at u.value are known (chain rule).
inline RestFunction Chain(const RestFunction& u, double f, double df, double ddf) {
  return {f, df * u.gradient, ddf * u.gradient * u.gradient.transpose() + df * u.hessian};
}

inline RestFunction operator+(const RestFunction& a, const RestFunction& b) {
  return {a.value + b.value, a.gradient + b.gradient, a.hessian + b.hessian};
}
inline RestFunction operator-(const RestFunction& a, const RestFunction& b) {
  return {a.value - b.value, a.gradient - b.gradient, a.hessian - b.hessian};
}
inline RestFunction operator*(double k, const RestFunction& a) {
  return {k * a.value, k * a.gradient, k * a.hessian};
}
inline RestFunction operator*(const RestFunction& a, const RestFunction& b) {
  const RestMatrix cross = a.gradient * b.gradient.transpose();
  return {a.value * b.value, a.value * b.gradient + b.value * a.gradient,
          a.value * b.hessian + b.value * a.hessian + cross + cross.transpose()};
}
inline RestFunction Inverse(const RestFunction& a) {
  const double inverse = 1.0 / a.value;
  return Chain(a, inverse, -inverse * inverse, 2.0 * inverse * inverse * inverse);
}
inline RestFunction sqrt(const RestFunction& a) {
  const double root = std::sqrt(a.value);
  return Chain(a, root, 0.5 / root, -0.25 / (root * a.value));
}

inline RestPoint operator-(const RestPoint& a, const RestPoint& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
inline RestPoint operator*(const RestFunction& k, const RestPoint& a) {
  return {k * a[0], k * a[1], k * a[2]};
}
inline RestFunction Dot(const RestPoint& a, const RestPoint& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
inline RestPoint Cross(const RestPoint& a, const RestPoint& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

// A number, and something an axle's own height and roll decide, among the seven.
inline RestFunction RestConstant(double value) {
  RestFunction f;
  f.value = value;
  return f;
}
inline RestFunction AlongAxle(const Taylor& t, size_t axle) {
  const int z = HeightIndex(axle), r = z + 1;
  RestFunction f = RestConstant(t.v);
  f.gradient[z] = t.z;
  f.gradient[r] = t.r;
  f.hessian(z, z) = t.zz;
  f.hessian(r, r) = t.rr;
  f.hessian(z, r) = f.hessian(r, z) = t.zr;
  return f;
}
inline RestPoint AlongAxle(const TaylorPoint& p, size_t axle) {
  return {AlongAxle(p[0], axle), AlongAxle(p[1], axle), AlongAxle(p[2], axle)};
}

}  // namespace linkwright
