// SPDX-License-Identifier: MIT
#include "solver/study/openings/swept_motion.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

// Arms of 120 mm, straight up or down at the end of travel: the tyre is looked at there too.
Vehicle ShortArms() {
  Vehicle vehicle{};
  vehicle.axles = {sample::EqualParallelLinks(0.12, 0.8), sample::EqualParallelLinks(0.12, 0.8)};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  return vehicle;
}

TEST(SweepTireMotion, LooksAtTheTyreWhereLinksLineUp) {
  const Vehicle vehicle = ShortArms();
  const Rig rig = PrepareRig(vehicle);
  const Walks walks(rig, nullptr);
  for (const TireMotion motion :
       {TireMotion::kBounce, TireMotion::kRoll, TireMotion::kCrossed, TireMotion::kOneWheel}) {
    const SweptMotion swept = SweepTireMotion(walks, motion, 0);
    for (const auto& end : swept.range.ended_by) {
      ASSERT_TRUE(end);
      EXPECT_EQ(end->limit.id.kind, LimitKind::kLinksStraight);
    }
    EXPECT_NEAR(swept.samples.front().parameter, swept.range.low, 1e-9);
    EXPECT_NEAR(swept.samples.back().parameter, swept.range.high, 1e-9);
  }
}

}  // namespace
}  // namespace linkwright
