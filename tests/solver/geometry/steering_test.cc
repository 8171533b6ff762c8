// SPDX-License-Identifier: MIT
#include "solver/geometry/steering.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/error.h"
#include "solver/pose/solve.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;
using check::Near;

constexpr double kTol = 1e-12;  // [m, rad] rounding, times 1e4
constexpr double kDegree = M_PI / 180.0;

struct Steered {
  Axle axle = sample::HarbourVan().axles[kFront];
  AxleFrame frame = PrepareAxle(axle);
  Knuckle knuckle = PrepareKnuckle(axle, frame);
  [[nodiscard]] Eigen::Isometry3d At(double travel, double roll) const {
    const PoseSolution moved =
        MovePose(frame, EvaluateMotion(frame, frame.measured), frame.measured.z + travel, roll);
    EXPECT_EQ(moved.status, SolveStatus::kConverged);
    return Transform(moved.pose);
  }
};

double DragLinkResidual(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA, double turn) {
  const Eigen::Vector3d arm = knuckle.p_AQ - knuckle.pin.p_AK;
  const Eigen::Vector3d p_AQ = knuckle.pin.p_AK + Eigen::AngleAxisd(turn, knuckle.pin.axis_A) * arm;
  return (X_CA * p_AQ - knuckle.p_CP).norm() - knuckle.length;
}

// The root nearest to 0 by bisection of the residual, bracketed outward in small steps.
double RootByBisection(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA) {
  double low = 0.0, high = 0.0;
  const auto f = [&](double t) { return DragLinkResidual(knuckle, X_CA, t); };
  for (int i = 1; i < 2000; ++i) {
    const double t = i * 1e-3;
    if (f(t) * f(t - 1e-3) <= 0.0) {
      low = t - 1e-3, high = t;
      break;
    }
    if (f(-t) * f(1e-3 - t) <= 0.0) {
      low = -t, high = 1e-3 - t;
      break;
    }
  }
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (f(low) * f(middle) <= 0.0 ? high : low) = middle;
  }
  return 0.5 * (low + high);
}

TEST(Steering, NoTurnInTheMeasuredStance) {
  const Steered s;
  EXPECT_TRUE(Holds(KnuckleTurn(s.knuckle, s.frame.X_CA), 0.0, kTol));
  EXPECT_TRUE(Holds(SpindleHeading(s.knuckle, s.frame.X_CA), 0.0, kTol));
}

// Top rearward by the caster, inward by the inclination: projected angles of the axis on its side.
TEST(Steering, KingpinLeansAsItsProjectedAngles) {
  const Steered s;
  const Eigen::Vector3d axis = s.frame.X_CA.linear() * s.knuckle.pin.axis_A;
  EXPECT_NEAR(std::atan2(-axis.x(), axis.z()), 6.0 * kDegree, kTol);
  // The drag link's axle end is on the right: inward is toward +y.
  EXPECT_NEAR(std::atan2(axis.y(), axis.z()), 9.0 * kDegree, kTol);
  EXPECT_TRUE(Near(s.frame.X_CA * s.knuckle.pin.p_AK, Eigen::Vector3d(0.0, -0.665, 0.359), kTol));
}

TEST(Steering, TurnedKnuckleLeavesTheDragLinkItsLength) {
  const Steered s;
  for (const auto& [travel, roll] : std::vector<std::pair<double, double>>{
           {0.08, 0.0}, {-0.09, 0.0}, {0.0, 0.08}, {0.05, -0.09}}) {
    const Eigen::Isometry3d X_CA = s.At(travel, roll);
    const auto turn = KnuckleTurn(s.knuckle, X_CA);
    ASSERT_TRUE(turn);
    EXPECT_NEAR(DragLinkResidual(s.knuckle, X_CA, *turn), 0.0, kTol);
    EXPECT_NEAR(*turn, RootByBisection(s.knuckle, X_CA), 1e-11);
    EXPECT_GT(std::abs(*turn), 1e-4) << "no turn: the test would prove nothing";
  }
}

// Drag link parallel and equal to the track bar, both in the wheel plane: the ends keep together
// and nothing steers (the trade's rule for a track bar and a drag link).
TEST(Steering, DragLinkLikeTheTrackBarDoesNotSteer) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.66, 0.35)};
  const Eigen::Vector3d shift(0.24, 0.10, -0.02);
  const Link& bar = axle.links[3];
  axle.steering =
      Steering{.drag_link = {bar.span.p_CP + shift, bar.span.p_CQ + shift}, .tie_rod = {}};
  const AxleFrame frame = PrepareAxle(axle);
  const Knuckle knuckle = PrepareKnuckle(axle, frame);
  const PoseSolution moved =
      MovePose(frame, EvaluateMotion(frame, frame.measured), frame.measured.z + 0.1, 0.0);
  EXPECT_TRUE(Holds(SpindleHeading(knuckle, Transform(moved.pose)), 0.0, 1e-11));
}

// With the kingpin upright and the knuckle held, the spindle's heading is the axle's own.
TEST(Steering, SpindleHeadingIsLeftPositive) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.66, 0.35)};
  // A drag link along x, its knuckle end ahead of an arm on the kingpin's line: moves the arm to
  // and fro. Pulling the arm's end (outboard of the kingpin) rearward turns the knuckle left.
  axle.steering = Steering{.drag_link = {{-0.8, 0.76, 0.35}, {0.0, 0.76, 0.35}}, .tie_rod = {}};
  const AxleFrame frame = PrepareAxle(axle);
  Knuckle knuckle = PrepareKnuckle(axle, frame);
  knuckle.p_CP.x() -= 0.01;
  EXPECT_TRUE(Holds(SpindleHeading(knuckle, frame.X_CA), std::asin(0.01 / 0.10), 1e-3));
}

TEST(Steering, MirrorImageSteersTheOtherWay) {
  const Vehicle image = sample::MirrorImage(sample::HarbourVan());
  const Steered s;
  const AxleFrame frame = PrepareAxle(image.axles[kFront]);
  const Knuckle knuckle = PrepareKnuckle(image.axles[kFront], frame);
  const PoseSolution moved =
      MovePose(frame, EvaluateMotion(frame, frame.measured), frame.measured.z + 0.06, -0.05);
  const auto heading = SpindleHeading(s.knuckle, s.At(0.06, 0.05));
  ASSERT_TRUE(heading);
  EXPECT_TRUE(Holds(SpindleHeading(knuckle, Transform(moved.pose)), -*heading, 1e-11));
}

// Of its two roots the one that it was measured on, followed by Newton's method from place to
// place: a drag link on either side of its dead centre and not far from it.
TEST(Steering, StaysOnTheRootItWasMeasuredOn) {
  for (const double aside : {0.03, -0.03}) {
    Steered s;
    s.axle.steering->drag_link = {{0.95, 0.665, 0.43}, {0.16, 0.665 + aside, 0.42}};
    s.knuckle = PrepareKnuckle(s.axle, s.frame);
    for (const double way : {1.0, -1.0}) {
      double followed = 0.0, farthest = 0.0;
      for (int i = 1; i <= 300; ++i) {
        const Eigen::Isometry3d X_CA = s.At(way * 2e-4 * i, way * 2e-4 * i);
        const auto turn = KnuckleTurn(s.knuckle, X_CA);
        if (!turn) break;
        for (int k = 0; k < 20; ++k) {
          constexpr double kH = 1e-6;  // [rad]
          const double f = DragLinkResidual(s.knuckle, X_CA, followed);
          const double slope = (DragLinkResidual(s.knuckle, X_CA, followed + kH) -
                                DragLinkResidual(s.knuckle, X_CA, followed - kH)) /
                               (2.0 * kH);
          followed -= f / slope;
        }
        ASSERT_NEAR(*turn, followed, 1e-9) << aside << ", place " << way * i;
        farthest = std::max(farthest, std::abs(*turn));
      }
      EXPECT_GT(farthest, 0.02) << "no turn: the test would prove nothing";
    }
  }
}

// A drag link can reach while the pitman end is within its length plus the knuckle arm of the
// kingpin axis; both sides of it.
TEST(Steering, OutOfReachIsAbsent) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.66, 0.35)};
  axle.steering = Steering{.drag_link = {{-0.8, 0.76, 0.35}, {0.0, 0.76, 0.35}}, .tie_rod = {}};
  const AxleFrame frame = PrepareAxle(axle);
  for (const double beyond : {-1e-6, 1e-6}) {
    Knuckle knuckle = PrepareKnuckle(axle, frame);
    knuckle.p_CP = {-(0.8 + 0.1 + beyond), 0.66, 0.35};
    EXPECT_EQ(KnuckleTurn(knuckle, frame.X_CA).has_value(), beyond < 0.0);
    EXPECT_EQ(SpindleHeading(knuckle, frame.X_CA).has_value(), beyond < 0.0);
  }
}

TEST(Steering, WantsAKingpinWithAPoint) {
  for (const bool without_axis : {true, false}) {
    Axle axle = sample::HarbourVan().axles[kFront];
    if (without_axis)
      axle.kingpin.reset();
    else
      axle.kingpin->p_CK.reset();
    try {
      (void)PrepareKnuckle(axle, PrepareAxle(axle));
      FAIL() << "no error";
    } catch (const ModelError& error) {
      EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "front", "kingpin"}));
      EXPECT_STREQ(error.what(), "steering needs a kingpin with `at`, a point of its axis");
    }
  }
}

TEST(Steering, WantsADragLink) {
  Axle axle = sample::HarbourVan().axles[kFront];
  axle.steering.reset();
  try {
    (void)PrepareKnuckle(axle, PrepareAxle(axle));
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "front"}));
    EXPECT_STREQ(error.what(), "steering: drag_link is wanted to steer this axle");
  }
}

// A drag link fixed on the kingpin's own line turns nothing: an angle from it would be noise.
TEST(Steering, KnuckleWithoutAnArmIsAnError) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.66, 0.35)};
  axle.steering = Steering{.drag_link = {{-0.8, 0.66, 0.35}, {0.0, 0.66, 0.35}}, .tie_rod = {}};
  try {
    (void)PrepareKnuckle(axle, PrepareAxle(axle));
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "rear", "steering", "drag_link"}));
    EXPECT_STREQ(error.what(),
                 "the drag link's axle end lies on the kingpin axis: it cannot steer the wheel");
  }
}

// Upright kingpins, and a tie rod parallel and equal to the line between them: a parallelogram.
Axle UprightPins() {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.66, 0.35)};
  axle.steering = Steering{.drag_link = {{-0.8, 0.76, 0.35}, {0.0, 0.76, 0.35}}, .tie_rod = {}};
  return axle;
}

TEST(TurnByHand, LeftWheelTakesTheHeadingAskedFor) {
  const Steered s;
  for (const double hand : {-0.4, -0.02, 0.0, 0.3}) {
    const auto turns = TurnByHand(s.axle, s.frame, s.frame.X_CA, hand);
    ASSERT_TRUE(turns);
    const KingpinAxis pin = PrepareKingpin(s.axle, s.frame, 1.0);
    EXPECT_NEAR(HeadingOf(pin, turns->left, s.frame.X_CA) - HeadingOf(pin, 0.0, s.frame.X_CA), hand,
                1e-12);
    EXPECT_EQ(turns->right, turns->left);  // no tie rod: alike
  }
}

TEST(TurnByHand, ParallelogramSteersBothAlike) {
  Axle axle = UprightPins();
  axle.steering->tie_rod = TieRod{{-0.15, 0.66, 0.35}, {-0.15, -0.66, 0.35}};
  const AxleFrame frame = PrepareAxle(axle);
  for (const double hand : {-0.5, 0.2}) {
    const auto turns = TurnByHand(axle, frame, frame.X_CA, hand);
    ASSERT_TRUE(turns);
    EXPECT_NEAR(turns->left, hand, kTol);
    EXPECT_NEAR(turns->right, hand, kTol);
  }
}

// Knuckle arms behind the axle that converge make the inner wheel turn further (Ackermann), and the
// rod keeps its length.
TEST(TurnByHand, ConvergingArmsTurnTheInnerWheelFurther) {
  Axle axle = UprightPins();
  axle.steering->tie_rod = TieRod{{-0.15, 0.60, 0.35}, {-0.15, -0.60, 0.35}};
  const AxleFrame frame = PrepareAxle(axle);
  const KingpinAxis left = PrepareKingpin(axle, frame, 1.0),
                    right = PrepareKingpin(axle, frame, -1.0);
  for (const double hand : {-0.4, 0.4}) {
    const auto turns = TurnByHand(axle, frame, frame.X_CA, hand);
    ASSERT_TRUE(turns);
    const Eigen::Vector3d p_L = Turned(left, turns->left, OnHousing(frame, {-0.15, 0.60, 0.35}));
    const Eigen::Vector3d p_R = Turned(right, turns->right, OnHousing(frame, {-0.15, -0.60, 0.35}));
    EXPECT_NEAR((p_L - p_R).norm(), 1.20, kTol);
    const double inner = hand > 0.0 ? turns->left : turns->right;
    const double outer = hand > 0.0 ? turns->right : turns->left;
    EXPECT_GT(std::abs(inner), std::abs(outer) + 0.01);
  }
}

// Turned far right, the left arm's end swings outboard to 1.46 m from the right pin; rod and right
// arm reach 1.20 + 0.16 m.
TEST(TurnByHand, TieRodThatCannotFollowIsAbsent) {
  Axle axle = UprightPins();
  axle.steering->tie_rod = TieRod{{-0.15, 0.60, 0.35}, {-0.15, -0.60, 0.35}};
  const AxleFrame frame = PrepareAxle(axle);
  EXPECT_TRUE(TurnByHand(axle, frame, frame.X_CA, -0.4));
  EXPECT_FALSE(TurnByHand(axle, frame, frame.X_CA, -1.4));
}

}  // namespace
}  // namespace linkwright
