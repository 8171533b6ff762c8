// SPDX-License-Identifier: MIT
#include "solver/study/curves/sweep.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "solver/rest/settle.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

struct Swept {
  Vehicle vehicle;
  Rig rig;
  Stance stance;
  explicit Swept(const Vehicle& of)
      : vehicle(of), rig(PrepareRig(vehicle)), stance(Settle(rig, vehicle.loads.front())) {}
  Swept(const Swept&) = delete;
  Swept& operator=(const Swept&) = delete;
  [[nodiscard]] Sweep Bounce(const SweepOptions& options) const {
    EXPECT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    return SweepBounce({rig, &stance}, options);
  }
};

SweepOptions Range(double from, double to, double step) {
  return {.from = from, .to = to, .step = step};
}

const SweepRow* RowAt(const Sweep& sweep, double travel) {
  const auto at = std::find_if(sweep.rows.begin(), sweep.rows.end(), [&](const SweepRow& row) {
    return std::abs(row.travel - travel) < 1e-12;
  });
  return at == sweep.rows.end() ? nullptr : &*at;
}

void ExpectSameRow(const SweepRow& a, const SweepRow& b) {
  constexpr double kTol = 1e-11;  // [m, rad, -] poses to 1e-12 by another way
  EXPECT_NEAR(a.wheelbase, b.wheelbase, kTol);
  EXPECT_NEAR(a.wheelbase_change, b.wheelbase_change, kTol);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(a.axles[i].lateral_shift, b.axles[i].lateral_shift, kTol);
    EXPECT_NEAR(a.axles[i].axle_steer, b.axles[i].axle_steer, kTol);
    EXPECT_NEAR(a.axles[i].housing_pitch, b.axles[i].housing_pitch, kTol);
    EXPECT_NEAR(a.axles[i].roll_center_height, b.axles[i].roll_center_height, 100 * kTol);
  }
}

TEST(SweepBounce, RowsAscendAndOneIsTheStance) {
  const Swept van(sample::HarbourVan());
  for (const SweepOptions& options :
       {Range(-0.03, 0.03, 0.01), Range(0.01, 0.03, 0.01), SweepOptions{}}) {
    const Sweep sweep = van.Bounce(options);
    EXPECT_TRUE(
        std::is_sorted(sweep.rows.begin(), sweep.rows.end(),
                       [](const SweepRow& a, const SweepRow& b) { return a.travel < b.travel; }));
    const SweepRow* rest = RowAt(sweep, 0.0);
    ASSERT_NE(rest, nullptr);
    EXPECT_EQ(rest->travel, 0.0);
    EXPECT_EQ(rest->wheelbase_change, 0.0);
    for (const AxleRow& axle : rest->axles) {
      EXPECT_EQ(axle.wheelbase_change, 0.0);
      EXPECT_EQ(axle.lateral_shift, 0.0);
    }
    EXPECT_EQ(rest->axles[kFront].steer, 0.0);
  }
}

TEST(SweepBounce, RowsDoNotDependOnTheGridTheyStandIn) {
  const Swept van(sample::HarbourVan());
  const Sweep fine = van.Bounce(Range(-0.04, 0.04, 0.002)),
              coarse = van.Bounce(Range(-0.04, 0.04, 0.04));
  for (const double travel : {-0.04, 0.0, 0.04}) {
    ASSERT_NE(RowAt(fine, travel), nullptr);
    ASSERT_NE(RowAt(coarse, travel), nullptr);
    ExpectSameRow(*RowAt(fine, travel), *RowAt(coarse, travel));
  }
}

TEST(SweepBounce, EndsAtAMemberAndNamesIt) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kFront].springs[0].solid_length = 0.255;  // [m] 45 mm above rest
  Damper damper{};
  damper.name = {"damper", Side::kRight};
  damper.span = {{-2.6, -0.5, 0.80}, {-2.6, -0.5, 0.30}};
  damper.longest = 0.56;
  truck.axles[kRear].dampers.push_back(damper);
  const Swept swept(truck);
  const Sweep sweep = swept.Bounce(Range(-0.08, 0.08, 0.01));
  ASSERT_TRUE(sweep.bump[kFront]);
  EXPECT_EQ(Describe(sweep.bump[kFront]->limit), "coil left is coil-bound");
  EXPECT_FALSE(sweep.bump[kRear]);
  ASSERT_TRUE(sweep.droop[kRear]);
  EXPECT_EQ(Describe(sweep.droop[kRear]->limit), "damper right is fully open");
  EXPECT_FALSE(sweep.droop[kFront]);
  // Rows end at the last multiple of the step within both.
  EXPECT_NEAR(sweep.rows.back().travel, 0.04, 1e-12);
  EXPECT_NEAR(sweep.rows.front().travel, -0.05, 1e-12);
  EXPECT_NEAR(*sweep.bump[kFront]->at, 0.045, 2e-4);  // a coil upright but for 0.1 mm of lean
}

TEST(SweepBounce, DefaultRangeRunsFromEndToEnd) {
  const Swept van(sample::HarbourVan());
  const Sweep sweep = van.Bounce({});
  double droop = -1.0, bump = 1.0;
  for (size_t i = 0; i < 2; ++i) {
    ASSERT_TRUE(sweep.droop[i]);
    ASSERT_TRUE(sweep.bump[i]);
    droop = std::max(droop, *sweep.droop[i]->at);
    bump = std::min(bump, *sweep.bump[i]->at);
  }
  EXPECT_NEAR(sweep.rows.front().travel, droop, 1e-9);
  EXPECT_NEAR(sweep.rows.back().travel, bump, 1e-9);
  EXPECT_GT(sweep.rows.size(), 10u);
}

TEST(SweepBounce, WithoutEndsItRunsAHundredMillimetresEitherWay) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) axle = sample::BareAxle(axle.name, axle.p_CW_l.x(), 0.75, 0.34);
  for (size_t i = 0; i < 2; ++i) {
    Axle& axle = truck.axles[i];
    const double x = axle.p_CW_l.x();
    sample::AddPair(axle.links, "lower arm", {x + 2.0, 0.45, 0.30}, {x, 0.45, 0.30});
    sample::AddSingle(axle.links, "upper arm", {x + 2.0, 0.0, 0.55}, {x, 0.0, 0.55});
    sample::AddSingle(axle.links, "track bar", {x, 0.9, 0.40}, {x, -0.9, 0.40});
  }
  truck.sprung.reset();
  const Rig rig = PrepareRig(truck);
  const Sweep sweep = SweepBounce({rig, nullptr}, {});
  EXPECT_FALSE(sweep.stance);
  EXPECT_NEAR(sweep.rows.front().travel, -0.1, 1e-12);
  EXPECT_NEAR(sweep.rows.back().travel, 0.1, 1e-12);
}

// A member past its end where the sweep starts: the row at 0 is still there, and the end is named.
TEST(SweepBounce, StartPastAnEndStillHasItsRowAtZero) {
  Vehicle van = sample::HarbourVan();
  van.ledger.reset();
  for (Damper& damper : van.axles[kRear].dampers) damper.longest = 0.40;  // measured at 0.417 m
  const Rig rig = PrepareRig(van);
  const Sweep sweep = SweepBounce({rig, nullptr}, Range(-0.02, 0.02, 0.01));
  ASSERT_NE(RowAt(sweep, 0.0), nullptr);
  ASSERT_TRUE(sweep.droop[kRear]);
  EXPECT_NE(Describe(sweep.droop[kRear]->limit).find("is fully open"), std::string::npos);
  EXPECT_GE(sweep.rows.front().travel, 0.0);
}

TEST(SweepBounce, NothingInARowIsANan) {
  const Swept van(sample::HarbourVan());
  for (const SweepRow& row : van.Bounce({}).rows) {
    EXPECT_TRUE(std::isfinite(row.wheelbase));
    EXPECT_TRUE(std::isfinite(row.roll_axis_slope));
    for (const AxleRow& axle : row.axles) {
      for (const double value :
           {axle.lateral_shift, axle.axle_steer, axle.housing_pitch, axle.roll_center_height,
            axle.roll_steer, *axle.wheel_rate, *axle.spring_force, *axle.link_strain_force}) {
        EXPECT_TRUE(std::isfinite(value));
      }
    }
    EXPECT_TRUE(std::isfinite(row.driveshafts[0].ripple));
  }
}

}  // namespace
}  // namespace linkwright
