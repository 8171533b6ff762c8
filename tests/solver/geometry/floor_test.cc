// SPDX-License-Identifier: MIT
#include "solver/geometry/floor.h"

#include <gtest/gtest.h>

#include "tests/support/matchers.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kTol = 1e-14;  // [m, rad] rounding of metres, times 50

const std::array<Eigen::Vector3d, 2> kCentres{Eigen::Vector3d(0.02, 0.01, 0.41),
                                              Eigen::Vector3d(-2.53, -0.02, 0.29)};
const std::array<double, 2> kRadii{0.36, 0.31};

// The line touches both circles: each centre is one radius from it, on its upper side.
TEST(Floor, TouchesBothTires) {
  const Floor floor = FloorUnder(kCentres, kRadii);
  for (size_t i = 0; i < 2; ++i) EXPECT_NEAR(HeightAbove(floor, kCentres[i]), kRadii[i], kTol);
  // Every other point of either circle is above it.
  for (size_t i = 0; i < 2; ++i) {
    for (double angle = 0.0; angle < 6.28; angle += 0.1) {
      const Eigen::Vector3d rim =
          kCentres[i] + kRadii[i] * Eigen::Vector3d(std::cos(angle), 0.0, std::sin(angle));
      EXPECT_GE(HeightAbove(floor, rim), -kTol);
    }
  }
}

TEST(Floor, AxesAreUnitSquareAndInSideView) {
  const Floor floor = FloorUnder(kCentres, kRadii);
  EXPECT_NEAR(floor.e.norm(), 1.0, kTol);
  EXPECT_NEAR(floor.n.norm(), 1.0, kTol);
  EXPECT_NEAR(floor.e.dot(floor.n), 0.0, kTol);
  EXPECT_EQ(floor.e.y(), 0.0);
  EXPECT_EQ(floor.n.y(), 0.0);
  EXPECT_GT(floor.e.x(), 0.0);
  EXPECT_GT(floor.n.z(), 0.0);
}

TEST(Floor, EqualRadiiAtEqualHeightsLieLevel) {
  const Floor floor =
      FloorUnder({Eigen::Vector3d(0, 0, 0.5), Eigen::Vector3d(-2, 0, 0.5)}, {0.3, 0.3});
  EXPECT_TRUE(Near(floor.e, Eigen::Vector3d::UnitX(), kTol));
  EXPECT_NEAR(floor.offset, 0.2, kTol);
  EXPECT_NEAR(Rake(floor), 0.0, kTol);
}

// Front wheels up in the body: the body's nose is down.
TEST(Floor, RakeIsNoseUp) {
  const Floor nose_down =
      FloorUnder({Eigen::Vector3d(0, 0, 0.6), Eigen::Vector3d(-2, 0, 0.5)}, {0.3, 0.3});
  EXPECT_NEAR(Rake(nose_down), -std::atan2(0.1, 2.0), kTol);
  // A bigger tyre in front at the same centre heights lifts the nose: sin = 0.05 / 2.
  const Floor nose_up =
      FloorUnder({Eigen::Vector3d(0, 0, 0.5), Eigen::Vector3d(-2, 0, 0.5)}, {0.35, 0.3});
  EXPECT_NEAR(Rake(nose_up), std::asin(0.05 / 2.0), kTol);
}

// (20a): the line of both tyres, whatever the other axle does fore and aft, as long as it rises
// along with this one from a chassis level as measured.
TEST(LevelFloor, IsTheLineOfBothWhereTheOtherRisesAlong) {
  constexpr double kGround = 0.07, kRear = 0.31, kFront = 0.36;  // [m] floor in C, loaded radii
  for (const double t : {-0.2, 0.0, 0.13}) {
    const Eigen::Vector3d rear(-2.53 + 0.1 * t, -0.02, kGround + kRear + t);
    const Floor alone = LevelFloorUnder(rear, kRear);
    for (const double forward : {-0.3, 0.0, 0.4}) {
      const Eigen::Vector3d front(forward, 0.01, kGround + kFront + t);
      const Floor both = FloorUnder({front, rear}, {kFront, kRear});
      EXPECT_TRUE(Near(alone.e, both.e, kTol));
      EXPECT_TRUE(Near(alone.n, both.n, kTol));
      EXPECT_NEAR(alone.offset, both.offset, kTol);
    }
    EXPECT_NEAR(HeightAbove(alone, rear), kRear, kTol);
    EXPECT_EQ(Rake(alone), 0.0);
  }
}

}  // namespace
}  // namespace linkwright
