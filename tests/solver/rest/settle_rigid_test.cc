// SPDX-License-Identifier: MIT
// Rest on tyres without a rate: the floor's forces are what they must be, and never pull.
#include <gtest/gtest.h>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/statics.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kForceTol = 1e-5;  // [N, N m] a last step of 1e-12 m on 5 MN/m of link, twice
constexpr double kRestTol = 1e-9;   // [m, rad]

Vehicle Rigid(bool front, bool rear) {
  Vehicle truck = sample::LevelTruck();
  if (front) truck.axles[kFront].tire.rate.reset();
  if (rear) truck.axles[kRear].tire.rate.reset();
  return truck;
}

void ExpectBalanced(const Rig& rig, const Stance& stance) {
  const check::Imbalance left = check::OfWholeVehicle(rig, stance);
  EXPECT_NEAR(left.force, 0.0, kForceTol);
  EXPECT_NEAR(left.moment_x, 0.0, kForceTol);
  EXPECT_NEAR(left.moment_y, 0.0, kForceTol);
  for (size_t i = 0; i < 2; ++i) EXPECT_LE(check::LeftOnHousing(rig, stance, i), kForceTol);
}

const Load kSkew{"skew", {{"item", 180.0, {-0.5, 0.4, 0.9}}}};

TEST(SettleRigid, StandsAsMeasuredWithItsShares) {
  const Vehicle truck = Rigid(true, true);
  const Stance stance = Settle(PrepareRig(truck), {"empty", {}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  EXPECT_NEAR(stance.heave, 0.0, kRestTol);
  EXPECT_NEAR(stance.wheel_load[0], 0.5 * 650.0 * kStandardGravity, kForceTol);
  EXPECT_NEAR(stance.wheel_load[3], 0.5 * 550.0 * kStandardGravity, kForceTol);
}

TEST(SettleRigid, WheelsKeepTheirMeasuredHeight) {
  for (const auto& [front, rear] : {std::pair{true, true}, {true, false}, {false, true}}) {
    const Vehicle truck = Rigid(front, rear);
    const Rig rig = PrepareRig(truck);
    const Stance stance = Settle(rig, kSkew);
    ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    ExpectBalanced(rig, stance);
    for (size_t wheel = 0; wheel < 4; ++wheel) {
      if (wheel < 2 ? front : rear) {
        EXPECT_NEAR(stance.wheel_height[wheel], 0.34, kRestTol);
      } else {
        EXPECT_GT(std::abs(stance.wheel_height[wheel] - 0.34), 1e-5);
      }
      EXPECT_GT(stance.wheel_load[wheel], 0.0);
    }
  }
}

// The limit of ever stiffer tyres: their squeeze goes as one over the rate.
TEST(SettleRigid, IsTheLimitOfStiffTires) {
  const Vehicle rigid = Rigid(true, true);
  const Stance limit = Settle(PrepareRig(rigid), kSkew);
  double before = 0.0;
  for (const double rate : {1e7, 1e8, 1e9}) {
    Vehicle stiff = rigid;
    for (Axle& axle : stiff.axles) axle.tire = {.radius = 0.34, .width = {}, .rate = rate};
    const Stance stance = Settle(PrepareRig(stiff), kSkew);
    ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    const double off = (stance.up_C - limit.up_C).norm() + std::abs(stance.heave - limit.heave);
    if (before > 0.0) {
      EXPECT_NEAR(off / before, 0.1, 0.02);  // [-]
    }
    before = off;
  }
}

// A load outboard of the left wheels on stiff anti-roll bars lifts the right front wheel: it
// carries nothing, hangs above its height, and the rest still balances.
TEST(SettleRigid, LiftedWheelCarriesNothing) {
  Vehicle truck = Rigid(true, true);
  truck.axles[kFront].bar_roll_rate = 400e3;
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, {"outrigger", {{"item", 500.0, {-0.9, 1.8, 0.6}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  EXPECT_EQ(stance.wheel_load[1], 0.0);
  EXPECT_GT(stance.wheel_height[1], 0.34 + 1e-4);
  for (size_t wheel : {0u, 2u, 3u}) {
    EXPECT_GT(stance.wheel_load[wheel], 0.0);
    EXPECT_NEAR(stance.wheel_height[wheel], 0.34, kRestTol);
  }
  ExpectBalanced(rig, stance);
}

TEST(SettleRigid, SprungTireLiftsToo) {
  Vehicle truck = Rigid(false, false);
  truck.axles[kFront].bar_roll_rate = 400e3;
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, {"outrigger", {{"item", 500.0, {-0.9, 1.8, 0.6}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  EXPECT_EQ(stance.wheel_load[1], 0.0);
  EXPECT_GT(stance.wheel_height[1], *truck.axles[kFront].tire.radius);
  ExpectBalanced(rig, stance);
}

}  // namespace
}  // namespace linkwright
