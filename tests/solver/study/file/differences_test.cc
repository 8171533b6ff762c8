// SPDX-License-Identifier: MIT
#include "solver/study/file/differences.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/study/file/check.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kBack = 0.0137;  // [m]

// Every hole on the frame of a four-link axle back, its arms kept: by hand the axle goes back by as
// much and does nothing else, and each arm slopes as it did.
Vehicle HolesBack(const Vehicle& before) {
  Vehicle after = before;
  Axle& rear = after.axles[kRear];
  for (Link& link : rear.links) link.span.p_CP.x() -= kBack;
  KeepArms(
      before.axles[kRear], [](auto&, auto&) { return true; }, rear);
  return after;
}

TEST(DifferencesOf, NamesTheHolesAndHowFarTheAxleMovesForThem) {
  const Vehicle before = sample::LevelTruck(), after = HolesBack(before);
  const Differences differences = DifferencesOf(before, after);
  ASSERT_EQ(differences.list.size(), before.axles[kRear].links.size());
  for (const Difference& each : differences.list) {
    EXPECT_EQ(each.kind, DifferenceKind::kPlace);
    EXPECT_TRUE(each.what.starts_with("rear ") && each.what.ends_with(", frame end"));
    EXPECT_NEAR((each.moved + kBack * Eigen::Vector3d::UnitX()).norm(), 0.0, 1e-15);
  }
  const Pose& moved = differences.axle_moved[kRear];
  EXPECT_NEAR(moved.x, -kBack, 1e-9);
  EXPECT_NEAR(std::max({std::abs(moved.y), std::abs(moved.steer), std::abs(moved.pitch)}), 0.0,
              1e-9);
  EXPECT_EQ(differences.axle_moved[kFront].x, 0.0);
}

TEST(CheckVehicle, ArmsSlopeAsTheirPointsSay) {
  const Vehicle before = sample::LevelTruck(), after = HolesBack(before);
  const CheckReport plain = CheckVehicle(before), moved = CheckVehicle(after);
  size_t i = 0;
  for (const Axle& axle : before.axles) {
    for (const Link& link : axle.links) {
      const ArmAt& arm = plain.arms.at(i).arm;
      const Eigen::Vector3d d = link.span.p_CP - link.span.p_CQ;
      EXPECT_NEAR(arm.length * std::cos(std::atan2(d.z(), std::hypot(d.x(), d.y()))),
                  std::hypot(d.x(), d.y()), 1e-12);
      EXPECT_NEAR(std::tan(arm.side) * std::abs(d.x()), d.z(), 1e-12);
      EXPECT_NEAR(std::tan(arm.plan) * std::abs(d.x()), d.y(), 1e-12);
      EXPECT_EQ(arm.longer, 0.0);
      EXPECT_NEAR(moved.arms.at(i).arm.side, arm.side, 1e-9);
      EXPECT_NEAR(moved.arms.at(i).arm.plan, arm.plan, 1e-9);
      ++i;
    }
  }
  EXPECT_EQ(i, plain.arms.size());
}

}  // namespace
}  // namespace linkwright
