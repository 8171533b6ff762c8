// SPDX-License-Identifier: MIT
// A value with its first and second derivatives by two coordinates z and r, which drive a housing:
// its height and its roll (docs/theory.md (5)). Second-order forward differentiation; exact up to
// rounding. Ceres' Jet carries first derivatives only.
#pragma once

#include <array>
#include <cmath>

#include "solver/numeric/differentiated.h"

namespace linkwright {

// Derivatives, not Taylor coefficients: zz is the second derivative itself.
struct Taylor {
  double v = 0.0;
  double z = 0.0, r = 0.0;
  double zz = 0.0, zr = 0.0, rr = 0.0;  // second derivatives
};

using TaylorPoint = std::array<Taylor, 3>;

inline Taylor Constant(double v) { return {v}; }

// f(u) where f, its first and second derivative at u.v are known (chain rule).
inline Taylor Chain(const Taylor& u, double f, double df, double ddf) {
  return {f,
          df * u.z,
          df * u.r,
          ddf * u.z * u.z + df * u.zz,
          ddf * u.z * u.r + df * u.zr,
          ddf * u.r * u.r + df * u.rr};
}

inline Taylor operator+(const Taylor& a, const Taylor& b) {
  return {a.v + b.v, a.z + b.z, a.r + b.r, a.zz + b.zz, a.zr + b.zr, a.rr + b.rr};
}
inline Taylor operator-(const Taylor& a) { return {-a.v, -a.z, -a.r, -a.zz, -a.zr, -a.rr}; }
inline Taylor operator*(double k, const Taylor& a) {
  return {k * a.v, k * a.z, k * a.r, k * a.zz, k * a.zr, k * a.rr};
}
inline Taylor operator*(const Taylor& a, const Taylor& b) {
  return {a.v * b.v,
          a.z * b.v + a.v * b.z,
          a.r * b.v + a.v * b.r,
          a.zz * b.v + 2.0 * a.z * b.z + a.v * b.zz,
          a.zr * b.v + a.z * b.r + a.r * b.z + a.v * b.zr,
          a.rr * b.v + 2.0 * a.r * b.r + a.v * b.rr};
}
inline Taylor operator/(const Taylor& a, const Taylor& b) {
  const double inverse = 1.0 / b.v;
  return a * Chain(b, inverse, -inverse * inverse, 2.0 * inverse * inverse * inverse);
}

inline Taylor sqrt(const Taylor& a) {
  const double root = std::sqrt(a.v);
  return Chain(a, root, 0.5 / root, -0.25 / (root * a.v));
}
inline Taylor sin(const Taylor& a) {
  const double s = std::sin(a.v);
  return Chain(a, s, std::cos(a.v), -s);
}
inline Taylor cos(const Taylor& a) {
  const double c = std::cos(a.v);
  return Chain(a, c, -std::sin(a.v), -c);
}
inline Taylor asin(const Taylor& a) {
  const double cosine_squared = 1.0 - a.v * a.v;
  const double slope = 1.0 / std::sqrt(cosine_squared);
  return Chain(a, std::asin(a.v), slope, a.v * slope / cosine_squared);
}

}  // namespace linkwright
