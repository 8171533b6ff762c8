// SPDX-License-Identifier: MIT
#include "solver/study/file/check.h"

#include <gtest/gtest.h>

#include "solver/model/masses.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;

TEST(CheckVehicle, CoilsCarryWhatTheyCarry) {
  const CheckReport report = CheckVehicle(sample::LevelTruck());
  ASSERT_TRUE(report.axles[0].weight && report.axles[1].weight);
  EXPECT_NEAR(report.axles[0].weight->by_coils, 650.0, 1e-8);
  EXPECT_NEAR(report.axles[1].weight->by_coils, 550.0, 1e-8);
  EXPECT_FALSE(report.axles[0].weight->by_scales);
  EXPECT_TRUE(Holds(report.axles[0].weight->tire_height, 0.34, 1e-12));
  EXPECT_NEAR(report.axles[0].weight->measured_height, 0.34, 1e-15);
}

TEST(CheckVehicle, ScalesAreTheLedgers) {
  const CheckReport report = CheckVehicle(sample::HarbourVan());
  EXPECT_TRUE(Holds(report.axles[0].weight->by_scales, 885.0, 1e-9));
  EXPECT_TRUE(Holds(report.axles[1].weight->by_scales, 697.0, 1e-9));
}

TEST(CheckVehicle, EveryCoilIsListedAsMeasured) {
  const CheckReport report = CheckVehicle(sample::HarbourVan());
  ASSERT_EQ(report.coils.size(), 4u);
  const double length = Eigen::Vector3d(0.005, 0.0, 0.300).norm();
  EXPECT_EQ(report.coils[0].member, "coil left");
  EXPECT_NEAR(report.coils[0].length, length, 1e-15);
  EXPECT_TRUE(Holds(report.coils[0].force, 26e3 * (0.444 - length), 1e-8));
  EXPECT_EQ(report.coils[0].rate, 26e3);
  EXPECT_TRUE(Holds(report.coils[0].to_solid, length - 0.165, 1e-15));
}

TEST(CheckVehicle, ACoilIsBoundAtItsSolidLengthOrTheEndOfItsCurveWhicheverComesFirst) {
  Vehicle van = sample::HarbourVan();
  Spring& coil = van.axles[kFront].springs[0];
  const double length = MeasuredLength(coil.span);
  coil.law.curve = {{0.0, 0.0}, {0.216, 5616.0}};
  for (const auto& solid : {std::optional<double>(), std::optional(0.165), std::optional(0.250)}) {
    coil.solid_length = solid;
    const double bound = solid == 0.250 ? 0.250 : 0.444 - 0.216;
    EXPECT_TRUE(Holds(CheckVehicle(van).coils[0].to_solid, length - bound, 1e-15));
  }
}

// Both sides of a sixteenth of an inch.
TEST(CheckVehicle, MismatchIsMoreThanASixteenth) {
  for (const double off : {0.0015, 0.0017}) {
    Vehicle van = sample::HarbourVan();
    van.axles[kRear].links[3].span.p_CQ.z() += off;  // upper arm right
    const CheckReport report = CheckVehicle(van);
    if (off < 0.0254 / 16.0) {
      EXPECT_TRUE(report.mismatches.empty());
    } else {
      ASSERT_EQ(report.mismatches.size(), 1u);
      EXPECT_EQ(report.mismatches[0].axle, static_cast<size_t>(kRear));
      EXPECT_EQ(report.mismatches[0].what, "upper arm left and right, axle end");
      EXPECT_NEAR(report.mismatches[0].distance, off, 1e-15);
    }
  }
}

TEST(CheckVehicle, WheelCentresCountToo) {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].p_CW_r.x() += 0.004;
  const CheckReport report = CheckVehicle(van);
  ASSERT_EQ(report.mismatches.size(), 1u);
  EXPECT_EQ(report.mismatches[0].what, "wheel centres");
}

TEST(CheckVehicle, ReportsOnLinksThatLeaveAnAxleFree) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].links.pop_back();  // the track bar
  const CheckReport report = CheckVehicle(van);
  EXPECT_EQ(report.axles[kRear].freedom.rank, 4);  // arms of this van splay, and hold it, if weakly
  van.axles[kRear].links.clear();
  const CheckReport bare = CheckVehicle(van);
  EXPECT_EQ(bare.axles[kRear].freedom.free.size(), 4u);
  EXPECT_FALSE(bare.axles[kRear].weight);
}

TEST(CheckVehicle, GeometryOnlyHasNoWeights) {
  Vehicle van = sample::HarbourVan();
  van.ledger.reset();
  EXPECT_FALSE(CheckVehicle(van).axles[kFront].weight);
}

}  // namespace
}  // namespace linkwright
