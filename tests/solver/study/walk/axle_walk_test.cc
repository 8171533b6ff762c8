// SPDX-License-Identifier: MIT
// The first zero of every margin, against closed forms and against a walk in small steps.
#include "solver/study/walk/axle_walk.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/solver/study/stood.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kStep = 0.005;       // [m] of a walk
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
    const double steps = damper.nearest_at / kStep;
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

AxlePath Bounce(const Rig& rig, double start = 0.0) {
  return PathOf(rig, {start, 0.0}, MotionKind::kBounce);
}

std::vector<LimitHit> Walked(const Rig& rig, double far, bool to_first = false) {
  return WalkAxle(rig, 0, Bounce(rig), {.far = far, .step = kStep, .to_first = to_first}).hits;
}

const LimitHit* Find(const std::vector<LimitHit>& hits, LimitKind kind) {
  for (const LimitHit& each : hits) {
    if (each.limit.id.kind == kind) return &each;
  }
  return nullptr;
}

TEST(AxleWalk, AMarginThatDipsAndRecoversWithinAStepIsFound) {
  const Passing damper = PassBetweenSteps();
  // Short of its end over less than 2 mm: at no step of the walk.
  const double shortest = damper.nearest + 1.5e-6;
  double first = damper.nearest_at - 0.0025;
  ASSERT_GT(LengthAt(damper, first), shortest);
  while (LengthAt(damper, first) > shortest) first += 1e-8;
  ASSERT_GT(LengthAt(damper, std::floor(first / kStep) * kStep), shortest);
  ASSERT_GT(LengthAt(damper, std::ceil(first / kStep) * kStep), shortest);
  const Vehicle vehicle = WithDamper(damper, shortest);
  const Rig rig = PrepareRig(vehicle);
  for (const bool to_first : {false, true}) {
    const std::vector<LimitHit> what = Walked(rig, 0.3, to_first);
    const LimitHit* closed = Find(what, LimitKind::kDamperClosed);
    ASSERT_NE(closed, nullptr);
    ASSERT_TRUE(closed->at);
    // [m] kEndTolerance over a slope of some 3 mm/m, and the scan's own step
    EXPECT_NEAR(*closed->at, first, 2e-6);
  }
  // A little shorter still, and it never closes.
  const Vehicle passes = WithDamper(damper, damper.nearest - 1.5e-6);
  const Rig other = PrepareRig(passes);
  const std::vector<LimitHit> open = Walked(other, 0.3);
  EXPECT_FALSE(Find(open, LimitKind::kDamperClosed)->at);
}

TEST(AxleWalk, ADipRightAfterTheStanceIsFound) {
  Passing damper = PassBetweenSteps();
  // The stance 1 mm before the nearest place: the margin grows over the whole first step.
  Vehicle vehicle = WithDamper(damper, damper.nearest + 1e-8);
  const Rig rig = PrepareRig(vehicle);
  const double start = damper.nearest_at - 0.001;
  const std::vector<LimitHit> what =
      WalkAxle(rig, 0, Bounce(rig, start), {.far = 0.1, .step = kStep}).hits;
  const LimitHit* closed = Find(what, LimitKind::kDamperClosed);
  ASSERT_TRUE(closed != nullptr && closed->at);
  EXPECT_GT(*closed->at, 0.0);
  EXPECT_NEAR(*closed->at, 0.001, 3e-4);  // [m] it is short of its end for 0.14 mm either way
}

TEST(AxleWalk, WhatRunsOutInTheLastStepBeforeTheLinksLineUpIsFound) {
  const Vehicle plain = ParallelTruck();
  const Rig bare = PrepareRig(plain);
  const std::vector<LimitHit> all = Walked(bare, 0.6);
  const double links = *Find(all, LimitKind::kLinksStraight)->at;
  const double last = std::floor(links / kStep) * kStep;
  const double between = 0.5 * (last + links);
  ASSERT_GT(between, last);
  const Passing strap{{0.0, 0.0, -0.5}, 0.0, 0.0};
  Vehicle vehicle = ParallelTruck();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.straps.push_back(
      {.name = {"strap"}, .span = {hub + strap.to, hub}, .length = LengthAt(strap, between)});
  const Rig rig = PrepareRig(vehicle);
  const std::vector<LimitHit> what = Walked(rig, 0.6);
  const LimitHit* taut = Find(what, LimitKind::kStrapTaut);
  ASSERT_TRUE(taut != nullptr && taut->at);
  EXPECT_NEAR(*taut->at, between, 1e-8);
}

// How many things run out on a path, each checked to lie within the fine step that first sees it.
size_t CheckAgainstSmallSteps(const Rig& rig, size_t axle, const AxlePath& path, double far,
                              double step, double fine) {
  const AxleWalk walk = WalkAxle(rig, axle, path, {.far = far, .step = step});
  const AxleFrame& frame = rig.axles[axle].frame;
  const AxleLimits limits = PrepareLimits(*rig.vehicle, axle, frame, Watch::kAll);
  std::vector<std::optional<double>> first(limits.list.size());
  HousingMotion here = StartMotion(rig, axle, path);
  for (int k = 0; std::abs(k * fine) <= std::abs(far); ++k) {
    const AxlePlace place = path.place(k * fine, axle);
    const PoseSolution moved = MovePose(frame, here, place.z, place.roll);
    if (moved.status != SolveStatus::kConverged) break;
    here = EvaluateMotion(frame, moved.pose);
    const auto left = LeftOfAll(limits, Transform(moved.pose));
    for (size_t i = 0; i < left.size(); ++i) {
      if (!first[i] && left[i] && *left[i] < -kEndTolerance) first[i] = k * fine;
    }
  }
  size_t found = 0;
  for (size_t i = 0; i < limits.list.size(); ++i) {
    const LimitHit& hit =
        *std::find_if(walk.hits.begin(), walk.hits.end(),
                      [&](const LimitHit& each) { return each.limit.id == limits.list[i].id; });
    EXPECT_EQ(first[i].has_value(), hit.at.has_value()) << hit.limit.name;
    if (!first[i] || !hit.at) continue;
    EXPECT_LE(std::abs(*hit.at), std::abs(*first[i])) << hit.limit.name;
    EXPECT_GT(std::abs(*hit.at), std::abs(*first[i]) - 1.001 * std::abs(fine)) << hit.limit.name;
    ++found;
  }
  return found;
}

TEST(AxleWalk, HitsAreWhereAWalkInSmallStepsFindsThem) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    axle.opening->lip_y = 0.868, axle.opening->inner_panel_y = 0.5;
    for (Link& link : axle.links) link.misalignment_limit = 0.15;
  }
  const Stood stood(van);
  const std::array<double, 2> start = StartOf(stood.rig, &stood.stance);
  const AxlePath bounce = PathOf(stood.rig, start, MotionKind::kBounce);
  const AxlePath crossed = PathOf(stood.rig, start, MotionKind::kCrossed);
  constexpr double kAngleStep = 0.5 * M_PI / 180.0;  // [rad]
  size_t found = 0;
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const double way : {-1.0, 1.0}) {
      found += CheckAgainstSmallSteps(stood.rig, axle, bounce, way * 0.2, kStep, way * 1e-4);
      found += CheckAgainstSmallSteps(stood.rig, axle, crossed, way * 0.35, kAngleStep, way * 2e-4);
    }
  }
  EXPECT_GT(found, 40U);
}

TEST(AxleWalk, LinksAloneBeyondWhatIsRealEndNothing) {
  const Vehicle vehicle = ParallelTruck();  // links that line up at 480 mm, and nothing else
  const Rig rig = PrepareRig(vehicle);
  const std::vector<LimitHit> what = Walked(rig, 0.6);
  ASSERT_TRUE(Find(what, LimitKind::kLinksStraight));
  EXPECT_EQ(FirstEnd(what, Watch::kRows, 0.3), nullptr);
  EXPECT_NE(FirstEnd(what, Watch::kAll, 0.5), nullptr);
  // Something of the file's beyond the same is an end.
  const Passing strap{{0.0, 0.0, -0.5}, 0.0, 0.0};
  Vehicle held = ParallelTruck();
  Axle& front = held.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.straps.push_back(
      {.name = {"strap"}, .span = {hub + strap.to, hub}, .length = LengthAt(strap, 0.35)});
  const Rig other = PrepareRig(held);
  const std::vector<LimitHit> ends = Walked(other, 0.6);
  const LimitHit* first = FirstEnd(ends, Watch::kAll, 0.3);
  ASSERT_NE(first, nullptr);
  EXPECT_NEAR(*first->at, 0.35, 1e-8);
}

TEST(AxleWalk, TwoEndsOfOneCoilAreKeptApart) {
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
  const std::vector<LimitHit> up = Walked(rig, 0.1), down = Walked(rig, -0.1);
  const auto length = [](double z) { return (Moved(z) - Eigen::Vector3d(0, 0, 0.3)).norm(); };
  for (const auto& what : {up, down}) {
    EXPECT_EQ(std::count_if(what.begin(), what.end(),
                            [](const LimitHit& e) { return e.limit.name == "coil"; }),
              2);
    EXPECT_NEAR(*Find(what, LimitKind::kCoilBound)->at_rest, 0.040, 1e-12);
    EXPECT_NEAR(*Find(what, LimitKind::kCoilUnseated)->at_rest, 0.020, 1e-12);
  }
  EXPECT_NEAR(length(*Find(up, LimitKind::kCoilBound)->at), 0.260, 2e-9);
  EXPECT_FALSE(Find(up, LimitKind::kCoilUnseated)->at);
  EXPECT_NEAR(length(*Find(down, LimitKind::kCoilUnseated)->at), 0.320, 2e-9);
  EXPECT_FALSE(Find(down, LimitKind::kCoilBound)->at);
}

// Where the square root of the housing's closed form is 0 (Moved): to the nanometre, and fast.
TEST(AxleWalk, LinksLineUpWhereTheClosedFormSays) {
  const Vehicle vehicle = ParallelTruck();
  const Rig rig = PrepareRig(vehicle);
  const double fold = 1.0 / std::sqrt(1.0 / (kA * kA) + 1.0 / (kB * kB));
  for (const double far : {0.6, -0.6}) {
    for (const double step : {kStep, 0.007}) {
      const AxleWalk walk = WalkAxle(rig, 0, Bounce(rig), {.far = far, .step = step});
      const LimitHit* links = Find(walk.hits, LimitKind::kLinksStraight);
      ASSERT_TRUE(links != nullptr && links->at);
      EXPECT_NEAR(std::abs(*links->at), fold, 1e-9);
      EXPECT_EQ(walk.places.back().parameter, *links->at);
      // The pose goes like the root of what is left: to within the root of 5 pm of the fold's.
      const Eigen::Vector3d there = Moved(std::copysign(fold * (1.0 - 1e-15), far));
      EXPECT_NEAR(walk.places.back().motion.pose.x - walk.places.front().motion.pose.x, there.x(),
                  1e-5);
    }
  }
}

// A damper upright over the housing centre: shut and open where its length says.
TEST(AxleWalk, EndsWhereTheDamperIsShut) {
  Vehicle vehicle = ParallelTruck();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.dampers.push_back({.name = {"damper", Side::kLeft},
                           .span = {hub + Eigen::Vector3d(0, 0, 0.5), hub},
                           .shortest = 0.42,
                           .longest = 0.56,
                           .bump = {},
                           .rebound = {}});
  const Rig rig = PrepareRig(vehicle);
  const WalkRequest rows{.far = 0.6, .step = kStep, .watch = Watch::kRows, .to_first = true};
  WalkRequest down = rows;
  down.far = -0.6;
  const AxleWalk up_walk = WalkAxle(rig, 0, Bounce(rig), rows);
  const AxleWalk down_walk = WalkAxle(rig, 0, Bounce(rig), down);
  const LimitHit *bump = FirstEnd(up_walk.hits, Watch::kAll, 0.3),
                 *droop = FirstEnd(down_walk.hits, Watch::kAll, 0.3);
  ASSERT_TRUE(bump != nullptr && droop != nullptr);
  EXPECT_EQ(Describe(bump->limit), "damper left is fully closed");
  EXPECT_EQ(Describe(droop->limit), "damper left is fully open");
  const auto length = [](double z) { return (Moved(z) - Eigen::Vector3d(0, 0, 0.5)).norm(); };
  constexpr double kEndTol = 1.2e-9;  // [m] rows may overrun an end by 1e-9, and what is closed in
  EXPECT_NEAR(length(*bump->at), 0.42, kEndTol);
  EXPECT_NEAR(length(*droop->at), 0.56, kEndTol);
  const AxleWalk short_walk = WalkAxle(rig, 0, Bounce(rig), {.far = 0.05, .step = kStep});
  EXPECT_EQ(FirstEnd(short_walk.hits, Watch::kAll, 0.3), nullptr);
  EXPECT_EQ(short_walk.places.back().parameter, 0.05);
}

// On a mirror-symmetrical axle twins are met together, whatever the rounding: the lower id is told.
TEST(AxleWalk, OfTwinsThatAreMetTogetherTheFirstIsTold) {
  Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const double start : {0.0, 0.0123, -0.0321}) {
      const AxlePath path = PathOf(rig, {start, start}, MotionKind::kBounce);
      for (const double far : {0.6, -0.6}) {
        const AxleWalk walk = WalkAxle(rig, axle, path, {.far = far, .step = kStep});
        for (size_t i = 1; i < walk.hits.size() && walk.hits[i].at; ++i) {
          const LimitHit &a = walk.hits[i - 1], &b = walk.hits[i];
          if (std::abs(*a.at - *b.at) < 1e-9) {
            EXPECT_LT(a.limit.id, b.limit.id);
          }
        }
      }
    }
  }
}

// A member already past its end hides nothing of the others.
TEST(AxleWalk, AMemberPastItsEndHidesNoOthersDip) {
  const Passing damper = PassBetweenSteps();
  Vehicle vehicle = WithDamper(damper, damper.nearest + 1.5e-6);
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  // Taut by 5 mm in the stance, and slacker on the way up.
  front.straps.push_back(
      {.name = {"strap"}, .span = {hub + Eigen::Vector3d(0, 0, 0.5), hub}, .length = 0.495});
  const Rig rig = PrepareRig(vehicle);
  const AxleWalk walk = WalkAxle(
      rig, 0, Bounce(rig), {.far = 0.3, .step = kStep, .watch = Watch::kRows, .to_first = true});
  const LimitHit* first = FirstEnd(walk.hits, Watch::kAll, 0.3);
  ASSERT_NE(first, nullptr);
  EXPECT_EQ(first->limit.id.kind, LimitKind::kDamperClosed);
  EXPECT_NEAR(*first->at, damper.nearest_at, 2e-3);
}

}  // namespace
}  // namespace linkwright
