// SPDX-License-Identifier: MIT
#include "tests/support/matchers.h"

#include <limits>

namespace linkwright::check {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

TEST(Near, IsAbsoluteAndElementwise) {
  const Eigen::Vector2d a(1e6, 0.0), b(1e6 + 0.5, 0.0);
  EXPECT_TRUE(Near(a, b, 0.5));
  EXPECT_FALSE(Near(a, b, 0.4999));
}

TEST(Near, NeverPassesANan) {
  EXPECT_FALSE(Near(Eigen::Vector3d(0.0, kNan, 0.0), Eigen::Vector3d::Zero(), 1.0));
  EXPECT_FALSE(Near(Eigen::Vector3d::Zero(), Eigen::Vector3d(0.0, kNan, 0.0), 1.0));
}

TEST(Near, RefusesOtherShapes) {
  EXPECT_FALSE(Near(Eigen::VectorXd::Zero(2), Eigen::VectorXd::Zero(3), 1.0));
}

TEST(Holds, WantsAValueAndNoNan) {
  EXPECT_TRUE(Holds(1.0, 1.5, 0.5));
  EXPECT_FALSE(Holds(1.0, 1.5, 0.4999));
  EXPECT_FALSE(Holds(std::nullopt, 0.0, 1.0));
  EXPECT_FALSE(Holds(kNan, 0.0, 1.0));
}

}  // namespace
}  // namespace linkwright::check
