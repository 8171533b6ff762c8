// SPDX-License-Identifier: MIT
#include "solver/study/findings/file_findings.h"

#include <gtest/gtest.h>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

std::vector<FindingKind> KindsIn(const Vehicle& vehicle) {
  std::vector<FindingKind> kinds;
  for (const Finding& oddity : FindOddities(vehicle, CheckVehicle(vehicle)))
    kinds.push_back(oddity.kind);
  return kinds;
}

using Kinds = std::vector<FindingKind>;

TEST(FindOddities, AVanMeasuredWellHasNone) { EXPECT_EQ(KindsIn(sample::HarbourVan()), Kinds{}); }

TEST(FindOddities, ALostMinusAcrossLeavesAShortBar) {
  Vehicle van = sample::HarbourVan();
  Link& bar = van.axles[kFront].links.back();
  bar.span.p_CQ = bar.span.p_CP + Eigen::Vector3d(0.02, 0.03, -0.05);
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kShortLink});
}

TEST(FindOddities, ALostMinusAlongMakesAnArmAsLongAsTheTruck) {
  Vehicle van = sample::HarbourVan();
  double& x = van.axles[kRear].links[0].span.p_CP.x();
  x = -x;
  const Kinds kinds = KindsIn(van);
  ASSERT_FALSE(kinds.empty());
  EXPECT_EQ(kinds.front(), FindingKind::kLongLink);
}

TEST(FindOddities, SwappedEndsOfAnArmAreNoticed) {
  Vehicle van = sample::HarbourVan();
  std::swap(van.axles[kRear].links[0].span.p_CP, van.axles[kRear].links[0].span.p_CQ);
  const std::vector<Finding> oddities = FindOddities(van, CheckVehicle(van));
  ASSERT_EQ(oddities.size(), 1u);
  EXPECT_EQ(oddities[0].kind, FindingKind::kEndsSwapped);
  EXPECT_EQ(oddities[0].member, "lower arm left");
}

TEST(FindOddities, APointUnderTheFloorIsNoticed) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].links[1].span.p_CP.z() = van.floor_z - 0.038;
  const std::vector<Finding> oddities = FindOddities(van, CheckVehicle(van));
  ASSERT_EQ(oddities.size(), 1u);
  EXPECT_EQ(oddities[0].kind, FindingKind::kBelowFloor);
  EXPECT_NEAR(oddities[0].value, -0.038, 1e-15);
}

// Both sides of the quarter.
TEST(FindOddities, ATrackForHalfATrackIsNoticed) {
  for (const double factor : {1.24, 1.26}) {
    Vehicle van = sample::HarbourVan();
    van.axles[kFront].p_CW_l.y() *= factor;
    van.axles[kFront].p_CW_r.y() *= factor;
    EXPECT_EQ(KindsIn(van), factor > 1.25 ? Kinds{FindingKind::kTracksDiffer} : Kinds{}) << factor;
  }
}

TEST(FindOddities, ACoilLongerThanItsFreeLengthIsLoose) {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].springs[0].law.free_length =
      MeasuredLength(van.axles[kFront].springs[0].span) - 1e-3;
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kLooseCoil});
}

TEST(FindOddities, UnsprungHeavierThanTheScalesIsNoticed) {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].unsprung->mass = 885.0;  // 446 + 439 on the scales
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kHeavyUnsprung});
}

}  // namespace
}  // namespace linkwright
