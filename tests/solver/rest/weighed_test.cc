// SPDX-License-Identifier: MIT
#include "solver/rest/weighed.h"

#include <gtest/gtest.h>

#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kLengthTol = 1e-12;  // [m]

// The level truck on its scales: the free lengths are forgotten and asked for.
Vehicle WeighedTruck() {
  Vehicle truck = sample::LevelTruck();
  truck.sprung.reset();
  truck.ledger = Ledger{.weighed = {325.0, 325.0, 275.0, 275.0},
                        .cg_height = (750.0 + 72.0) / 1200.0,
                        .removed = {},
                        .added = {},
                        .pitch_inertia = std::nullopt};
  for (Axle& axle : truck.axles) {
    for (Spring& spring : axle.springs) spring.weighed = true, spring.law.free_length = 0.0;
  }
  return truck;
}

TEST(Weighed, FindsTheFreeLengthsThatWereForgotten) {
  Vehicle truck = WeighedTruck();
  ResolveWeighedLengths(truck);
  const Vehicle known = sample::LevelTruck();
  for (size_t i = 0; i < 2; ++i) {
    for (size_t k = 0; k < 2; ++k) {
      EXPECT_NEAR(truck.axles[i].springs[k].law.free_length,
                  known.axles[i].springs[k].law.free_length, kLengthTol);
    }
  }
}

// With inclined coils too: the weighed vehicle settles where it was measured.
TEST(Weighed, WeighedVehicleSettlesWhereItWasMeasured) {
  Vehicle truck = WeighedTruck();
  for (Axle& axle : truck.axles) {
    for (Spring& spring : axle.springs) {
      spring.span.p_CP +=
          Eigen::Vector3d(0.03, spring.name.side == Side::kLeft ? -0.05 : 0.05, 0.0);
    }
  }
  ResolveWeighedLengths(truck);
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, {"empty", {}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(stance.motion[i].pose.z, rig.axles[i].frame.measured.z, 1e-9);
    EXPECT_NEAR(stance.motion[i].pose.roll, 0.0, 1e-9);
  }
  EXPECT_NEAR(stance.heave, 0.0, 1e-9);
}

TEST(Weighed, AxleByAxleAPairSharesOneLength) {
  Vehicle truck = WeighedTruck();
  truck.ledger->weighed = {345.0, 305.0, 275.0, 275.0};
  truck.ledger->by_axle = true;
  ResolveWeighedLengths(truck);
  EXPECT_EQ(truck.axles[0].springs[0].law.free_length, truck.axles[0].springs[1].law.free_length);
}

// The untouched donor stands where the tape found it, each corner by itself: coils and tyres made
// from four scales that differ, one hub lower than the other, a stop that touches.
TEST(Weighed, WithFourScalesEveryCornerSettlesWhereItWasMeasured) {
  Vehicle truck = WeighedTruck();
  truck.ledger->weighed = {352.0, 305.0, 269.0, 281.0};
  truck.axles[0].p_CW_r.z() -= 0.004;
  for (Axle& axle : truck.axles) {
    axle.tire.rate = 210e3;
    axle.tire.radius.reset();
    axle.unsprung->p_CM.y() = 0.02;
  }
  Stop stop{};
  stop.name = {"cone", Side::kLeft};
  stop.span = truck.axles[1].springs[0].span;
  stop.law.rate = 40e3;
  stop.law.free_length = MeasuredLength(stop.span) + 0.003;
  truck.axles[1].bump_stops.push_back(stop);
  ResolveWeighedLengths(truck);
  ResolveTires(truck);
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, {"empty", {}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(stance.motion[i].pose.z, rig.axles[i].frame.measured.z, 1e-8);
    EXPECT_NEAR(stance.motion[i].pose.roll, rig.axles[i].frame.measured.roll, 1e-8);
    for (size_t side = 0; side < 2; ++side) {
      EXPECT_NEAR(stance.wheel_load[2 * i + side],
                  truck.ledger->weighed[2 * i + side] * kStandardGravity, 1e-2);
    }
  }
  EXPECT_NEAR(stance.heave, 0.0, 1e-8);
  EXPECT_GT(std::abs(truck.axles[0].springs[0].law.free_length -
                     truck.axles[0].springs[1].law.free_length),
            1e-3);
}

TEST(Weighed, LeavesGivenLengthsAlone) {
  Vehicle truck = sample::LevelTruck();
  const double given = truck.axles[0].springs[0].law.free_length;
  ResolveWeighedLengths(truck);
  EXPECT_EQ(truck.axles[0].springs[0].law.free_length, given);
}

TEST(Weighed, WantsALedger) {
  Vehicle truck = WeighedTruck();
  truck.ledger.reset();
  try {
    ResolveWeighedLengths(truck);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "front", "springs"}));
    EXPECT_STREQ(error.what(),
                 "free_length: weighed needs the ledger's weights and the unsprung mass");
  }
}

}  // namespace
}  // namespace linkwright
