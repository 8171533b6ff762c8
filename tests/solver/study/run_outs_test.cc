// SPDX-License-Identifier: MIT
// The first zero of every margin, against closed forms and against a walk in small steps.
#include "solver/study/run_outs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/study/motions.h"
#include "solver/study/paths.h"
#include "tests/solver/study/stood.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kA = 0.6, kB = 0.8;  // [m] the trailing links, the cross link

// Where the housing of equal parallel links is at a height (closed form): it never turns.
Eigen::Vector3d Moved(double z) {
  const double k = 0.25 / (kA * kA) + 0.25 / (kB * kB);
  const double s = (1.0 - std::sqrt(1.0 - 4.0 * k * z * z)) / (2.0 * k);
  return {s / (2.0 * kA), -s / (2.0 * kB), z};
}

Vehicle ParallelTruck() {
  Vehicle vehicle{};
  vehicle.axles = {sample::EqualParallelLinks(kA, kB), sample::EqualParallelLinks(kA, kB)};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  return vehicle;
}

// A damper that passes its shortest length on the way and grows again, its upper end at `to` from
// the hub.
struct Passing {
  Eigen::Vector3d to;
  double nearest_at, nearest;  // travel [m], length there [m]
};

double LengthAt(const Passing& damper, double z) { return (Moved(z) - damper.to).norm(); }

// Its upper end at such a height that its nearest place lies half way between two steps.
Passing PassBetweenSteps() {
  for (double height = 0.10; height < 0.12; height += 1e-4) {
    Passing damper{{0.0, 0.25, height}, 0.0, 1.0};
    for (double z = 0.05; z < 0.15; z += 1e-6) {
      const double length = LengthAt(damper, z);
      if (length < damper.nearest) damper.nearest = length, damper.nearest_at = z;
    }
    const double steps = damper.nearest_at / kTravelStep;
    if (std::abs(steps - std::floor(steps) - 0.5) < 0.05) return damper;
  }
  ADD_FAILURE() << "no such place";
  return {};
}

Vehicle WithDamper(const Passing& damper, double shortest) {
  Vehicle vehicle = ParallelTruck();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.dampers.push_back({.name = {"damper"},
                           .span = {hub + damper.to, hub},
                           .shortest = shortest,
                           .longest = {},
                           .bump = {},
                           .rebound = {}});
  return vehicle;
}

std::vector<RunOut> Walked(const Rig& rig, double far, bool to_first = false) {
  return FindRunOuts(rig, 0, BouncePath(rig, {0.0, 0.0}),
                     {.far = far, .step = kTravelStep, .tires = true, .to_first = to_first});
}

const RunOut* Find(const std::vector<RunOut>& what, TravelEnd end) {
  for (const RunOut& each : what) {
    if (each.end == end) return &each;
  }
  return nullptr;
}

TEST(RunOuts, AMarginThatDipsAndRecoversWithinAStepIsFound) {
  const Passing damper = PassBetweenSteps();
  // Short of its end over less than 2 mm: at no step of the walk.
  const double shortest = damper.nearest + 1.5e-6;
  double first = damper.nearest_at - 0.0025;
  ASSERT_GT(LengthAt(damper, first), shortest);
  while (LengthAt(damper, first) > shortest) first += 1e-8;
  ASSERT_GT(LengthAt(damper, std::floor(first / kTravelStep) * kTravelStep), shortest);
  ASSERT_GT(LengthAt(damper, std::ceil(first / kTravelStep) * kTravelStep), shortest);
  const Vehicle vehicle = WithDamper(damper, shortest);
  const Rig rig = PrepareRig(vehicle);
  for (const bool to_first : {false, true}) {
    const std::vector<RunOut> what = Walked(rig, 0.3, to_first);
    const RunOut* closed = Find(what, TravelEnd::kDamperClosed);
    ASSERT_NE(closed, nullptr);
    ASSERT_TRUE(closed->at);
    // [m] kEndTolerance over a slope of some 3 mm/m, and the scan's own step
    EXPECT_NEAR(*closed->at, first, 2e-6);
  }
  // A little shorter still, and it never closes.
  const Vehicle passes = WithDamper(damper, damper.nearest - 1.5e-6);
  const Rig other = PrepareRig(passes);
  const std::vector<RunOut> open = Walked(other, 0.3);
  EXPECT_FALSE(Find(open, TravelEnd::kDamperClosed)->at);
}

TEST(RunOuts, ADipRightAfterTheStanceIsFound) {
  Passing damper = PassBetweenSteps();
  // The stance 1 mm before the nearest place: the margin grows over the whole first step.
  Vehicle vehicle = WithDamper(damper, damper.nearest + 1e-8);
  const Rig rig = PrepareRig(vehicle);
  const double start = damper.nearest_at - 0.001;
  const std::vector<RunOut> what =
      FindRunOuts(rig, 0, BouncePath(rig, {start, 0.0}), {.far = 0.1, .step = kTravelStep});
  const RunOut* closed = Find(what, TravelEnd::kDamperClosed);
  ASSERT_TRUE(closed != nullptr && closed->at);
  EXPECT_GT(*closed->at, 0.0);
  EXPECT_NEAR(*closed->at, 0.001, 3e-4);  // [m] it is short of its end for 0.14 mm either way
}

TEST(RunOuts, WhatRunsOutInTheLastStepBeforeTheLinksLineUpIsFound) {
  const Vehicle plain = ParallelTruck();
  const Rig bare = PrepareRig(plain);
  const std::vector<RunOut> all = Walked(bare, 0.6);
  const double links = *Find(all, TravelEnd::kLinksStraight)->at;
  const double last = std::floor(links / kTravelStep) * kTravelStep;
  const double between = 0.5 * (last + links);
  ASSERT_GT(between, last);
  const Passing strap{{0.0, 0.0, -0.5}, 0.0, 0.0};
  Vehicle vehicle = ParallelTruck();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.straps.push_back(
      {.name = {"strap"}, .span = {hub + strap.to, hub}, .length = LengthAt(strap, between)});
  const Rig rig = PrepareRig(vehicle);
  const std::vector<RunOut> what = Walked(rig, 0.6);
  const RunOut* taut = Find(what, TravelEnd::kStrapTaut);
  ASSERT_TRUE(taut != nullptr && taut->at);
  EXPECT_NEAR(*taut->at, between, 1e-8);
}

// How many things run out on a path, each checked to lie within the fine step that first sees it.
size_t CheckAgainstSmallSteps(const Rig& rig, size_t axle, const AxlePath& path, double far,
                              double step, double fine) {
  const std::vector<RunOut> what = FindRunOuts(rig, axle, path, {.far = far, .step = step});
  std::vector<std::optional<double>> first(what.size());
  HousingMotion here = StartWalk(rig, axle, path).here;
  for (int k = 0; std::abs(k * fine) <= std::abs(far); ++k) {
    const AxlePlace place = path.place(k * fine, axle);
    const PoseSolution moved = MovePose(rig.axles[axle].frame, here, place.z, place.roll);
    if (moved.status != SolveStatus::kConverged) break;
    here = EvaluateMotion(rig.axles[axle].frame, moved.pose);
    const std::vector<TravelMargin> margins = AllMargins(rig, axle, moved.pose, true);
    for (size_t i = 0; i < what.size(); ++i) {
      const auto left = LeftOf(margins, what[i]);
      if (!first[i] && left && *left < -kEndTolerance) first[i] = k * fine;
    }
  }
  size_t found = 0;
  for (size_t i = 0; i < what.size(); ++i) {
    if (what[i].end == TravelEnd::kLinksStraight) continue;
    EXPECT_EQ(first[i].has_value(), what[i].at.has_value()) << what[i].member;
    if (!first[i] || !what[i].at) continue;
    EXPECT_LE(std::abs(*what[i].at), std::abs(*first[i])) << what[i].member;
    EXPECT_GT(std::abs(*what[i].at), std::abs(*first[i]) - 1.001 * std::abs(fine))
        << what[i].member;
    ++found;
  }
  return found;
}

TEST(RunOuts, AreWhereAWalkInSmallStepsFindsThem) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    axle.opening->lip_y = 0.868, axle.opening->inner_panel_y = 0.5;
    for (Link& link : axle.links) link.misalignment_limit = 0.15;
  }
  const Stood stood(van);
  const std::array<double, 2> start = StartOf(stood.rig, &stood.stance);
  const AxlePath bounce = BouncePath(stood.rig, start);
  const AxlePath crossed =
      MotionPath(stood.rig, {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}}, start);
  size_t found = 0;
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const double way : {-1.0, 1.0}) {
      found += CheckAgainstSmallSteps(stood.rig, axle, bounce, way * 0.2, kTravelStep, way * 1e-4);
      found += CheckAgainstSmallSteps(stood.rig, axle, crossed, way * 0.35, kAngleStep, way * 2e-4);
    }
  }
  EXPECT_GT(found, 40U);
}

TEST(RunOuts, LinksAloneBeyondWhatIsRealEndNothing) {
  const Vehicle vehicle = ParallelTruck();  // links that line up at 480 mm, and nothing else
  const Rig rig = PrepareRig(vehicle);
  const std::vector<RunOut> what = Walked(rig, 0.6);
  ASSERT_TRUE(Find(what, TravelEnd::kLinksStraight));
  EXPECT_FALSE(FirstEnd(what, kRealTravel));
  EXPECT_TRUE(FirstEnd(what, 0.5));
  // Something of the file's beyond the same is an end.
  const Passing strap{{0.0, 0.0, -0.5}, 0.0, 0.0};
  Vehicle held = ParallelTruck();
  Axle& front = held.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.straps.push_back(
      {.name = {"strap"}, .span = {hub + strap.to, hub}, .length = LengthAt(strap, 0.35)});
  const Rig other = PrepareRig(held);
  const std::vector<RunOut> ends = Walked(other, 0.6);
  const auto first = FirstEnd(ends, kRealTravel);
  ASSERT_TRUE(first);
  EXPECT_NEAR(*ends[*first].at, 0.35, 1e-8);
}

TEST(RunOuts, TwoEndsOfOneCoilAreKeptApart) {
  // Upright coil of 300 mm, free at 320, solid at 250 by its length and at 260 by its curve.
  Vehicle vehicle = ParallelTruck();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  Spring spring{};
  spring.name = {"coil"};
  spring.span = {hub + Eigen::Vector3d(0, 0, 0.3), hub};
  spring.law.free_length = 0.320;
  spring.law.curve = {{0.0, 0.0}, {0.06, 3000.0}};
  spring.solid_length = 0.250;
  spring.keep_seated = true;
  front.springs.push_back(spring);
  const Rig rig = PrepareRig(vehicle);
  const std::vector<RunOut> up = Walked(rig, 0.1), down = Walked(rig, -0.1);
  const auto length = [](double z) { return (Moved(z) - Eigen::Vector3d(0, 0, 0.3)).norm(); };
  for (const auto& what : {up, down}) {
    EXPECT_EQ(
        std::count_if(what.begin(), what.end(), [](const RunOut& e) { return e.member == "coil"; }),
        2);
    EXPECT_NEAR(*Find(what, TravelEnd::kCoilBound)->at_rest, 0.040, 1e-12);
    EXPECT_NEAR(*Find(what, TravelEnd::kCoilUnseated)->at_rest, 0.020, 1e-12);
  }
  EXPECT_NEAR(length(*Find(up, TravelEnd::kCoilBound)->at), 0.260, 2e-9);
  EXPECT_FALSE(Find(up, TravelEnd::kCoilUnseated)->at);
  EXPECT_NEAR(length(*Find(down, TravelEnd::kCoilUnseated)->at), 0.320, 2e-9);
  EXPECT_FALSE(Find(down, TravelEnd::kCoilBound)->at);
}

}  // namespace
}  // namespace linkwright
