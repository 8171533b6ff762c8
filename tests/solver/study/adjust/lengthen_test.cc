// SPDX-License-Identifier: MIT
#include "solver/study/adjust/lengthen.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-10;  // [m, rad] ten times what a pose is solved to
constexpr double kMost = 0.15;  // [m] more than either answer

double Length(const Rig& rig, size_t axle, size_t link, const Pose& pose) {
  const FrameLink& part = rig.axles[axle].frame.links[link];
  return (Transform(pose) * part.p_AQ - part.p_CP).norm();
}

TEST(LinkSets, APairIsTurnedTogetherAndASingleAlone) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].links[0].thread = 0.002;
  const std::vector<LinkSet> sets = LinkSetsOf(van.axles[kRear]);
  ASSERT_EQ(sets.size(), 3U);
  EXPECT_EQ(sets[0].name, "lower arm");
  EXPECT_EQ(sets[0].members, (std::vector<size_t>{0, 1}));
  EXPECT_EQ(sets[0].thread, 0.002);
  EXPECT_EQ(sets[2].members, (std::vector<size_t>{4}));
}

TEST(Lengthened, LinksAreThatMuchLongerAndTheOthersNot) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const auto longer = Lengthened(rig, kRear, {0, 1}, 0.03);
  ASSERT_TRUE(longer);
  const Pose& pose = longer->axles[kRear].measured.pose;
  for (size_t i = 0; i < 4; ++i) {
    const double before = MeasuredLength(truck.axles[kRear].links[i].span);
    EXPECT_NEAR(Length(*longer, kRear, i, pose), before + (i < 2 ? 0.03 : 0.0), kTol);
  }
  EXPECT_EQ(pose.z, rig.axles[kRear].measured.pose.z);
}

TEST(Lengthened, ThereAndBackIsWhereItWas) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const auto longer = Lengthened(rig, kRear, {2, 3}, 0.04);
  const auto back = Lengthened(*longer, kRear, {2, 3}, -0.04);
  ASSERT_TRUE(back);
  EXPECT_TRUE(check::Near(check::SixOf(back->axles[kRear].measured.pose),
                          check::SixOf(rig.axles[kRear].measured.pose), kTol));
}

TEST(Lengthened, IsAbsentWhereTheLinksDoNotReach) {
  const Vehicle van = sample::HarbourVan();
  EXPECT_FALSE(Lengthened(PrepareRig(van), kRear, {4}, -2.0));
}

// The answer is put into a rig by hand and settled: what was to be 0 is.
TEST(SolveLength, CentresTheAxle) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Miss miss = [](const Rig&, const Standing& there) -> std::optional<double> {
    return there.level[kRear].pose.y - 0.005;
  };
  const auto answer = SolveLength(rig, &van.loads[0], kRear, {4}, miss, 1e-9, kMost);
  ASSERT_TRUE(answer);
  Rig changed = rig;
  changed.axles[kRear].frame.links[4].length += answer->by;
  const PoseSolution pose = SolvePose(changed.axles[kRear].frame, rig.axles[kRear].measured.pose);
  changed.axles[kRear].measured = EvaluateMotion(changed.axles[kRear].frame, pose.pose);
  const auto standing = Stand(changed, &van.loads[0]);
  ASSERT_TRUE(standing);
  EXPECT_NEAR(standing->level[kRear].pose.y, 0.005, 2e-9);
  // The bar lies within 5 deg of level and its frame end is on the left: shorter pulls to the left.
  EXPECT_LT(answer->by, 0.0);
}

// The same wish is met within a limit just above its answer and not below it.
TEST(SolveLength, KeepsToTheMost) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Miss miss = [](const Rig&, const Standing& there) -> std::optional<double> {
    return there.level[kRear].pose.y - 0.02;
  };
  const auto solve = [&](double most) {
    return SolveLength(rig, &van.loads[0], kRear, {4}, miss, 1e-9, most);
  };
  const auto answer = solve(kMost);
  ASSERT_TRUE(answer);
  EXPECT_TRUE(solve(std::abs(answer->by) + 1e-4));
  EXPECT_FALSE(solve(std::abs(answer->by) - 1e-4));
}

TEST(MostByHand, IsTheThreadsOrAShareOfTheLength) {
  Vehicle van = sample::HarbourVan();
  const Axle& axle = van.axles[kRear];
  LinkSet set = LinkSetsOf(axle)[0];
  EXPECT_NEAR(MostByHand(axle, set), 0.05 * MeasuredLength(axle.links[0].span), 1e-12);
  set.thread = 0.002;
  EXPECT_EQ(MostByHand(axle, set), 0.025);
}

TEST(SolveLength, IsAbsentWhereTheLinkHasNoSay) {
  const Vehicle truck = sample::LevelTruck();
  const Miss miss = [](const Rig&, const Standing& there) -> std::optional<double> {
    return there.level[kRear].pose.y - 0.05;  // both of a pair move nothing sideways
  };
  EXPECT_FALSE(SolveLength(PrepareRig(truck), &truck.loads[0], kRear, {0, 1}, miss, 1e-9, kMost));
}

}  // namespace
}  // namespace linkwright
