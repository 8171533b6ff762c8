// SPDX-License-Identifier: MIT
#include "solver/geometry/travel_limits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/model/force_law.h"
#include "solver/pose/solve.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-14;        // [m]
constexpr double kRoundings = 1e-12;  // [m, rad] a few of them

// What is left of one limit at a pose.
std::optional<double> Left(const AxleLimits& limits, LimitKind kind, const std::string& name,
                           const Eigen::Isometry3d& X_CA) {
  const auto at = std::find_if(limits.list.begin(), limits.list.end(), [&](const auto& limit) {
    return limit.id.kind == kind && limit.name == name;
  });
  if (at == limits.list.end()) return std::nullopt;
  const auto index = static_cast<size_t>(at - limits.list.begin());
  const std::optional<double> alone = LeftOf(limits, index, X_CA);
  EXPECT_EQ(alone, LeftOfAll(limits, X_CA)[index]) << name;
  return alone;
}

const TravelLimit& Find(const AxleLimits& limits, LimitKind kind, const std::string& name) {
  return *std::find_if(limits.list.begin(), limits.list.end(), [&](const auto& limit) {
    return limit.id.kind == kind && limit.name == name;
  });
}

// One axle of a vehicle, its rear one unless said, as measured.
struct Measured {
  Vehicle vehicle = sample::HarbourVan();
  size_t index = kRear;
  [[nodiscard]] Axle& axle() { return vehicle.axles[index]; }
  std::optional<AxleFrame> frame = {};
  AxleLimits Prepare(Watch watch) {
    frame = PrepareAxle(axle());
    return PrepareLimits(vehicle, index, *frame, watch);
  }
};

TEST(TravelLimits, OfTheReferenceVehicleAsMeasured) {
  Measured van;
  const AxleLimits limits = van.Prepare(Watch::kRows);
  EXPECT_EQ(limits.list.size(), 8u);  // two dampers twice, two coils, two stops
  const auto left = [&](LimitKind kind, const std::string& name) {
    return *Left(limits, kind, name, van.frame->X_CA);
  };
  const double damper = Eigen::Vector3d(0.130, -0.070, 0.390).norm();
  for (const char* side : {"damper left", "damper right"}) {
    EXPECT_NEAR(left(LimitKind::kDamperClosed, side), damper - 0.315, kTol);
    EXPECT_NEAR(left(LimitKind::kDamperOpen, side), 0.505 - damper, kTol);
  }
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(left(LimitKind::kCoilBound, "coil left"), coil - 0.120, kTol);
  const double cone = Eigen::Vector3d(0.001, 0.0, 0.102).norm();
  EXPECT_NEAR(left(LimitKind::kStopSolid, "cone right"), cone - (0.067 - 0.040), kTol);
}

TEST(TravelLimits, WhatTheFileDoesNotGiveIsNotWatched) {
  Measured van;
  for (Damper& damper : van.axle().dampers) damper.shortest.reset(), damper.longest.reset();
  for (Spring& spring : van.axle().springs) spring.solid_length.reset();
  for (Stop& stop : van.axle().bump_stops) stop.law.curve.clear();
  EXPECT_TRUE(van.Prepare(Watch::kRows).list.empty());
}

TEST(TravelLimits, CoilWithACurveIsBoundPastItsLastPoint) {
  Measured van;
  van.axle().springs[0].solid_length.reset();
  van.axle().springs[0].law.curve = {{0.0, 0.0}, {0.05, 1000.0}, {0.15, 5000.0}};
  const AxleLimits limits = van.Prepare(Watch::kRows);
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(*Left(limits, LimitKind::kCoilBound, "coil left", van.frame->X_CA),
              coil - (0.339 - 0.15), kTol);
}

// Twins are known by what they are, whatever a member is called.
TEST(TravelLimits, AreKnownByWhatTheyAre) {
  Measured van;
  van.axle().dampers[0].name.key = "leftover";
  const AxleLimits limits = van.Prepare(Watch::kRows);
  const TravelLimit& left = Find(limits, LimitKind::kDamperOpen, "leftover left");
  const TravelLimit& right = Find(limits, LimitKind::kDamperOpen, "damper right");
  EXPECT_EQ(left.id, (LimitId{LimitKind::kDamperOpen, 0, 0}));
  EXPECT_EQ(right.id, (LimitId{LimitKind::kDamperOpen, 1, 0}));
  EXPECT_EQ(left.both, "leftover");
  EXPECT_EQ(right.both, "damper");
  EXPECT_LT(left.id, right.id);
}

// Upright members of 300 mm that have `left` before they are longest.
std::vector<LengthLimit> Upright(const std::vector<double>& left) {
  std::vector<LengthLimit> all;
  for (const double each : left) {
    all.push_back({{{LimitKind::kStrapTaut, all.size()}, "strap", "strap", LimitRole::kEndsRows},
                   {0.0, 0.0, 0.3},
                   Eigen::Vector3d::Zero(),
                   0.3 + each,
                   true});
  }
  return all;
}

TEST(TravelLimits, RowExactlyAtAnEndIsStillARow) {
  const auto past = [](double left) {
    return FarthestPast(Upright({left}), Eigen::Isometry3d::Identity()) != nullptr;
  };
  EXPECT_FALSE(past(0.0));
  EXPECT_FALSE(past(-0.99 * kEndTolerance));
  EXPECT_TRUE(past(-1.01 * kEndTolerance));
}

TEST(TravelLimits, TheOneFarthestPastItsEndIsNamed) {
  const std::vector<LengthLimit> all = Upright({-0.001, -0.004, 0.010, -0.002});
  const LengthLimit* past = FarthestPast(all, Eigen::Isometry3d::Identity());
  ASSERT_NE(past, nullptr);
  EXPECT_EQ(past->limit.id.member, 1U);
  EXPECT_EQ(FarthestPast({}, Eigen::Isometry3d::Identity()), nullptr);
}

// A cone past its end ends travel on its pad alone; beside it, that is told.
TEST(TravelLimits, AConeBesideItsPadEndsNothingAndIsTold) {
  Measured van;
  Stop& stop = van.axle().bump_stops[0];
  stop.pad_radius = 0.020;
  const AxleLimits limits = van.Prepare(Watch::kAll);
  const auto at = [&](double up, double aside) {
    Eigen::Isometry3d X_CA = van.frame->X_CA;
    X_CA.translation() += Eigen::Vector3d(0.0, aside, up);
    return X_CA;
  };
  const Eigen::Vector3d along = stop.span.p_CQ - stop.span.p_CP;
  // Straight up by t the plane comes nearer by t times the slope of the axis; so does the place
  // where it meets the axis, whose distance from the pad's point is that of the point from the
  // axis.
  const Eigen::Vector3d u = along.normalized();
  const auto left = [&](LimitKind kind, double up, double aside) {
    return Left(limits, kind, "cone left", at(up, aside)).value_or(9.0);
  };
  const auto length = [&](double up, double aside) {
    return along.norm() + up * u.z() + aside * u.y();
  };
  const double solid = SolidBelow(stop.law), up = 0.080;
  ASSERT_LT(length(up, 0.0), solid);
  EXPECT_NEAR(left(LimitKind::kStopSolid, up, 0.010), length(up, 0.010) - solid, kRoundings);
  EXPECT_GT(left(LimitKind::kConeOffPad, up, 0.010), 0.0);
  const Eigen::Vector3d moved(0.0, 0.030, up);
  const double beside = (moved - moved.dot(u) * u).norm();
  EXPECT_NEAR(left(LimitKind::kStopSolid, up, 0.030), beside - 0.020, kRoundings);
  EXPECT_NEAR(left(LimitKind::kConeOffPad, up, 0.030), 0.020 - beside, kRoundings);
  EXPECT_GT(left(LimitKind::kConeOffPad, 0.0, 0.030), 0.0) << "clear of it, it misses nothing";
  for (size_t i = 0; i < limits.list.size(); ++i) {
    if (limits.list[i].id != LimitId{LimitKind::kStopSolid, 0, 0}) continue;
    EXPECT_FALSE(IsMissed(limits, i, at(up, 0.010)));
    EXPECT_TRUE(IsMissed(limits, i, at(up, 0.030)));
  }
}

TEST(TravelLimits, WordsForEveryEnd) {
  const auto words = [](LimitKind kind, const std::string& name) {
    return Describe({{kind}, name, name, LimitRole::kEndsRows});
  };
  EXPECT_EQ(words(LimitKind::kDamperClosed, "damper left"), "damper left is fully closed");
  EXPECT_EQ(words(LimitKind::kDamperOpen, "damper left"), "damper left is fully open");
  EXPECT_EQ(words(LimitKind::kCoilBound, "coil right"), "coil right is coil-bound");
  EXPECT_EQ(words(LimitKind::kStopSolid, "cone left"), "cone left is solid");
  EXPECT_EQ(words(LimitKind::kLinksStraight, "track bar"),
            "its links line up and can follow no further (track bar holds it most)");
  EXPECT_EQ(words(LimitKind::kDragLinkOutOfReach, "drag link"),
            "the drag link cannot reach its knuckle");
}

TEST(WatchedLimits, OfTheReferenceVehicleAsMeasured) {
  Measured van;
  van.axle().opening->inner_panel_y = 0.600;
  van.axle().links[0].misalignment_limit = 0.2;
  const AxleLimits limits = van.Prepare(Watch::kAll);
  const auto left = [&](LimitKind kind, const std::string& name) {
    const auto found = Left(limits, kind, name, van.frame->X_CA);
    EXPECT_TRUE(found) << name;
    return found.value_or(-1.0);
  };
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(left(LimitKind::kCoilUnseated, "coil left"), 0.339 - coil, kRoundings);
  EXPECT_EQ(Find(limits, LimitKind::kCoilUnseated, "coil left").role, LimitRole::kPassed);
  // Half the slip is left either way as measured (slip_left unless given).
  EXPECT_NEAR(left(LimitKind::kShaftBottomed, "rear driveshaft"), 0.0275, kRoundings);
  EXPECT_NEAR(left(LimitKind::kShaftParted, "rear driveshaft"), 0.0275, kRoundings);
  EXPECT_NEAR(left(LimitKind::kJointAtLimit, "lower arm left, frame end"), 0.2, kRoundings);
  EXPECT_NEAR(left(LimitKind::kTireOnPanel, "tyre right"), 0.745 - 0.1175 - 0.600, kRoundings);
  // Side view: 8 mm ahead of and 9 mm under its opening's centre, in the lower half of the outline.
  EXPECT_GT(left(LimitKind::kTireOnLip, "tyre left"), 0.425 - std::hypot(0.008, 0.009) - 0.378);
  EXPECT_LT(left(LimitKind::kTireOnLip, "tyre left"), 0.425 - 0.378);
  const AxleLimits no_tires = van.Prepare(Watch::kAllButTires);
  EXPECT_EQ(no_tires.list.size(), limits.list.size() - 4);  // two tyres, lip and panel
}

TEST(WatchedLimits, ACoilKeptSeatedIsAnEnd) {
  Measured van;
  van.axle().springs[0].keep_seated = true;
  const AxleLimits limits = van.Prepare(Watch::kAll);
  EXPECT_EQ(Find(limits, LimitKind::kCoilUnseated, "coil left").role, LimitRole::kEndsTravel);
  EXPECT_EQ(Find(limits, LimitKind::kCoilUnseated, "coil right").role, LimitRole::kPassed);
}

TEST(WatchedLimits, AShaftLosesWhatItsLengthLoses) {
  Measured van;
  const AxleLimits limits = van.Prepare(Watch::kAll);
  const AxleFrame& frame = *van.frame;
  const HousingMotion measured = EvaluateMotion(frame, frame.measured);
  const PoseSolution up = MovePose(frame, measured, frame.measured.z + 0.060, 0.0);
  const Eigen::Isometry3d X_CA = Transform(up.pose);
  const Eigen::Vector3d p_CY = van.axle().pinion->p_CY;
  const Eigen::Vector3d p_CO = van.vehicle.driveshafts[0].p_CO;
  const double longer = (X_CA * OnHousing(frame, p_CY) - p_CO).norm() - (p_CY - p_CO).norm();
  EXPECT_NEAR(*Left(limits, LimitKind::kShaftBottomed, "rear driveshaft", X_CA), 0.0275 + longer,
              kRoundings);
  EXPECT_NEAR(*Left(limits, LimitKind::kShaftParted, "rear driveshaft", X_CA), 0.0275 - longer,
              kRoundings);
}

TEST(TravelLimits, AStrapIsTautAtItsLength) {
  Measured van;
  van.axle().straps.push_back(
      {.name = {"strap"}, .span = {{-2.6, 0.3, 0.7}, {-2.6, 0.3, 0.4}}, .length = 0.42});
  van.axle().straps.push_back(
      {.name = {"no length"}, .span = van.axle().straps[0].span, .length = {}});
  const AxleLimits limits = van.Prepare(Watch::kRows);
  EXPECT_NEAR(*Left(limits, LimitKind::kStrapTaut, "strap", van.frame->X_CA), 0.12, kRoundings);
  EXPECT_FALSE(Left(limits, LimitKind::kStrapTaut, "no length", van.frame->X_CA));
}

TEST(ReachLeft, IsZeroWhereTheKnuckleJustStopsFollowing) {
  const Axle front = sample::HarbourVan().axles[kFront];
  const AxleFrame frame = PrepareAxle(front);
  Knuckle knuckle = PrepareKnuckle(front, frame);
  const double left = ReachLeft(knuckle, frame.X_CA);
  ASSERT_GT(left, 0.0);
  const double length = knuckle.length;
  constexpr double kHair = 1e-7;  // [m] the root's slope is steep at the end of reach
  for (const double beyond : {-left - kHair, -left + kHair, left - kHair, left + kHair}) {
    knuckle.length = length + beyond;
    EXPECT_EQ(KnuckleTurn(knuckle, frame.X_CA).has_value(), ReachLeft(knuckle, frame.X_CA) > 0.0)
        << beyond;
  }
}

TEST(TurnInside, GivesTheWheelInsideTheBendItsSteer) {
  Axle front = sample::HarbourVan().axles[kFront];
  front.steering->tie_rod = TieRod{{-0.16, 0.61, 0.33}, {-0.16, -0.61, 0.33}};
  const AxleFrame frame = PrepareAxle(front);
  for (const double steer : {0.5, -0.5}) {
    const auto turns = TurnInside(front, frame, frame.X_CA, steer);
    ASSERT_TRUE(turns);
    const double side = steer > 0.0 ? 1.0 : -1.0;
    const KingpinAxis pin = PrepareKingpin(front, frame, side);
    const double turn = steer > 0.0 ? turns->left : turns->right;
    EXPECT_NEAR(HeadingOf(pin, turn, frame.X_CA) - HeadingOf(pin, 0.0, frame.X_CA), steer,
                kRoundings);
    // Arms that converge behind the axle turn the outer wheel less (Ackermann).
    const double outer = std::abs(steer > 0.0 ? turns->right : turns->left);
    EXPECT_LT(outer, std::abs(turn));
  }
  // A mirror image: the same turns on the other side.
  EXPECT_NEAR(TurnInside(front, frame, frame.X_CA, 0.5)->right,
              -TurnInside(front, frame, frame.X_CA, -0.5)->left, 1e-10);
}

}  // namespace
}  // namespace linkwright
