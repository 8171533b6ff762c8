// SPDX-License-Identifier: MIT
// A value with its derivatives by the four unknowns of a pose, over any scalar: double for a
// Jacobian, Taylor for one that moves, Dual<double> for second derivatives. For elements whose
// residual is too long to differentiate by hand (a crank); plain links have theirs written out.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace linkwright {

template <typename T>
struct Dual {
  T v{};
  std::array<T, 4> d{};
};

// f(u) where f and its derivative at u.v are known.
template <typename T>
Dual<T> Chain(const Dual<T>& u, const T& f, const T& df) {
  Dual<T> result{f, {}};
  for (size_t i = 0; i < 4; ++i) result.d[i] = df * u.d[i];
  return result;
}

template <typename T>
Dual<T> operator+(const Dual<T>& a, const Dual<T>& b) {
  Dual<T> sum{a.v + b.v, {}};
  for (size_t i = 0; i < 4; ++i) sum.d[i] = a.d[i] + b.d[i];
  return sum;
}
template <typename T>
Dual<T> operator-(const Dual<T>& a) {
  Dual<T> negative{-a.v, {}};
  for (size_t i = 0; i < 4; ++i) negative.d[i] = -a.d[i];
  return negative;
}
template <typename T>
Dual<T> operator-(const Dual<T>& a, const Dual<T>& b) {
  return a + (-b);
}
template <typename T>
Dual<T> operator*(const Dual<T>& a, const Dual<T>& b) {
  Dual<T> product{a.v * b.v, {}};
  for (size_t i = 0; i < 4; ++i) product.d[i] = a.d[i] * b.v + a.v * b.d[i];
  return product;
}
template <typename T>
Dual<T> operator/(const Dual<T>& a, const Dual<T>& b) {
  Dual<T> quotient{a.v / b.v, {}};
  for (size_t i = 0; i < 4; ++i) quotient.d[i] = (a.d[i] - quotient.v * b.d[i]) / b.v;
  return quotient;
}
template <typename T>
Dual<T> operator+(const Dual<T>& a, double k) {
  return {a.v + k, a.d};
}
template <typename T>
Dual<T> operator-(const Dual<T>& a, double k) {
  return a + (-k);
}
template <typename T>
Dual<T> operator*(double k, const Dual<T>& a) {
  Dual<T> product{k * a.v, {}};
  for (size_t i = 0; i < 4; ++i) product.d[i] = k * a.d[i];
  return product;
}
template <typename T>
Dual<T> operator*(const Dual<T>& a, double k) {
  return k * a;
}
template <typename T>
Dual<T> sqrt(const Dual<T>& a) {
  using std::sqrt;
  Dual<T> root{sqrt(a.v), {}};
  for (size_t i = 0; i < 4; ++i) root.d[i] = (0.5 * a.d[i]) / root.v;
  return root;
}
template <typename T>
Dual<T> sin(const Dual<T>& a) {
  using std::cos;
  using std::sin;
  return Chain(a, T(sin(a.v)), T(cos(a.v)));
}
template <typename T>
Dual<T> cos(const Dual<T>& a) {
  using std::cos;
  using std::sin;
  return Chain(a, T(cos(a.v)), T(-sin(a.v)));
}

}  // namespace linkwright
