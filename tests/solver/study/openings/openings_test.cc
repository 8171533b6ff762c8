// SPDX-License-Identifier: MIT
#include "solver/study/openings/openings.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/study/walk/paths.h"
#include "tests/solver/study/stood.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

const TireClearance& Of(const OpeningsReport& report, size_t axle, size_t side, Surface surface) {
  for (const TireClearance& each : report.clearances) {
    if (each.axle == axle && each.side == side && each.surface == surface) return each;
  }
  ADD_FAILURE() << "not there";
  return report.clearances.front();
}

Vehicle WithPanels() {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) axle.opening->inner_panel_y = 0.560, axle.opening->lip_y = 0.860;
  return van;
}

// Equal parallel links, level: the housing moves without turning, x = s/2a, y = -s/2b with
// k s^2 - s + z^2 = 0. The tyre then stays straight, and its gaps are plain sums.
Vehicle StraightUp() {
  Vehicle vehicle{};
  vehicle.axles = {sample::EqualParallelLinks(0.6, 0.8), sample::EqualParallelLinks(0.6, 0.8)};
  Axle& front = vehicle.axles[0];
  front.name = "front", vehicle.axles[1].name = "rear";
  front.tire = {.radius = 0.30, .width = 0.20, .rate = {}};
  front.opening = Opening{front.p_CW_l.x(), front.p_CW_l.z() + 0.02, 0.45, std::nullopt,
                          front.p_CW_l.y() - 0.15};
  const Eigen::Vector3d hub = 0.5 * (front.p_CW_l + front.p_CW_r);
  front.dampers.push_back({.name = {"damper"},
                           .span = {hub + Eigen::Vector3d(0, 0, 0.4), hub},
                           .shortest = 0.31,
                           .longest = 0.46,
                           .bump = {},
                           .rebound = {}});
  vehicle.loads = {{"empty", {}}};
  return vehicle;
}

TEST(Openings, OfAHousingThatMovesStraightAreSumsOfItsClosedForm) {
  const Vehicle vehicle = StraightUp();
  const Rig rig = PrepareRig(vehicle);
  const OpeningsReport report = SweepOpenings({rig, nullptr}, std::nullopt);
  const SweptRange& range = report.ranges[0][1];
  ASSERT_TRUE(range.ended_by[0] && range.ended_by[1]);
  const double a = 0.6, b = 0.8, k = 0.25 / (a * a) + 0.25 / (b * b);
  const auto s = [&](double z) { return (1.0 - std::sqrt(1.0 - 4.0 * k * z * z)) / (2.0 * k); };
  constexpr double kTol = 1e-8;  // [m] closed in to 1e-5 of a step of 4 mm, on a slope below 1
  const NearestTire& lip = *Of(report, 0, 0, Surface::kLip).held[1];
  const double up = range.high, x = s(up) / (2.0 * a);
  EXPECT_NEAR(lip.gap.distance, 0.45 - 0.30 - std::hypot(x, up - 0.02), 1e-7);
  EXPECT_NEAR(lip.parameter, up, 1e-6);
  EXPECT_NEAR(lip.wheel_travel, up, 1e-6);
  // The bar pulls the housing to the right, up as down: nearer to the left panel where it is
  // farthest from rest, and nearest to the right one at rest.
  const double far = std::max(s(range.low), s(range.high)) / (2.0 * b);
  EXPECT_NEAR(Of(report, 0, 0, Surface::kPanel).held[1]->gap.distance, 0.15 - 0.10 - far, 1e-7);
  EXPECT_NEAR(Of(report, 0, 1, Surface::kPanel).held[1]->gap.distance, 0.15 - 0.10, kTol);
  EXPECT_TRUE(report.ranges[1].empty());  // no opening there
}

TEST(Openings, LeastIsNoMoreThanAnyOfManySamples) {
  const Stood stood(WithPanels());
  const double lock = 30.0 * M_PI / 180.0;
  const OpeningsReport report = SweepOpenings({stood.rig, &stood.stance}, lock);
  const AxleFrame& frame = stood.rig.axles[0].frame;
  const Axle& front = stood.vehicle.axles[0];
  const SweptRange& crossed = report.ranges[0][3];
  ASSERT_EQ(crossed.motion, TireMotion::kCrossed);
  const AxlePath path = PathOf(stood.rig, StartOf(stood.rig, &stood.stance), MotionKind::kCrossed);
  for (const Surface surface : {Surface::kLip, Surface::kPanel}) {
    double sampled = 1e9;
    for (const double end : {crossed.low, crossed.high}) {
      HousingMotion here = StartMotion(stood.rig, 0, path);
      for (int i = 0; i <= 40; ++i) {
        const AxlePlace place = path.place(end * i / 40.0, 0);
        here = EvaluateMotion(frame, MovePose(frame, here, place.z, place.roll).pose);
        const Eigen::Isometry3d X_CA = Transform(here.pose);
        for (int j = -60; j <= 60; ++j) {
          const auto turns = TurnInside(front, frame, X_CA, lock * j / 60.0);
          ASSERT_TRUE(turns);
          const TireSolid tire = TireAt(front, frame, report.tires[0], X_CA, 0, turns->left);
          const auto gap = surface == Surface::kLip ? GapToLip(tire, *front.opening, 0)
                                                    : GapToPanel(tire, *front.opening, 0);
          sampled = std::min(sampled, gap->distance);
        }
      }
    }
    const double least = Of(report, 0, 0, surface).turned[3]->gap.distance;
    // [m] the report closes in, samples half a degree apart may miss by 0.4 m (0.25 deg)^2 / 2
    EXPECT_LE(least, sampled + 1e-6);
    EXPECT_NEAR(least, sampled, 5e-5);
  }
}

TEST(Openings, SteeringBringsTheTyreNearerToThePanel) {
  const Stood stood(WithPanels());
  const OpeningsReport report = SweepOpenings({stood.rig, &stood.stance}, 0.5);
  const TireClearance& panel = Of(report, 0, 0, Surface::kPanel);
  for (size_t m = 0; m < 5; ++m) {
    EXPECT_LT(panel.turned[m]->gap.distance, panel.held[m]->gap.distance);
  }
  EXPECT_EQ(LeastOf(panel)->gap.distance,
            std::min({panel.turned[1]->gap.distance, panel.turned[2]->gap.distance,
                      panel.turned[3]->gap.distance, panel.turned[4]->gap.distance}));
  // A rear axle without a kingpin is not steered.
  EXPECT_FALSE(report.lock[1]);
  EXPECT_FALSE(Of(report, 1, 0, Surface::kPanel).turned[0]);
}

TEST(Openings, TheFilesOwnLockIsUsedUnlessOneIsAsked) {
  Vehicle van = WithPanels();
  const Stood none(van);
  EXPECT_FALSE(SweepOpenings({none.rig, &none.stance}, std::nullopt).lock[0]);
  van.axles[0].steering->lock = 0.4;
  const Stood own(van);
  EXPECT_EQ(SweepOpenings({own.rig, &own.stance}, std::nullopt).lock[0], 0.4);
  EXPECT_EQ(SweepOpenings({own.rig, &own.stance}, 0.3).lock[0], 0.3);
}

TEST(Openings, AreTheSameInAMirror) {
  const Stood one(WithPanels()), other(sample::MirrorImage(WithPanels()));
  const OpeningsReport a = SweepOpenings({one.rig, &one.stance}, std::nullopt);
  const OpeningsReport b = SweepOpenings({other.rig, &other.stance}, std::nullopt);
  constexpr double kMirror = 1e-6;  // [m] closed in to 0.01 mm at worst, smooth here
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const Surface surface : {Surface::kLip, Surface::kPanel}) {
      for (size_t m = 0; m < 5; ++m) {
        EXPECT_NEAR(Of(a, axle, 0, surface).held[m]->gap.distance,
                    Of(b, axle, 1, surface).held[m]->gap.distance, kMirror)
            << axle << m;
      }
    }
  }
}

}  // namespace
}  // namespace linkwright
