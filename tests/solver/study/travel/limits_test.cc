// SPDX-License-Identifier: MIT
#include "solver/study/travel/limits.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/study/curves/motions.h"
#include "solver/study/curves/sweep.h"
#include "tests/solver/study/stood.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kSame =
    1e-9;  // [m, rad] the sweep bisects to 1e-10, the limits to 1e-11 of a margin

const LimitHit* Find(const AxleLimit& limit, LimitKind end, const std::string& member) {
  for (const LimitHit& hit : limit.hits) {
    if (hit.limit.id.kind == end && hit.limit.name == member) return &hit;
  }
  return nullptr;
}

// Whether a sweep's rows end there too.
bool EndsRows(LimitKind end) { return end <= LimitKind::kStrapTaut; }

std::optional<double> FirstThatEndsRows(const AxleLimit& limit) {
  for (const LimitHit& hit : limit.hits) {
    if (hit.at && EndsRows(hit.limit.id.kind)) return hit.at;
  }
  return std::nullopt;
}

// Equal parallel links move the housing straight: a bar's circle, and members whose lengths are
// plain sums.
Vehicle StraightUp() {
  Vehicle vehicle{};
  vehicle.axles = {sample::EqualParallelLinks(0.6, 0.8), sample::EqualParallelLinks(0.6, 0.8)};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  for (Link& link : vehicle.axles[1].links) {
    link.span.p_CP.x() -= 2.5, link.span.p_CQ.x() -= 2.5;
  }
  vehicle.axles[1].p_CW_l.x() -= 2.5, vehicle.axles[1].p_CW_r.x() -= 2.5;
  vehicle.loads = {{"empty", {}}};
  return vehicle;
}

TEST(Limits, ABumpEndsWhereAVerticalDamperCloses) {
  // The damper stands upright over the middle, 400 mm long; the housing's centre follows
  // k s^2 - s + z^2 = 0, k = 1/4a^2 + 1/4b^2, x = s/2a, y = -s/2b (closed form of these links).
  Vehicle vehicle = StraightUp();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.dampers.push_back({.name = {"damper"},
                           .span = {hub + Eigen::Vector3d(0, 0, 0.4), hub},
                           .shortest = 0.33,
                           .longest = 0.5,
                           .bump = {},
                           .rebound = {}});
  const Rig rig = PrepareRig(vehicle);
  const AxleLimit bump = FindLimits({rig, nullptr}).bounce[0][0];
  ASSERT_TRUE(bump.ended_by);
  EXPECT_EQ(bump.hits[*bump.ended_by].limit.id.kind, LimitKind::kDamperClosed);
  const double z = bump.parameter;
  const double a = 0.6, b = 0.8, k = 0.25 / (a * a) + 0.25 / (b * b);
  const double s = (1.0 - std::sqrt(1.0 - 4.0 * k * z * z)) / (2.0 * k);
  const double length = Eigen::Vector3d(s / (2.0 * a), s / (2.0 * b), 0.4 - z).norm();
  EXPECT_NEAR(length, 0.33, kSame + kEndTolerance);
  // Its links follow until that square root is 0, then line up.
  const LimitHit* links = nullptr;
  for (const LimitHit& each : bump.hits) {
    if (each.limit.id.kind == LimitKind::kLinksStraight) links = &each;
  }
  ASSERT_NE(links, nullptr);
  // [m] a double root: the walk stops short of it by its own guard.
  EXPECT_NEAR(*links->at, 1.0 / (2.0 * std::sqrt(k)), 2e-3);
  EXPECT_LE(*links->at, 1.0 / (2.0 * std::sqrt(k)));
}

TEST(Limits, ASweepEndsWhereTheFirstOfItsOwnEndsIs) {
  for (const Vehicle& vehicle : {sample::HarbourVan(), sample::MirrorImage(sample::HarbourVan())}) {
    const Stood stood(vehicle);
    const LimitsReport limits = FindLimits({stood.rig, &stood.stance});
    const Sweep sweep = SweepBounce({stood.rig, &stood.stance}, {});
    const MotionSweep crossed = SweepMotion({stood.rig, &stood.stance},
                                            {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}});
    for (size_t i = 0; i < 2; ++i) {
      EXPECT_NEAR(*FirstThatEndsRows(limits.bounce[i][0]), *sweep.bump[i]->at, kSame);
      EXPECT_NEAR(*FirstThatEndsRows(limits.bounce[i][1]), *sweep.droop[i]->at, kSame);
      EXPECT_NEAR(*FirstThatEndsRows(limits.crossed[0].axles[i]), *crossed.high[i]->at, kSame);
      EXPECT_NEAR(*FirstThatEndsRows(limits.crossed[1].axles[i]), *crossed.low[i]->at, kSame);
    }
  }
}

TEST(Limits, WhatIsLeftIsWhatTheMarginsSayThere) {
  const Stood stood(sample::HarbourVan());
  const LimitsReport limits = FindLimits({stood.rig, &stood.stance});
  const AxleLimit& bump = limits.bounce[kRear][0];
  const AxleFrame& frame = stood.rig.axles[kRear].frame;
  const double z = stood.stance.motion[kRear].pose.z + bump.parameter;
  const Pose pose = MovePose(frame, stood.rig.axles[kRear].measured, z, 0.0).pose;
  for (const LengthLimit& end : EndLengths(stood.vehicle.axles[kRear], frame)) {
    const LimitHit* hit = Find(bump, end.limit.id.kind, end.limit.name);
    ASSERT_NE(hit, nullptr);
    ASSERT_TRUE(hit->left);
    EXPECT_NEAR(*hit->left, LeftOf(end, Transform(pose)), 1e-9);
  }
}

TEST(Limits, TheAxleStopsSoonerThanASweepWhereAJointComesFirst) {
  // The limit is what the joint has turned half way to the end, so that is where it must end.
  Vehicle van = sample::HarbourVan();
  const Stood plain(van);
  const double half = 0.5 * FindLimits({plain.rig, &plain.stance}).bounce[kRear][0].parameter;
  const AxleFrame& frame = plain.rig.axles[kRear].frame;
  const double z = plain.stance.motion[kRear].pose.z + half;
  const Pose pose = MovePose(frame, plain.rig.axles[kRear].measured, z, 0.0).pose;
  const size_t bar = 4;
  const LinkTurn turn =
      TurnOfLink(frame, frame.links[bar], UsualBolt(frame.links[bar], frame), Transform(pose));
  van.axles[kRear].links[bar].misalignment_limit =
      std::max(turn.frame.misalignment, turn.axle.misalignment);
  const Stood stood(van);
  const AxleLimit bump = FindLimits({stood.rig, &stood.stance}).bounce[kRear][0];
  ASSERT_TRUE(bump.ended_by);
  EXPECT_EQ(bump.hits[*bump.ended_by].limit.id.kind, LimitKind::kJointAtLimit);
  constexpr double kOfAngle = 1e-6;  // [m] kEndTolerance in rad, at 1 mrad or more a metre
  EXPECT_NEAR(bump.parameter, half, kOfAngle);
}

TEST(Limits, ACoilOffItsSeatEndsDroopOnlyWhereItMustStay) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    for (Damper& damper : axle.dampers) damper.longest = 0.9;
  }
  const auto rear_droop = [](const Vehicle& vehicle) {
    const Stood stood(vehicle);
    return FindLimits({stood.rig, &stood.stance}).bounce[kRear][1];
  };
  const AxleLimit loose = rear_droop(van);
  const LimitHit* coil = Find(loose, LimitKind::kCoilUnseated, "coil left");
  ASSERT_TRUE(coil != nullptr && coil->at);
  for (Spring& spring : van.axles[kRear].springs) spring.keep_seated = true;
  const AxleLimit kept = rear_droop(van);
  ASSERT_TRUE(kept.ended_by);
  EXPECT_EQ(kept.hits[*kept.ended_by].limit.id.kind, LimitKind::kCoilUnseated);
  EXPECT_NEAR(kept.parameter, *coil->at, kSame);
  EXPECT_LT(loose.parameter, kept.parameter);  // droop: farther down
}

TEST(Limits, WhatIsPastItsEndInTheStanceEndsTheWayThatLeadsFartherPast) {
  Vehicle vehicle = StraightUp();
  Axle& front = vehicle.axles[0];
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.dampers.push_back({.name = {"damper"},
                           .span = {hub + Eigen::Vector3d(0, 0, 0.4), hub},
                           .shortest = 0.41,
                           .longest = {},
                           .bump = {},
                           .rebound = {}});
  const Rig rig = PrepareRig(vehicle);
  const LimitsReport limits = FindLimits({rig, nullptr});
  EXPECT_EQ(limits.bounce[0][0].parameter, 0.0);
  EXPECT_LT(limits.bounce[0][1].parameter, -0.1);
}

TEST(Limits, CrossedTravelIsThatOfTheWheels) {
  const Stood stood(sample::HarbourVan());
  const LimitsReport limits = FindLimits({stood.rig, &stood.stance});
  for (const CrossedLimit& crossed : limits.crossed) {
    ASSERT_TRUE(crossed.first);
    // Both tracks are 1490 mm.
    EXPECT_NEAR(crossed.diagonal_travel, 1.490 * std::sin(crossed.angle), 1e-12);
    EXPECT_NEAR(crossed.axles[*crossed.first].wheel_travel,
                0.745 * std::sin(std::abs(crossed.angle)), 1e-12);
  }
  EXPECT_GT(limits.crossed[0].angle, 0.0);
  EXPECT_LT(limits.crossed[1].angle, 0.0);
}

TEST(Limits, AMirrorImageCrossesTheOtherWay) {
  const Stood one(sample::HarbourVan()), other(sample::MirrorImage(sample::HarbourVan()));
  const LimitsReport a = FindLimits({one.rig, &one.stance}),
                     b = FindLimits({other.rig, &other.stance});
  constexpr double kMirror = 1e-8;  // [rad] two settles and two walks
  EXPECT_NEAR(a.crossed[0].angle, -b.crossed[1].angle, kMirror);
  EXPECT_NEAR(a.crossed[1].angle, -b.crossed[0].angle, kMirror);
}

}  // namespace
}  // namespace linkwright
