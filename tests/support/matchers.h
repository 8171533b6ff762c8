// SPDX-License-Identifier: MIT
// Comparisons for tests: absolute and elementwise, so that a tolerance means the same everywhere
// and a NaN never passes (Eigen's maxCoeff may skip one).
#pragma once

#include <gtest/gtest.h>

#include <Eigen/Core>
#include <optional>

#include "solver/numeric/taylor.h"
#include "solver/pose/axle_frame.h"

namespace linkwright::check {

// EXPECT_TRUE(Near(a, b, tolerance)): |a - b| <= tolerance in every element.
template <typename A, typename B>
[[nodiscard]] ::testing::AssertionResult Near(const Eigen::MatrixBase<A>& actual,
                                              const Eigen::MatrixBase<B>& expected,
                                              double tolerance) {
  if (actual.rows() != expected.rows() || actual.cols() != expected.cols()) {
    return ::testing::AssertionFailure() << "shapes differ";
  }
  if (((actual - expected).array().abs() <= tolerance).all()) return ::testing::AssertionSuccess();
  return ::testing::AssertionFailure() << "more than " << tolerance << " apart:\n"
                                       << actual.transpose() << "\nexpected\n"
                                       << expected.transpose() << "\ndifference\n"
                                       << (actual - expected).transpose();
}

// A value that must be there: EXPECT_TRUE(Holds(optional, expected, tolerance)).
[[nodiscard]] inline ::testing::AssertionResult Holds(const std::optional<double>& actual,
                                                      double expected, double tolerance) {
  if (!actual) return ::testing::AssertionFailure() << "absent, expected " << expected;
  if (std::abs(*actual - expected) <= tolerance) return ::testing::AssertionSuccess();
  return ::testing::AssertionFailure() << *actual << " is more than " << tolerance << " from "
                                       << expected << " (by " << *actual - expected << ")";
}

// The six numbers of a pose: x, y, z [m], steer, roll, pitch [rad].
[[nodiscard]] inline Eigen::Matrix<double, 6, 1> SixOf(const Pose& pose) {
  return (Eigen::Matrix<double, 6, 1>() << pose.x, pose.y, pose.z, pose.steer, pose.roll,
          pose.pitch)
      .finished();
}

// The four unknowns of a pose: x, y [m], steer, pitch [rad].
[[nodiscard]] inline Eigen::Vector4d FourOf(const Pose& pose) {
  return {pose.x, pose.y, pose.steer, pose.pitch};
}

// Value and the five derivatives of a Taylor.
[[nodiscard]] inline Eigen::Matrix<double, 6, 1> SixOf(const Taylor& t) {
  return (Eigen::Matrix<double, 6, 1>() << t.v, t.z, t.r, t.zz, t.zr, t.rr).finished();
}

}  // namespace linkwright::check
