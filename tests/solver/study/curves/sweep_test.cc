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
  EXPECT_NEAR(*a.wheelbase, *b.wheelbase, kTol);
  EXPECT_NEAR(*a.wheelbase_change, *b.wheelbase_change, kTol);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(a.axles[i]->lateral_shift, b.axles[i]->lateral_shift, kTol);
    EXPECT_NEAR(a.axles[i]->axle_steer, b.axles[i]->axle_steer, kTol);
    EXPECT_NEAR(a.axles[i]->housing_pitch, b.axles[i]->housing_pitch, kTol);
    EXPECT_NEAR(*a.axles[i]->roll_center_height, *b.axles[i]->roll_center_height, 100 * kTol);
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
    for (const std::optional<AxleRow>& axle : rest->axles) {
      EXPECT_EQ(axle->wheelbase_change, 0.0);
      EXPECT_EQ(axle->lateral_shift, 0.0);
    }
    EXPECT_EQ(rest->axles[kFront]->steer, 0.0);
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
  // Each axle has a row at its exact end, and the other goes on.
  EXPECT_NEAR(sweep.rows.back().travel, 0.08, 1e-12);
  EXPECT_FALSE(sweep.rows.back().axles[kFront]);
  EXPECT_TRUE(sweep.rows.back().axles[kRear]);
  EXPECT_NEAR(sweep.rows.front().travel, -0.08, 1e-12);
  EXPECT_FALSE(sweep.rows.front().axles[kRear]);
  EXPECT_TRUE(RowAt(sweep, *sweep.bump[kFront]->at)->axles[kFront]);
  EXPECT_TRUE(RowAt(sweep, *sweep.droop[kRear]->at)->axles[kRear]);
  EXPECT_NEAR(*sweep.bump[kFront]->at, 0.045, 2e-4);  // a coil upright but for 0.1 mm of lean
}

TEST(SweepBounce, DefaultRangeRunsFromEndToEnd) {
  const Swept van(sample::HarbourVan());
  const Sweep sweep = van.Bounce({});
  double droop = 0.0, bump = 0.0;
  for (size_t i = 0; i < 2; ++i) {
    ASSERT_TRUE(sweep.droop[i]);
    ASSERT_TRUE(sweep.bump[i]);
    droop = std::min(droop, *sweep.droop[i]->at);
    bump = std::max(bump, *sweep.bump[i]->at);
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
  for (const SweepRow& row : sweep.rows) EXPECT_EQ(row.axles[kRear].has_value(), row.travel >= 0.0);
}

TEST(SweepBounce, NothingInARowIsANan) {
  const Swept van(sample::HarbourVan());
  for (const SweepRow& row : van.Bounce({}).rows) {
    for (const auto& value : {row.wheelbase, row.roll_axis_slope, row.roll_axis_height}) {
      EXPECT_TRUE(std::isfinite(value.value_or(0.0)));
      EXPECT_EQ(value.has_value(), row.axles[0] && row.axles[1]);
    }
    for (const std::optional<AxleRow>& axle : row.axles) {
      if (!axle) continue;
      for (const double value :
           {axle->lateral_shift, axle->axle_steer, axle->housing_pitch, *axle->roll_center_height,
            *axle->roll_steer, *axle->wheel_rate, *axle->spring_force, *axle->link_strain_force}) {
        EXPECT_TRUE(std::isfinite(value));
      }
    }
    EXPECT_EQ(row.driveshafts[0].has_value(), row.axles[kRear].has_value());
    if (row.driveshafts[0]) {
      EXPECT_TRUE(std::isfinite(row.driveshafts[0]->ripple));
    }
  }
}

// Where the links line up the row has a place and no slopes; the next axle goes on without it.
TEST(SweepBounce, AtAFoldSlopesAreEmpty) {
  Vehicle vehicle = sample::LevelTruck();
  vehicle.sprung.reset(), vehicle.ledger.reset(), vehicle.loads.clear();
  vehicle.axles = {sample::EqualParallelLinks(0.12, 0.8), sample::EqualParallelLinks(0.2, 0.8)};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  const Rig rig = PrepareRig(vehicle);
  const Sweep sweep = SweepBounce({rig, nullptr}, {});
  ASSERT_TRUE(sweep.bump[0] && sweep.bump[1]);
  const double fold = *sweep.bump[0]->at;
  EXPECT_NEAR(fold, 0.12 * 0.8 / std::hypot(0.12, 0.8), 1e-9);  // both links upright in one plane
  const auto at = std::find_if(sweep.rows.begin(), sweep.rows.end(),
                               [&](const SweepRow& row) { return row.travel == fold; });
  ASSERT_NE(at, sweep.rows.end());
  ASSERT_TRUE(at->axles[0] && at->axles[1]);
  EXPECT_TRUE(std::isfinite(at->axles[0]->wheelbase_change));
  EXPECT_FALSE(at->axles[0]->instant_center || at->axles[0]->roll_center_height ||
               at->axles[0]->roll_steer);
  EXPECT_TRUE(at->wheelbase && at->axles[1]->roll_steer);
  EXPECT_FALSE(at->roll_axis_slope);
  EXPECT_FALSE(sweep.rows.back().axles[0]);
  EXPECT_TRUE(sweep.rows.back().axles[1]);
  EXPECT_FALSE(sweep.rows.back().wheelbase);
}

}  // namespace
}  // namespace linkwright
