// SPDX-License-Identifier: MIT
#include "solver/study/motions.h"

#include <gtest/gtest.h>

#include "solver/model/error.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;
using check::Near;

constexpr double kTol = 1e-11;  // [m, rad] poses to 1e-12 by another way

class VanMotion : public testing::Test {
 protected:
  Vehicle vehicle = sample::HarbourVan();
  Rig rig = PrepareRig(vehicle);
  Stance stance = Settle(rig, vehicle.loads[0]);
  [[nodiscard]] MotionSweep Sweep(MotionKind kind, double to, size_t wheel = 0) const {
    return SweepMotion(rig, &stance,
                       {.kind = kind, .wheel = wheel, .grid = {.from = -to, .to = to, .step = to}});
  }
  // Left and right wheel travels of a row from the row at 0.
  [[nodiscard]] static Eigen::Vector2d Moved(const MotionSweep& sweep, size_t row, size_t axle) {
    const auto& at = sweep.rows[row].axles[axle].wheel;
    const auto& rest = sweep.rows[1].axles[axle].wheel;
    return {at[0].z() - rest[0].z(), at[1].z() - rest[1].z()};
  }
};

TEST_F(VanMotion, RollLiftsTheBodysLeftSide) {
  const double phi = 0.05;
  const MotionSweep sweep = Sweep(MotionKind::kRoll, phi);
  ASSERT_EQ(sweep.rows.size(), 3u);
  const double half = 0.745 * std::sin(phi);
  for (size_t axle = 0; axle < 2; ++axle) {
    EXPECT_TRUE(Near(Moved(sweep, 2, axle), Eigen::Vector2d(-half, half), kTol));
    EXPECT_TRUE(Near(Moved(sweep, 0, axle), Eigen::Vector2d(half, -half), kTol));
    EXPECT_NEAR(sweep.rows[2].axles[axle].housing_roll, -phi, kTol);
  }
}

TEST_F(VanMotion, CrossedAxlesRollOppositeWays) {
  const double phi = 0.04;
  const MotionSweep sweep = Sweep(MotionKind::kCrossed, phi);
  const double half = 0.745 * std::sin(phi);
  EXPECT_TRUE(Near(Moved(sweep, 2, kFront), Eigen::Vector2d(-half, half), kTol));
  EXPECT_TRUE(Near(Moved(sweep, 2, kRear), Eigen::Vector2d(half, -half), kTol));
}

TEST_F(VanMotion, OneWheelMovesAndThreeStay) {
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const MotionSweep sweep = Sweep(MotionKind::kOneWheel, 0.03, wheel);
    for (size_t other = 0; other < 4; ++other) {
      EXPECT_NEAR(Moved(sweep, 2, other / 2)[static_cast<Eigen::Index>(other % 2)],
                  other == wheel ? 0.03 : 0.0, kTol);
    }
  }
}

TEST_F(VanMotion, ChangesCountFromTheRowAtZero) {
  const MotionSweep sweep = Sweep(MotionKind::kRoll, 0.05);
  EXPECT_EQ(sweep.rows[1].parameter, 0.0);
  for (const MotionAxleRow& axle : sweep.rows[1].axles) {
    EXPECT_EQ(axle.lateral_shift, 0.0);
    EXPECT_EQ(axle.wheelbase_change, 0.0);
  }
  EXPECT_EQ(sweep.rows[1].axles[kFront].steer, 0.0);
  // Wheels' places are absolute: their middle has shifted by what the column says.
  for (size_t i = 0; i < 2; ++i) {
    const auto middle = [&](size_t row) -> Eigen::Vector3d {
      const auto& wheel = sweep.rows[row].axles[i].wheel;
      return 0.5 * (wheel[0] + wheel[1]);
    };
    EXPECT_NEAR(sweep.rows[2].axles[i].lateral_shift, middle(2).y() - middle(1).y(), kTol);
    const double sign = i == 0 ? 1.0 : -1.0;
    EXPECT_NEAR(sweep.rows[2].axles[i].wheelbase_change, sign * (middle(2).x() - middle(1).x()),
                kTol);
  }
}

TEST_F(VanMotion, SpringsAreBySide) {
  const MotionSweep sweep = Sweep(MotionKind::kRoll, 0.05);
  const MotionAxleRow& row = sweep.rows[2].axles[kRear];  // left side up: the left coil grows
  const MotionAxleRow& rest = sweep.rows[1].axles[kRear];
  EXPECT_GT(*row.spring_length[0], *rest.spring_length[0] + 0.01);
  EXPECT_LT(*row.spring_length[1], *rest.spring_length[1] - 0.01);
}

TEST_F(VanMotion, FromALevelStanceTheMirrorImageRollsTheOtherWay) {
  const Vehicle image = sample::MirrorImage(vehicle);
  const Rig other = PrepareRig(image);
  const MotionRequest request{
      .kind = MotionKind::kRoll, .wheel = 0, .grid = {.from = -0.05, .to = 0.05, .step = 0.05}};
  const MotionSweep a = SweepMotion(rig, nullptr, request),
                    b = SweepMotion(other, nullptr, request);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(a.rows[2].axles[i].axle_steer, -b.rows[0].axles[i].axle_steer, kTol);
    EXPECT_NEAR(a.rows[2].axles[i].lateral_shift, -b.rows[0].axles[i].lateral_shift, kTol);
    EXPECT_NEAR(a.rows[2].axles[i].wheel[0].x(), b.rows[0].axles[i].wheel[1].x(), kTol);
  }
  EXPECT_TRUE(Holds(a.rows[2].axles[kFront].steer, -*b.rows[0].axles[kFront].steer, 1e-10));
}

TEST_F(VanMotion, EndsAreNamed) {
  const MotionSweep sweep = SweepMotion(
      rig, &stance,
      {.kind = MotionKind::kOneWheel, .wheel = 2, .grid = {.from = {}, .to = {}, .step = 0.01}});
  ASSERT_TRUE(sweep.high[kRear]);
  EXPECT_NE(sweep.high[kRear]->reason.find("left"), std::string::npos) << sweep.high[kRear]->reason;
  EXPECT_FALSE(sweep.high[kFront]);
  EXPECT_NEAR(sweep.rows.back().parameter, sweep.high[kRear]->travel, 1e-9);
}

TEST_F(VanMotion, GeometryOnlyHasTurnsAndNoLoads) {
  const MotionSweep sweep = SweepMotion(
      rig, nullptr,
      {.kind = MotionKind::kRoll, .wheel = 0, .grid = {.from = 0.0, .to = 0.04, .step = 0.04}});
  for (const LinkRow& link : sweep.rows.back().axles[kRear].links) {
    EXPECT_FALSE(link.force);
    EXPECT_GT(link.turn.frame.misalignment + link.turn.frame.swing, 1e-4);
  }
  const MotionSweep loaded = Sweep(MotionKind::kRoll, 0.04);
  for (const LinkRow& link : loaded.rows.back().axles[kRear].links) EXPECT_TRUE(link.force);
}

TEST_F(VanMotion, SteerTurnsTheLeftWheelByTheParameter) {
  const MotionSweep sweep = Sweep(MotionKind::kSteer, 0.3);
  ASSERT_EQ(sweep.rows.size(), 3u);
  const MotionAxleRow& front = sweep.rows[2].axles[kFront];
  EXPECT_TRUE(Holds(front.hand[0], 0.3, kTol));
  EXPECT_FALSE(sweep.rows[2].axles[kRear].hand[0]);
  // About a kingpin that passes inboard of the wheel, the left wheel's centre moves back when
  // steered left.
  EXPECT_LT(front.wheel[0].x(), sweep.rows[1].axles[kFront].wheel[0].x() - 0.01);
  EXPECT_GT(front.wheel[1].x(), sweep.rows[1].axles[kFront].wheel[1].x() + 0.01);
}

TEST_F(VanMotion, SteerWantsAnAxleThatSteers) {
  vehicle.axles[kFront].steering.reset();
  const Rig plain = PrepareRig(vehicle);
  EXPECT_THROW(
      (void)SweepMotion(plain, nullptr, {.kind = MotionKind::kSteer, .wheel = 0, .grid = {}}),
      ModelError);
}

}  // namespace
}  // namespace linkwright
