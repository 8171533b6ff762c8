// SPDX-License-Identifier: MIT
#include "solver/study/curves/motions.h"

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
    return SweepMotion({rig, &stance},
                       {.kind = kind, .wheel = wheel, .grid = {.from = -to, .to = to, .step = to}});
  }
  // Left and right wheel travels of a row from the row at 0.
  [[nodiscard]] static Eigen::Vector2d Moved(const MotionSweep& sweep, size_t row, size_t axle) {
    const auto& at = sweep.rows[row].axles[axle]->wheel;
    const auto& rest = sweep.rows[1].axles[axle]->wheel;
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
    EXPECT_NEAR(sweep.rows[2].axles[axle]->housing_roll, -phi, kTol);
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
  for (const auto& axle : sweep.rows[1].axles) {
    EXPECT_EQ(axle->lateral_shift, 0.0);
    EXPECT_EQ(axle->wheelbase_change, 0.0);
  }
  EXPECT_EQ(sweep.rows[1].axles[kFront]->steer, 0.0);
  // Wheels' places are absolute: their middle has shifted by what the column says.
  for (size_t i = 0; i < 2; ++i) {
    const auto middle = [&](size_t row) -> Eigen::Vector3d {
      const auto& wheel = sweep.rows[row].axles[i]->wheel;
      return 0.5 * (wheel[0] + wheel[1]);
    };
    EXPECT_NEAR(sweep.rows[2].axles[i]->lateral_shift, middle(2).y() - middle(1).y(), kTol);
    const double sign = i == 0 ? 1.0 : -1.0;
    EXPECT_NEAR(sweep.rows[2].axles[i]->wheelbase_change, sign * (middle(2).x() - middle(1).x()),
                kTol);
  }
}

TEST_F(VanMotion, SpringsAreBySide) {
  const MotionSweep sweep = Sweep(MotionKind::kRoll, 0.05);
  const MotionAxleRow& row = *sweep.rows[2].axles[kRear];  // left side up: the left coil grows
  const MotionAxleRow& rest = *sweep.rows[1].axles[kRear];
  EXPECT_GT(*row.spring_length[0], *rest.spring_length[0] + 0.01);
  EXPECT_LT(*row.spring_length[1], *rest.spring_length[1] - 0.01);
}

TEST_F(VanMotion, FromALevelStanceTheMirrorImageRollsTheOtherWay) {
  const Vehicle image = sample::MirrorImage(vehicle);
  const Rig other = PrepareRig(image);
  const MotionRequest request{
      .kind = MotionKind::kRoll, .wheel = 0, .grid = {.from = -0.05, .to = 0.05, .step = 0.05}};
  const MotionSweep a = SweepMotion({rig, nullptr}, request),
                    b = SweepMotion({other, nullptr}, request);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(a.rows[2].axles[i]->axle_steer, -b.rows[0].axles[i]->axle_steer, kTol);
    EXPECT_NEAR(a.rows[2].axles[i]->lateral_shift, -b.rows[0].axles[i]->lateral_shift, kTol);
    EXPECT_NEAR(a.rows[2].axles[i]->wheel[0].x(), b.rows[0].axles[i]->wheel[1].x(), kTol);
  }
  EXPECT_TRUE(Holds(a.rows[2].axles[kFront]->steer, -*b.rows[0].axles[kFront]->steer, 1e-10));
}

TEST_F(VanMotion, EndsAreNamed) {
  const MotionSweep sweep = SweepMotion(
      {rig, &stance},
      {.kind = MotionKind::kOneWheel, .wheel = 2, .grid = {.from = {}, .to = {}, .step = 0.01}});
  ASSERT_TRUE(sweep.high[kRear]);
  EXPECT_NE(Describe(sweep.high[kRear]->limit).find("left"), std::string::npos)
      << Describe(sweep.high[kRear]->limit);
  EXPECT_FALSE(sweep.high[kFront]);
  EXPECT_NEAR(sweep.rows.back().parameter, *sweep.high[kRear]->at, 1e-9);
}

TEST_F(VanMotion, GeometryOnlyHasTurnsAndNoLoads) {
  const MotionSweep sweep = SweepMotion(
      {rig, nullptr},
      {.kind = MotionKind::kRoll, .wheel = 0, .grid = {.from = 0.0, .to = 0.04, .step = 0.04}});
  for (const LinkRow& link : sweep.rows.back().axles[kRear]->links) {
    EXPECT_FALSE(link.force);
    EXPECT_GT(link.turn.frame.misalignment + link.turn.frame.swing, 1e-4);
  }
  const MotionSweep loaded = Sweep(MotionKind::kRoll, 0.04);
  for (const LinkRow& link : loaded.rows.back().axles[kRear]->links) EXPECT_TRUE(link.force);
}

TEST_F(VanMotion, SteerTurnsTheLeftWheelByTheParameter) {
  const MotionSweep sweep = Sweep(MotionKind::kSteer, 0.3);
  ASSERT_EQ(sweep.rows.size(), 3u);
  const MotionAxleRow& front = *sweep.rows[2].axles[kFront];
  EXPECT_TRUE(Holds(front.hand[0], 0.3, kTol));
  EXPECT_FALSE(sweep.rows[2].axles[kRear]->hand[0]);
  // About a kingpin that passes inboard of the wheel, the left wheel's centre moves back when
  // steered left.
  EXPECT_LT(front.wheel[0].x(), sweep.rows[1].axles[kFront]->wheel[0].x() - 0.01);
  EXPECT_GT(front.wheel[1].x(), sweep.rows[1].axles[kFront]->wheel[1].x() + 0.01);
}

TEST_F(VanMotion, SteerEndsWhereTheWheelInsideTheBendIsAtItsLock) {
  vehicle.axles[kFront].steering->lock = 0.6;
  vehicle.axles[kFront].steering->tie_rod = TieRod{{-0.14, 0.63, 0.33}, {-0.14, -0.63, 0.33}};
  const Rig locked = PrepareRig(vehicle);
  const MotionSweep sweep = SweepMotion(
      {locked, &stance},
      {.kind = MotionKind::kSteer, .wheel = 0, .grid = {.from = {}, .to = {}, .step = 0.1}});
  ASSERT_TRUE(sweep.high[kFront] && sweep.low[kFront]);
  EXPECT_EQ(Describe(sweep.high[kFront]->limit), "the steering is at its lock");
  EXPECT_EQ(Describe(sweep.low[kFront]->limit), "the steering is at its lock");
  constexpr double kLockTol = 2e-9;  // [rad] rows may overrun the lock by 1e-9
  EXPECT_TRUE(Holds(sweep.rows.back().axles[kFront]->hand[0], 0.6, kLockTol));
  EXPECT_TRUE(Holds(sweep.rows.front().axles[kFront]->hand[1], -0.6, kLockTol));
  EXPECT_GT(sweep.rows.front().parameter, -0.55);  // the left wheel outside the bend turns less
}

// Kingpins upright: everything turns in plan, and the ball's distance from the pitman end is a
// triangle's.
TEST_F(VanMotion, SteerMovesThePitmanEndByTheDragLinksTriangle) {
  Kingpin& kingpin = *vehicle.axles[kFront].kingpin;
  kingpin.caster = kingpin.inclination = 0.0;
  const Eigen::Vector3d K(kingpin.p_CK->x(), -kingpin.p_CK->y(), 0.0);
  const Span link = vehicle.axles[kFront].steering->drag_link;  // to the right knuckle
  ASSERT_LT(link.p_CQ.y(), 0.0);
  const Rig upright = PrepareRig(vehicle);
  const MotionSweep sweep = SweepMotion(
      {upright, nullptr},
      {.kind = MotionKind::kSteer, .wheel = 0, .grid = {.from = -0.4, .to = 1.0, .step = 0.4}});
  const double rise = link.p_CQ.z() - link.p_CP.z();
  const Eigen::Vector2d arm = (link.p_CQ - K).head<2>(), base = (link.p_CP - K).head<2>();
  for (const MotionRow& row : sweep.rows) {
    const double angle = std::atan2(base.y(), base.x()) - std::atan2(arm.y(), arm.x());
    const double flat = arm.squaredNorm() + base.squaredNorm() -
                        2.0 * arm.norm() * base.norm() * std::cos(angle - row.parameter);
    EXPECT_TRUE(Holds(row.axles[kFront]->pitman_travel,
                      std::sqrt(flat + rise * rise) - MeasuredLength(link), kTol));
    EXPECT_TRUE(Holds(row.axles[kFront]->steer, row.parameter, kTol));  // of that wheel, turned
  }
  // It ends where kingpin, ball and pitman end stand in a row.
  const double in_line = std::atan2(base.y(), base.x()) - std::atan2(arm.y(), arm.x());
  ASSERT_TRUE(sweep.high[kFront]);
  EXPECT_EQ(Describe(sweep.high[kFront]->limit),
            "the drag link stands in line with its knuckle arm and turns the wheel no further");
  EXPECT_NEAR(*sweep.high[kFront]->at, in_line, 1e-9);
  EXPECT_LT(sweep.rows.back().parameter, in_line);
}

// On a level floor the links of a housing that stands as measured push sideways what the floor's
// tilt makes of the wheels' load less the housing's weight.
TEST_F(VanMotion, RollTiltsTheFloorUnderTheWheels) {
  const MotionSweep sweep = Sweep(MotionKind::kRoll, 0.05);
  const MotionSweep crossed = Sweep(MotionKind::kCrossed, 0.05);
  // Front: the same pose in both, on a tilted and on a level floor.
  double tilted = 0.0, level = 0.0;
  const RigAxle& front = rig.axles[kFront];
  for (size_t i = 0; i < front.frame.links.size(); ++i) {
    const FrameLink& link = front.frame.links[i];
    const auto sideways = [&](const MotionSweep& of) {
      const MotionAxleRow& row = *of.rows[2].axles[kFront];
      const Pose pose = MovePose(front.frame, front.measured,
                                 0.5 * (row.wheel[0].z() + row.wheel[1].z()), row.housing_roll)
                            .pose;
      const Eigen::Vector3d d = link.p_CP - Transform(pose) * link.p_AQ;
      return *row.links[i].force * d.y() / d.norm();
    };
    tilted += sideways(sweep), level += sideways(crossed);
  }
  const double load =
      stance.wheel_load[0] + stance.wheel_load[1] - vehicle.axles[kFront].unsprung->mass * 9.80665;
  EXPECT_NEAR(level - tilted, load * std::sin(0.05), 0.02 * load * std::sin(0.05));
}

TEST_F(VanMotion, SteerWantsAnAxleThatSteers) {
  vehicle.axles[kFront].steering.reset();
  const Rig plain = PrepareRig(vehicle);
  EXPECT_THROW(
      (void)SweepMotion({plain, nullptr}, {.kind = MotionKind::kSteer, .wheel = 0, .grid = {}}),
      ModelError);
}

}  // namespace
}  // namespace linkwright
