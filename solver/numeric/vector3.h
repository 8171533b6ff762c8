// SPDX-License-Identifier: MIT
// Vectors in space over any scalar: double, or a number that carries its derivatives along.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>

#include "solver/numeric/differentiated.h"

namespace linkwright {

template <typename T>
using Vector3 = std::array<T, 3>;

template <typename T>
Vector3<T> operator+(const Vector3<T>& a, const Vector3<T>& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}
template <typename T>
Vector3<T> operator-(const Vector3<T>& a, const Vector3<T>& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
template <typename T>
Vector3<T> operator-(const Vector3<T>& a) {
  return {-a[0], -a[1], -a[2]};
}
template <typename T>
Vector3<T> operator*(const T& k, const Vector3<T>& a) {
  return {k * a[0], k * a[1], k * a[2]};
}

// The same with a constant vector.
template <typename T>
Vector3<T> operator+(const Vector3<T>& a, const Eigen::Vector3d& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}
template <typename T>
Vector3<T> operator-(const Vector3<T>& a, const Eigen::Vector3d& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

// b may be a constant vector.
template <typename T, typename Vector>
T Dot(const Vector3<T>& a, const Vector& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
template <typename T>
T Norm(const Vector3<T>& a) {
  using std::sqrt;
  return sqrt(Dot(a, a));
}
template <typename T>
Vector3<T> Cross(const Vector3<T>& a, const Vector3<T>& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

// A constant vector as one of T, and one of T without its derivatives.
template <typename T>
Vector3<T> ConstantVector(const Eigen::Vector3d& a) {
  return Vector3<T>{} + a;
}
template <typename T>
Vector3<double> WithoutDerivatives(const Vector3<T>& a) {
  return {WithoutDerivatives(a[0]), WithoutDerivatives(a[1]), WithoutDerivatives(a[2])};
}
template <typename T>
Eigen::Vector3d ValueOf(const Vector3<T>& a) {
  return {WithoutDerivatives(a[0]), WithoutDerivatives(a[1]), WithoutDerivatives(a[2])};
}

}  // namespace linkwright
