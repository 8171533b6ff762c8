// SPDX-License-Identifier: MIT
// A value with its first derivatives by N variables, over any scalar: double for a Jacobian, Taylor
// for one that moves, Dual itself for second derivatives. For what is too long to differentiate by
// hand.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "solver/numeric/differentiated.h"

namespace linkwright {

template <typename T, size_t N>
struct Dual {
  T v{};
  std::array<T, N> d{};
};

// The variables at a place.
template <typename T, size_t N>
std::array<Dual<T, N>, N> Variables(const std::array<T, N>& at) {
  std::array<Dual<T, N>, N> variables{};
  for (size_t i = 0; i < N; ++i) {
    variables[i].v = at[i];
    variables[i].d[i] = T{} + 1.0;
  }
  return variables;
}

// f(u) where f and its derivative at u.v are known; of a plain number, f alone.
inline double Chain(double, double f, double) { return f; }
template <typename T, size_t N>
Dual<T, N> Chain(const Dual<T, N>& u, const T& f, const T& df) {
  Dual<T, N> result{f, {}};
  for (size_t i = 0; i < N; ++i) result.d[i] = df * u.d[i];
  return result;
}

template <typename T, size_t N>
Dual<T, N> operator+(const Dual<T, N>& a, const Dual<T, N>& b) {
  Dual<T, N> sum{a.v + b.v, {}};
  for (size_t i = 0; i < N; ++i) sum.d[i] = a.d[i] + b.d[i];
  return sum;
}
template <typename T, size_t N>
Dual<T, N> operator-(const Dual<T, N>& a) {
  Dual<T, N> negative{-a.v, {}};
  for (size_t i = 0; i < N; ++i) negative.d[i] = -a.d[i];
  return negative;
}
template <typename T, size_t N>
Dual<T, N> operator*(const Dual<T, N>& a, const Dual<T, N>& b) {
  Dual<T, N> product{a.v * b.v, {}};
  for (size_t i = 0; i < N; ++i) product.d[i] = a.d[i] * b.v + a.v * b.d[i];
  return product;
}
template <typename T, size_t N>
Dual<T, N> operator/(const Dual<T, N>& a, const Dual<T, N>& b) {
  Dual<T, N> quotient{a.v / b.v, {}};
  for (size_t i = 0; i < N; ++i) quotient.d[i] = (a.d[i] - quotient.v * b.d[i]) / b.v;
  return quotient;
}
template <typename T, size_t N>
Dual<T, N> operator*(double k, const Dual<T, N>& a) {
  Dual<T, N> product{k * a.v, {}};
  for (size_t i = 0; i < N; ++i) product.d[i] = k * a.d[i];
  return product;
}
template <typename T, size_t N>
Dual<T, N> sqrt(const Dual<T, N>& a) {
  using std::sqrt;
  Dual<T, N> root{sqrt(a.v), {}};
  for (size_t i = 0; i < N; ++i) root.d[i] = (0.5 * a.d[i]) / root.v;
  return root;
}
template <typename T, size_t N>
Dual<T, N> sin(const Dual<T, N>& a) {
  using std::cos;
  using std::sin;
  return Chain(a, T(sin(a.v)), T(cos(a.v)));
}
template <typename T, size_t N>
Dual<T, N> cos(const Dual<T, N>& a) {
  using std::cos;
  using std::sin;
  return Chain(a, T(cos(a.v)), T(-sin(a.v)));
}

}  // namespace linkwright
