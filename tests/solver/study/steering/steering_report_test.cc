// SPDX-License-Identifier: MIT
// Steer slopes against differences of the steer itself, Ackermann against where spindles meet, and
// moved track bars put where they were told to go.
#include "solver/study/steering/steering_report.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/study/steering/track_bar.h"
#include "tests/support/differences.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kSlopeTol =
    1e-9;  // [rad/m, rad/rad] sixth-order differences of poses good to 1e-12

Vehicle VanWithTieRod() {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].steering->tie_rod =
      TieRod{Eigen::Vector3d(-0.150, 0.600, 0.330), Eigen::Vector3d(-0.150, -0.600, 0.330)};
  return van;
}

TEST(SteerOf, SlopesAreThoseOfTheSteer) {
  const Vehicle van = VanWithTieRod();
  const Rig rig = PrepareRig(van);
  const AxleFrame& frame = rig.axles[kFront].frame;
  const Knuckle knuckle = PrepareKnuckle(van.axles[kFront], frame);
  const HousingMotion& from = rig.axles[kFront].measured;
  for (const auto& [dz, droll] :
       std::vector<std::pair<double, double>>{{0.0, 0.0}, {0.04, 0.02}, {-0.06, -0.03}}) {
    const auto heading = [&](double z, double roll) {
      const PoseSolution pose =
          MovePose(frame, from, from.pose.z + dz + z, from.pose.roll + droll + roll);
      return Eigen::Matrix<double, 1, 1>(*SpindleHeading(knuckle, Transform(pose.pose)));
    };
    const PoseSolution here = MovePose(frame, from, from.pose.z + dz, from.pose.roll + droll);
    const auto held = SteerOf(van.axles[kFront], frame, knuckle, EvaluateMotion(frame, here.pose));
    ASSERT_TRUE(held);
    EXPECT_NEAR(held->per_height,
                check::FirstDifference([&](double s) { return heading(s, 0.0); }, 3e-3)[0],
                kSlopeTol);
    EXPECT_NEAR(held->per_roll,
                check::FirstDifference([&](double s) { return heading(0.0, s); }, 3e-3)[0],
                kSlopeTol);
    EXPECT_NEAR(held->heading, heading(0.0, 0.0)[0], 1e-12);
  }
}

// The tie rod keeps its length whatever the knuckles do; toe is what both spindles then show.
TEST(SteerOf, ToeIsWhatTheTieRodLeaves) {
  const Vehicle van = VanWithTieRod();
  const Rig rig = PrepareRig(van);
  const AxleFrame& frame = rig.axles[kFront].frame;
  const Axle& axle = van.axles[kFront];
  const Knuckle knuckle = PrepareKnuckle(axle, frame);
  const HousingMotion& from = rig.axles[kFront].measured;
  const Pose pose = MovePose(frame, from, from.pose.z - 0.07, from.pose.roll).pose;
  const auto held = SteerOf(axle, frame, knuckle, EvaluateMotion(frame, pose));
  ASSERT_TRUE(held);
  // The drag link steers the right knuckle; find the left one's turn by halving until the rod fits.
  const KingpinAxis left = PrepareKingpin(axle, frame, 1.0),
                    right = PrepareKingpin(axle, frame, -1.0);
  const TieRod& rod = *axle.steering->tie_rod;
  const Eigen::Vector3d ball = Turned(right, held->turn, OnHousing(frame, rod.p_CR));
  const auto miss = [&](double turn) {
    return (Turned(left, turn, OnHousing(frame, rod.p_CL)) - ball).norm() - 1.2;
  };
  double low = held->turn - 0.1, high = held->turn + 0.1;
  ASSERT_LT(miss(low) * miss(high), 0.0);
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (miss(low) * miss(middle) <= 0.0 ? high : low) = middle;
  }
  const Eigen::Isometry3d X = Transform(pose);
  EXPECT_NEAR(held->toe_in, HeadingOf(right, held->turn, X) - HeadingOf(left, low, X), 1e-11);
  EXPECT_NE(held->toe_in, 0.0);
}

// Spindles through both kingpins meet on the rear axle's line.
TEST(AckermannDifference, SpindlesMeetOnTheRearAxle) {
  constexpr double kSpacing = 1.3, kBase = 2.6;
  for (const double inner : {2.0 * kDegree, 20.0 * kDegree, 40.0 * kDegree}) {
    const double outer = inner - AckermannDifference(inner, kSpacing, kBase);
    const double inner_reach = kBase / std::tan(inner);  // sideways, from the inner kingpin
    const double outer_reach = kBase / std::tan(outer);
    EXPECT_NEAR(outer_reach - inner_reach, kSpacing, 1e-12);
  }
  EXPECT_EQ(AckermannDifference(0.0, kSpacing, kBase), 0.0);
}

struct Steered {
  Vehicle vehicle;
  Rig rig;
  Standing standing;
};

void Prepare(Steered& s, Vehicle vehicle) {
  s.vehicle = std::move(vehicle);
  s.rig = PrepareRig(s.vehicle);
  s.standing = *Stand(s.rig, &s.vehicle.loads[0]);
}

TEST(TrackBar, IsTheLinkThatLiesAcross) {
  EXPECT_EQ(TrackBarOf(sample::HarbourVan().axles[kFront]), 4U);
  EXPECT_FALSE(TrackBarOf(sample::LevelTruck().axles[kRear]));
}

// A bar that swings about its frame end draws the axle along a circle.
TEST(TrackBar, DrawsTheAxleAlongItsCircle) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion from = EvaluateMotion(frame, frame.measured);
  const Pose up = MovePose(frame, from, frame.measured.z + 0.1, 0.0).pose;
  // k s^2 - s + z^2 = 0 with s the square of the whole way (three-dimensional circle of arm and
  // bar).
  const double k = 0.25 / (0.6 * 0.6) + 0.25 / (0.9 * 0.9);
  const double s = (1.0 - std::sqrt(1.0 - 4.0 * k * 0.01)) / (2.0 * k);
  EXPECT_NEAR(std::abs(up.y - frame.measured.y), s / (2.0 * 0.9), 1e-11);
}

TEST(TrackBar, MovedToMatchItIsParallelAndAsLongFromInFront) {
  Steered s;
  Prepare(s, sample::HarbourVan());
  const auto match = MatchBar(s.rig, s.standing, kFront);
  ASSERT_TRUE(match);
  EXPECT_TRUE(match->same_hand);
  for (const BarMove& move : MoveBar(s.rig, s.standing, &s.vehicle.loads[0], kFront, match->link)) {
    // The same move made in a file: that end there, as measured, and the bar as long as told.
    Vehicle moved = s.vehicle;
    Span& span = moved.axles[kFront].links[match->link].span;
    (move.kind == BarMoveKind::kAxleEndToMatch ? span.p_CQ : span.p_CP) = move.p_C;
    Rig rig = PrepareRig(moved);
    const auto told = Lengthened(rig, kFront, {match->link}, move.length - MeasuredLength(span));
    ASSERT_TRUE(told);
    const auto standing = Stand(*told, &s.vehicle.loads[0]);
    ASSERT_TRUE(standing);
    EXPECT_NEAR(standing->level[kFront].pose.y, s.standing.level[kFront].pose.y, 1e-5);
    const auto after = MatchBar(*told, *standing, kFront);
    ASSERT_TRUE(after);
    const auto held = SteerOf(moved.axles[kFront], told->axles[kFront].frame,
                              PrepareKnuckle(moved.axles[kFront], told->axles[kFront].frame),
                              standing->level[kFront]);
    EXPECT_NEAR(held->per_height, move.steer_rate, 1e-5);  // [rad/m] rest to 1e-5 m
    if (move.kind == BarMoveKind::kFrameEndNoSteer) {
      EXPECT_NEAR(held->per_height, 0.0, 1e-5);
    }
    if (move.kind != BarMoveKind::kFrameEndToMatch && move.kind != BarMoveKind::kAxleEndToMatch) {
      continue;
    }
    EXPECT_NEAR(after->bar_slope, after->drag_slope, 1e-4);  // [rad] the drag link moved by 1e-5 m
    EXPECT_NEAR(after->bar_length, after->drag_length, 2e-3);  // x parts differ
  }
}

TEST(Sideways, TheBarSoChangedCentresTheAxle) {
  Vehicle van = sample::HarbourVan();
  // Measured 3/8 in to the left: both hubs.
  van.axles[kFront].p_CW_l.y() += 0.375 * sample::kInch;
  van.axles[kFront].p_CW_r.y() += 0.375 * sample::kInch;
  Steered s;
  Prepare(s, std::move(van));
  const SidewaysCure cure = CentreAxle(s.rig, s.standing, &s.vehicle.loads[0], kFront);
  EXPECT_NEAR(cure.offset, 0.375 * sample::kInch, 1e-3);
  ASSERT_TRUE(cure.by);
  // Frame end on the left, 3.6 deg of slope: about as much longer as the axle is off.
  EXPECT_NEAR(*cure.by, cure.offset / std::cos(std::atan2(50.0, 910.0)), 3e-4);
  const auto rig = Lengthened(s.rig, kFront, {4}, *cure.by);
  const auto standing = Stand(*rig, &s.vehicle.loads[0]);
  EXPECT_NEAR(standing->level[kFront].pose.y, 0.0, 2e-9);
}

TEST(Steering, RollSlopeOfRowsIsTheirSteer) {
  Steered s;
  Prepare(s, VanWithTieRod());
  const SteeringReport report =
      ReportSteering({s.rig, StanceOf(s.standing)}, s.standing, &s.vehicle.loads[0], 0.02);
  ASSERT_EQ(report.axles.size(), 1U);
  const SteeredAxle& front = report.axles[0];
  const AxleRow& rest = *AtRest(front.travel).axles[kFront];
  EXPECT_EQ(rest.steer, 0.0);
  EXPECT_EQ(rest.toe_in, 0.0);
  // Lock to lock is symmetrical: left and right wheel change places.
  ASSERT_EQ(front.lock.size(), 13U);
  EXPECT_NEAR(front.lock[6].left, 0.0, 1e-12);
  EXPECT_GT(front.lock.back().left - front.lock.back().right, 0.0);  // arms converge rearward
  EXPECT_GT(*front.lock.back().wanted, 0.0);
}

}  // namespace
}  // namespace linkwright
