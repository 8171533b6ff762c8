// SPDX-License-Identifier: MIT
// What every number that carries its derivatives along has alike (Dual, Taylor): a constant has
// none, so that adding one changes the value alone.
#pragma once

namespace linkwright {

// Its value is `v`; it brings a sum, a negative and a product with a plain number on its left. A
// ceres::Jet, whose value is `a`, brings the rest itself.
template <typename D>
concept Differentiated = requires(const D& number) {
  number.v;
}
&&!requires(const D& number) { number.a; };

template <Differentiated D>
D operator-(const D& a, const D& b) {
  return a + (-b);
}
template <Differentiated D>
D operator+(const D& a, double k) {
  D sum = a;
  sum.v = a.v + k;
  return sum;
}
template <Differentiated D>
D operator-(const D& a, double k) {
  return a + (-k);
}
template <Differentiated D>
D operator*(const D& a, double k) {
  return k * a;
}

// A number without the derivatives that its type carries.
inline double WithoutDerivatives(double number) { return number; }
template <typename T>
double WithoutDerivatives(const T& number) {
  if constexpr (requires { number.a; }) {
    return WithoutDerivatives(number.a);  // ceres::Jet
  } else {
    return WithoutDerivatives(number.v);
  }
}

}  // namespace linkwright
