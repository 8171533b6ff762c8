// SPDX-License-Identifier: MIT
#include "solver/geometry/leaf.h"

#include <gtest/gtest.h>

#include <cmath>

namespace linkwright {
namespace {

constexpr double kTiny = 1e-12;       // [m], [rad] a few roundings of lengths near 1 m
constexpr double kIntegrated = 1e-9;  // [m] 400 Simpson steps of 2 mm: error of order 1e-15, and
                                      // the shooting stops at 1e-13

// Unequal halves, a clamp, eyes rolled up, an inclined frame: nothing falls out by symmetry.
LeafSpring RearSpring() {
  return {.shackle_behind = true,
          .p_DF = {-1.925, 0.505},
          .p_DS = {-3.210, 0.535},
          .shackle = 0.095,
          .hangs = true,
          .arc_fixed = 0.640,
          .arc_shackled = 0.690,
          .clamped = 0.110,
          .eye_up = 0.022,
          .camber_new = 0.165,
          .camber_now = 0.060,
          .over_axle = true,
          .to_wheel = 0.055,
          .eyes_now = std::nullopt,
          .p_DB = std::nullopt,
          .eyes_new = std::nullopt,
          .lean_now = std::nullopt,
          .bolts_apart = std::nullopt,
          .p_DW_now = std::nullopt,
          .p_BW_now = std::nullopt};
}

LeafPose PoseAt(const LeafSpring& spring, double camber) {
  return PoseLeaf(spring, CurvatureFor(spring, camber).value()).value();
}

// A second way to the pose that knows no arc, no chord and no circle: the leaf is walked in small
// steps from the fixed eye with a heading, and the first heading is tried until the far eye is a
// shackle's length from its pivot.
struct Walk {
  Eigen::Vector2d eye;   // shackled eye
  Eigen::Vector2d bolt;  // centre bolt
  Eigen::Vector2d up;    // square to the leaf there
  double length = 0.0;   // walked
};

Walk WalkLeaf(const LeafSpring& spring, double curvature, double heading) {
  const double way = spring.shackle_behind ? -1.0 : 1.0;
  const auto along = [&](double angle) {
    return Eigen::Vector2d(way * std::cos(angle), std::sin(angle));
  };
  const auto up = [&](double angle) {
    return Eigen::Vector2d(-way * std::sin(angle), std::cos(angle));
  };
  Walk walk;
  Eigen::Vector2d p = spring.p_DF - spring.eye_up * up(heading);
  const auto run = [&](double length, double bend) {
    constexpr int kSteps = 400;
    const double step = length / kSteps;
    for (int i = 0; i < kSteps; ++i) {
      const double end = heading + bend * step;
      p += step / 6.0 * (along(heading) + 4.0 * along((heading + end) / 2.0) + along(end));
      heading = end;
      walk.length += step;
    }
  };
  const double half = spring.clamped / 2.0;
  run(spring.arc_fixed - half, curvature);
  run(half, 0.0);
  walk.bolt = p;
  walk.up = up(heading);
  run(half, 0.0);
  run(spring.arc_shackled - half, curvature);
  walk.eye = p + spring.eye_up * up(heading);
  return walk;
}

// Wheel centre by shooting; `low` and `high` are headings at the fixed eye either side of the
// answer.
Eigen::Vector2d WheelByShooting(const LeafSpring& spring, double curvature, double low,
                                double high) {
  const auto miss = [&](double heading) {
    return (WalkLeaf(spring, curvature, heading).eye - spring.p_DS).norm() - spring.shackle;
  };
  EXPECT_LT(miss(low) * miss(high), 0.0) << "the two headings do not stand about an answer";
  const bool rises = miss(high) > 0.0;
  while (high - low > 1e-13) {
    const double middle = (low + high) / 2.0;
    ((miss(middle) > 0.0) == rises ? high : low) = middle;
  }
  const Walk walk = WalkLeaf(spring, curvature, low);
  return walk.bolt + (spring.over_axle ? -1.0 : 1.0) * spring.to_wheel * walk.up;
}

TEST(PoseLeaf, AgreesWithAWalkAlongTheCurvedLeaf) {
  for (const bool over : {true, false}) {
    for (const double camber : {0.165, 0.110, 0.060, 0.022, -0.020}) {
      LeafSpring spring = RearSpring();
      spring.over_axle = over;
      const double curvature = CurvatureFor(spring, camber).value();
      const LeafPose pose = PoseLeaf(spring, curvature).value();
      // Walking rearward, the heading at the bolt is minus the tilt; at the eye the leaf has yet to
      // turn by its bend.
      const double heading = -pose.tilt - curvature * (spring.arc_fixed - spring.clamped / 2.0);
      const Eigen::Vector2d wheel =
          WheelByShooting(spring, curvature, heading - 0.05, heading + 0.04);
      EXPECT_NEAR((wheel - pose.p_DW).norm(), 0.0, kIntegrated) << "camber " << camber;
    }
  }
}

TEST(PoseLeaf, AgreesWithAWalkForAStandingShackleInFront) {
  LeafSpring spring = RearSpring();
  spring.shackle_behind = false;
  spring.p_DS = {-0.700, 0.380};
  spring.hangs = false;
  const double curvature = CurvatureFor(spring, 0.120).value();
  const LeafPose pose = PoseLeaf(spring, curvature).value();
  EXPECT_GT(pose.p_DE.y(), spring.p_DS.y());
  const double heading = pose.tilt - curvature * (spring.arc_fixed - spring.clamped / 2.0);
  const Eigen::Vector2d wheel = WheelByShooting(spring, curvature, heading - 0.03, heading + 0.05);
  EXPECT_NEAR((wheel - pose.p_DW).norm(), 0.0, kIntegrated);
}

TEST(PoseLeaf, KeepsTheLeafTheEyeAndTheShackle) {
  const LeafSpring spring = RearSpring();
  for (const double camber : {0.165, 0.060}) {
    const LeafPose pose = PoseAt(spring, camber);
    EXPECT_NEAR((pose.p_DE - spring.p_DS).norm(), spring.shackle, kTiny);
    EXPECT_NEAR((pose.p_DE - spring.p_DF).norm(), pose.eyes_apart, kTiny);
    const double heading = -pose.tilt - pose.curvature * (spring.arc_fixed - spring.clamped / 2.0);
    const Walk walk = WalkLeaf(spring, pose.curvature, heading);
    EXPECT_NEAR(walk.length, spring.arc_fixed + spring.arc_shackled, kTiny * 1e3);  // 1600 sums
    EXPECT_NEAR((walk.eye - pose.p_DE).norm(), 0.0, kIntegrated);
    EXPECT_NEAR((walk.bolt - pose.p_DB).norm(), 0.0, kIntegrated);
  }
}

TEST(PoseLeaf, FlatteningMovesTheAxleAwayFromTheFixedEyeAndTheShackleOut) {
  const LeafSpring spring = RearSpring();
  const LeafPose fresh = PoseAt(spring, spring.camber_new);
  const LeafPose now = PoseAt(spring, spring.camber_now);
  EXPECT_LT(now.p_DW.x(), fresh.p_DW.x());
  EXPECT_GT(now.p_DW.y(), fresh.p_DW.y());
  EXPECT_GT(now.shackle_lean, fresh.shackle_lean);
  EXPECT_GT(now.eyes_apart, fresh.eyes_apart);
}

TEST(PoseLeaf, TheMirroredSpringHasTheMirroredPose) {
  const LeafSpring spring = RearSpring();
  LeafSpring mirrored = spring;
  mirrored.shackle_behind = false;
  mirrored.p_DF.x() *= -1.0;
  mirrored.p_DS.x() *= -1.0;
  const LeafPose one = PoseAt(spring, 0.1);
  const LeafPose other = PoseAt(mirrored, 0.1);
  EXPECT_NEAR(other.p_DW.x(), -one.p_DW.x(), kTiny);
  EXPECT_NEAR(other.p_DW.y(), one.p_DW.y(), kTiny);
  EXPECT_NEAR(other.tilt, -one.tilt, kTiny);
  EXPECT_NEAR(other.shackle_lean, -one.shackle_lean, kTiny);
  EXPECT_NEAR(other.swing, one.swing, kTiny);
}

TEST(PoseLeaf, MovingTheDatumMovesNothingElse) {
  const Eigen::Vector2d by(1.3, -0.7);
  LeafSpring moved = RearSpring();
  moved.p_DF += by;
  moved.p_DS += by;
  const LeafPose one = PoseAt(RearSpring(), 0.1);
  const LeafPose other = PoseAt(moved, 0.1);
  EXPECT_NEAR((other.p_DW - one.p_DW - by).norm(), 0.0, kTiny);
  EXPECT_NEAR(other.tilt, one.tilt, kTiny);
}

TEST(PoseLeaf, TheWheelLiesSquareBelowOrAboveTheLeaf) {
  LeafSpring spring = RearSpring();
  const LeafPose over = PoseAt(spring, 0.1);
  spring.over_axle = false;
  const LeafPose under = PoseAt(spring, 0.1);
  const Eigen::Vector2d up(-std::sin(over.tilt), std::cos(over.tilt));
  EXPECT_NEAR((under.p_DW - over.p_DW - 2.0 * spring.to_wheel * up).norm(), 0.0, kTiny);
}

// A level leaf without camber: everything can be said by hand. Shackle upright, eye in line.
TEST(PoseLeaf, AFlatLevelLeafIsWhereItsLengthsPutIt) {
  LeafSpring spring = RearSpring();
  spring.eye_up = 0.0;
  spring.p_DF = {0.0, 0.4};
  spring.p_DS = {-1.33, 0.495};
  const LeafPose pose = PoseAt(spring, 0.0);
  EXPECT_NEAR(pose.p_DW.x(), -0.640, kTiny);
  EXPECT_NEAR(pose.p_DW.y(), 0.4 - 0.055, kTiny);
  EXPECT_NEAR(pose.tilt, 0.0, kTiny);
  EXPECT_NEAR(pose.shackle_lean, 0.0, kTiny);
  EXPECT_NEAR(pose.swing, std::acos(0.0), kTiny);
  EXPECT_NEAR(pose.eyes_apart, 1.33, kTiny);
}

TEST(PoseLeaf, SaysWhereTheShackleCannotReach) {
  LeafSpring spring = RearSpring();
  spring.p_DS.x() = -3.45;  // 1.5 m from the fixed eye: leaf and shackle in line make 1.42 m
  EXPECT_FALSE(PoseLeaf(spring, 0.2));
  spring.p_DS = {-2.2, 0.5};  // nearer than the leaf less the shackle
  EXPECT_FALSE(PoseLeaf(spring, 0.2));
}

TEST(CurvatureFor, IsTheInverseOfCamber) {
  const LeafSpring spring = RearSpring();
  for (double camber = -0.2; camber < 0.3; camber += 0.01) {
    const double curvature = CurvatureFor(spring, camber).value();
    EXPECT_NEAR(CamberOf(BendLeaf(spring, curvature)), camber, kTiny);
  }
}

TEST(CurvatureFor, OfACamberThatNoSuchLeafHasIsNothing) {
  EXPECT_FALSE(CurvatureFor(RearSpring(), 0.6));
  EXPECT_FALSE(CurvatureFor(RearSpring(), -0.6));
}

// What the halving relies on: more bend, more camber, for short and long halves and large eyes.
TEST(CamberOf, GrowsWithCurvature) {
  for (const double shackled : {0.30, 0.64, 0.90}) {
    for (const double eye_up : {-0.05, 0.0, 0.05}) {
      LeafSpring spring = RearSpring();
      spring.arc_shackled = shackled;
      spring.eye_up = eye_up;
      const double longest = std::max(shackled, spring.arc_fixed) - spring.clamped / 2.0;
      double before = -1e9;
      for (double turn = -1.57; turn <= 1.57; turn += 0.01) {
        const double camber = CamberOf(BendLeaf(spring, turn / longest));
        EXPECT_GT(camber, before) << shackled << " " << eye_up << " " << turn;
        before = camber;
      }
    }
  }
}

TEST(CamberOf, AFlatLeafIsWhatItsEyesStandUp) {
  EXPECT_NEAR(CamberOf(BendLeaf(RearSpring(), 0.0)), 0.022, kTiny);
}

}  // namespace
}  // namespace linkwright
