// SPDX-License-Identifier: MIT
#include "solver/model/moves.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/masses.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [m] rounding at 3 m

TEST(BodyWay, RaisesTheNoseAboutItsLineOnTheFloor) {
  const double floor = 0.012, pitch = 0.03;
  const BodyPlacing placing{.move = {0.05, 0.02}, .pitch = pitch, .about = -0.4};
  const Eigen::Isometry3d way = BodyWay(placing, floor);
  // The line itself is only moved; what is a metre ahead of it, on the floor, comes up by the sine.
  EXPECT_TRUE(check::Near(way * Eigen::Vector3d(-0.4, 0.7, floor),
                          Eigen::Vector3d(-0.35, 0.7, floor + 0.02), kTol));
  EXPECT_TRUE(check::Near(
      way * Eigen::Vector3d(0.6, 0.0, floor),
      Eigen::Vector3d(-0.35 + std::cos(pitch), 0.0, floor + 0.02 + std::sin(pitch)), kTol));
  // And what stands a metre above it goes back.
  EXPECT_TRUE(check::Near(
      way * Eigen::Vector3d(-0.4, 0.0, floor + 1.0),
      Eigen::Vector3d(-0.35 - std::sin(pitch), 0.0, floor + 0.02 + std::cos(pitch)), kTol));
}

TEST(Stretched, TakesWhatIsFixedToTheChassisBehindTheCutBack) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].center_bearing = CenterBearing{.p_CB = {-1.7, 0.0, 0.43}};
  const Vehicle longer = Stretched(van, {.at = -1.5, .by = 0.2});
  const Eigen::Vector3d back(0.2, 0.0, 0.0), none = Eigen::Vector3d::Zero();
  const auto moved = [&](const Eigen::Vector3d& before, const Eigen::Vector3d& after,
                         const Eigen::Vector3d& by) {
    EXPECT_TRUE(check::Near(before - after, by, kTol));
  };
  const Axle &rear = van.axles[1], &rear_then = longer.axles[1];
  moved(rear.p_CW_l, rear_then.p_CW_l, back), moved(rear.p_CW_r, rear_then.p_CW_r, back);
  moved(rear.links[0].span.p_CP, rear_then.links[0].span.p_CP, back);
  moved(rear.links[0].span.p_CQ, rear_then.links[0].span.p_CQ, back);
  moved(rear.pinion->p_CY, rear_then.pinion->p_CY, back);
  moved(van.driveshafts[0].p_CO, longer.driveshafts[0].p_CO, none);  // at -1.13
  moved(van.driveshafts[0].center_bearing->p_CB, longer.driveshafts[0].center_bearing->p_CB, back);
  moved(van.axles[0].links[0].span.p_CP, longer.axles[0].links[0].span.p_CP, none);
  EXPECT_EQ(van.axles[1].opening->x, longer.axles[1].opening->x);
  EXPECT_EQ(van.marks[3].p_CB, longer.marks[3].p_CB);
  // Behind the rear axle only the overhang grows: the rear track bar's and coil's brackets.
  const Vehicle overhang = Stretched(van, {.at = -2.6, .by = 0.2});
  moved(rear.p_CW_l, overhang.axles[1].p_CW_l, none);
  moved(rear.links[4].span.p_CP, overhang.axles[1].links[4].span.p_CP, back);
  moved(rear.links[4].span.p_CQ, overhang.axles[1].links[4].span.p_CQ, none);
}

// A beam on two supports: what a mass puts on each does not change.
TEST(Stretched, LeavesWhatAMassOfNoKnownPlacePutsOnEachAxle) {
  const Vehicle van = sample::HarbourVan();
  const Cut cut = CutOf(van, {.at = -1.5, .by = 0.3});
  for (const double x : {0.2, -0.7, -1.9, -3.1}) {
    const double then = x - MassBack(cut, std::nullopt, x);
    EXPECT_NEAR(x / 2.540, then / 2.840, kTol) << x;  // of its weight, on the rear axle
  }
  // The whole sprung mass too, from the ledger: the unsprung masses go with their axles.
  const SprungMass before = FinishedSprungMass(van);
  const SprungMass after = FinishedSprungMass(Stretched(van, {.at = -1.5, .by = 0.3}));
  EXPECT_NEAR(before.mass * before.p_CM.x() / 2.540, after.mass * after.p_CM.x() / 2.840,
              1e-9);  // [kg]
}

TEST(Stretched, TakesAMassWhereItSaysItIsFixed) {
  const Cut cut = CutOf(sample::HarbourVan(), {.at = -1.5, .by = 0.3});
  for (const double x : {-1.0, -2.0}) {
    EXPECT_EQ(MassBack(cut, FixedTo::kBody, x), 0.0);
    EXPECT_EQ(MassBack(cut, FixedTo::kRear, x), 0.3);
    EXPECT_EQ(MassBack(cut, FixedTo::kChassis, x), x < -1.5 ? 0.3 : 0.0);
  }
}

TEST(SeatOnSpacers, BringsTheSeatTowardTheAxleAlongTheMember) {
  Vehicle van = sample::HarbourVan();
  const Spring before = van.axles[0].springs[1];
  const Stop stop = van.axles[1].bump_stops[0];
  van.axles[0].springs[1].spacer = 0.025;
  van.axles[1].bump_stops[0].spacer = -0.01;
  SeatOnSpacers(van);
  const Span &coil = van.axles[0].springs[1].span, &cone = van.axles[1].bump_stops[0].span;
  EXPECT_NEAR(MeasuredLength(before.span) - MeasuredLength(coil), 0.025, kTol);
  EXPECT_NEAR((coil.p_CP - before.span.p_CP).norm(), 0.025, kTol);  // so along the line
  EXPECT_NEAR(MeasuredLength(cone) - MeasuredLength(stop.span), 0.01, kTol);
  EXPECT_EQ(coil.p_CQ, before.span.p_CQ);
}

}  // namespace
}  // namespace linkwright
