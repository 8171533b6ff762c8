// SPDX-License-Identifier: MIT
// Shaft reports against the sweep, against one another's sums, and with what they advise done.
#include "solver/study/driveline/driveline.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "solver/rest/settle.h"
#include "solver/study/curves/sweep.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kTol = 1e-10;  // [m, rad, -] the same pose by two walks

struct Shaft {
  Vehicle vehicle;
  Rig rig;
  Standing standing;
  ShaftReport report;
};

std::unique_ptr<Shaft> ReportOf(Vehicle vehicle, DrivelineRequest request = {}) {
  auto shaft = std::make_unique<Shaft>();
  shaft->vehicle = std::move(vehicle);
  shaft->vehicle.driveshafts[0].slip_left = 0.0275;
  shaft->rig = PrepareRig(shaft->vehicle);
  request.load = &shaft->vehicle.loads[0];
  shaft->standing = *Stand(shaft->rig, request.load);
  shaft->report =
      ReportDriveline({shaft->rig, StanceOf(shaft->standing)}, shaft->standing, request).front();
  return shaft;
}

TEST(Driveline, RowsAreThoseOfTheSweep) {
  const auto shaft = ReportOf(sample::HarbourVan());
  const Sweep sweep = SweepBounce({shaft->rig, &*shaft->standing.stance},
                                  {.from = std::nullopt, .to = std::nullopt, .step = 0.02});
  size_t compared = 0;
  for (const ShaftPlace& place : shaft->report.travel) {
    for (const SweepRow& row : sweep.rows) {
      if (std::abs(row.travel - place.travel) > 1e-9) continue;
      const DriveshaftState& state = *row.driveshafts[0];
      EXPECT_NEAR(place.length, state.length, kTol);
      EXPECT_NEAR(place.joints[0].angle, state.output_angle, kTol);
      EXPECT_NEAR(place.joints[1].angle, state.axle_angle, kTol);
      EXPECT_NEAR(place.ripple, state.ripple, kTol);
      ++compared;
    }
  }
  EXPECT_GE(compared, 6U);
}

TEST(Driveline, SlipLeftBothWaysIsTheSlip) {
  const auto shaft = ReportOf(sample::HarbourVan());
  for (const ShaftPlace& place : AllPlaces(shaft->report)) {
    EXPECT_NEAR(*place.to_bottom + *place.to_part, 0.055, kTol);
    EXPECT_NEAR(*place.to_bottom - 0.0275, place.plunge, kTol);
  }
}

TEST(Driveline, TurningTheLinksAsToldCancelsAtRest) {
  const auto shaft = ReportOf(sample::HarbourVan());
  ASSERT_EQ(shaft->report.cures.size(), 2U);  // the track bar is not asked
  for (const LinkCure& cure : shaft->report.cures) {
    auto rig = Lengthened(shaft->rig, kRear, cure.links.members, cure.by);
    ASSERT_TRUE(rig);
    const auto standing = Stand(*rig, &shaft->vehicle.loads[0]);
    ASSERT_TRUE(standing);
    const DriveshaftLine line =
        LineOf(shaft->vehicle.driveshafts[0], shaft->vehicle.axles[kRear], rig->axles[kRear].frame,
               Transform(standing->level[kRear].pose));
    // In side view the pinion is parallel to the output: the plan view keeps what it has.
    const JointParts apart = PartsOf(line.chain.along.front(), line.chain.along.back());
    EXPECT_NEAR(apart.side, 0.0, 2e-5);  // [rad] plan parts turn the cancelling direction a little
    EXPECT_LT(cure.after.net_angle, 0.03 * kDegree);
    EXPECT_GT(AtRest(shaft->report).net_angle, 0.5 * kDegree);
  }
}

// Wanted low by so much, it ends so much lower.
TEST(Driveline, PinionLowIsTakenOffTheAim) {
  Vehicle van = sample::HarbourVan();
  const double before = ReportOf(van)->report.aim->turn;
  van.driveshafts[0].pinion_low = 2.0 * kDegree;
  EXPECT_NEAR(ReportOf(van)->report.aim->turn, before - 2.0 * kDegree, kTol);
}

TEST(Driveline, BehindADoubleJointThePinionsAngleIsTheNetAngle) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].output_joint = JointKind::kDouble;
  const auto shaft = ReportOf(van);
  for (const ShaftPlace& place : AllPlaces(shaft->report)) {
    EXPECT_NEAR(place.net_angle, place.joints[1].angle, 1e-9);
  }
  // Aimed: the pinion points along the shaft.
  const double angle = AtRest(shaft->report).joints[1].side;
  EXPECT_NEAR(std::abs(shaft->report.aim->turn), std::abs(angle), 1e-5);
}

TEST(Driveline, ADoubleJointAtThePinionLeavesTheOutputsAngle) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].axle_joint = JointKind::kDouble;
  const auto shaft = ReportOf(van);
  EXPECT_FALSE(shaft->report.aim);
  EXPECT_TRUE(shaft->report.cures.empty());
  for (const ShaftPlace& place : AllPlaces(shaft->report)) {
    EXPECT_NEAR(place.net_angle, place.joints[0].angle, 1e-9);
  }
}

// A bearing on the line from the output straight on: its piece runs as the output does, so that the
// rest is a one-piece shaft from there.
TEST(Driveline, ABearingInLineWithTheOutputIsAShorterShaft) {
  Vehicle van = sample::HarbourVan();
  const Eigen::Vector3d ahead(-std::cos(3 * kDegree), 0.0, -std::sin(3 * kDegree));
  const Eigen::Vector3d p_CB = van.driveshafts[0].p_CO + 0.4 * ahead;
  Vehicle two = van;
  two.driveshafts[0].center_bearing = CenterBearing{.p_CB = p_CB};
  van.driveshafts[0].p_CO = p_CB;
  const auto whole = ReportOf(two), piece = ReportOf(van);
  EXPECT_NEAR(*whole->report.front_length, 0.4, kTol);
  ASSERT_EQ(whole->report.travel.size(), piece->report.travel.size());
  for (size_t i = 0; i < whole->report.travel.size(); ++i) {
    const ShaftPlace& a = whole->report.travel[i];
    const ShaftPlace& b = piece->report.travel[i];
    EXPECT_NEAR(a.length, b.length, kTol);
    EXPECT_NEAR(a.joints[0].angle, 0.0, 1e-9);
    EXPECT_NEAR(a.joints[1].angle, b.joints[0].angle, kTol);
    EXPECT_NEAR(a.joints[2].angle, b.joints[1].angle, kTol);
    // A straight joint passes a quarter turn on, as every cross does: the same yokes follow a
    // quarter turn later, and evenness does not care.
    EXPECT_NEAR(a.ripple, b.ripple, 1e-9);
  }
}

TEST(Driveline, AccelerationsGoWithTheSquareOfTheSpeed) {
  const auto slow = ReportOf(sample::HarbourVan(), {.load = nullptr, .speed = 100.0, .torque = {}});
  const auto fast = ReportOf(sample::HarbourVan(), {.load = nullptr, .speed = 300.0, .torque = {}});
  const ShaftPlace& a = slow->report.travel.front();
  const ShaftPlace& b = fast->report.travel.front();
  EXPECT_NEAR(*b.torsional / *a.torsional, 9.0, 1e-9);
  EXPECT_NEAR(*b.inertial / *a.inertial, 9.0, 1e-9);
  // One piece: the worse of both joints alone.
  const double worse = std::max(a.joints[0].angle, a.joints[1].angle);
  EXPECT_NEAR(*a.inertial, 1e4 * PeakAcceleration(worse), 1e-6);
  EXPECT_NEAR(*a.torsional, 1e4 * PeakAcceleration(a.net_angle), 1e-9);
}

TEST(Driveline, TorqueLiftsTheRearPinion) {
  const auto shaft =
      ReportOf(sample::HarbourVan(), {.load = nullptr, .speed = {}, .torque = 3000.0});
  ASSERT_TRUE(shaft->report.pinion_up);
  EXPECT_GT(*shaft->report.pinion_up, 0.0);
  EXPECT_EQ(shaft->report.under_torque->kind, ShaftPlaceKind::kUnderTorque);
}

// Of the output the file says it; of the pinion the sweep, by another formula.
TEST(Driveline, SlopesAreTheFilesAndTheSweeps) {
  const auto shaft = ReportOf(sample::HarbourVan());
  const std::vector<ShaftSlope>& slopes = shaft->report.slopes;
  ASSERT_EQ(slopes.size(), 3U);
  EXPECT_NEAR(slopes[0].chassis, -shaft->vehicle.driveshafts[0].output_angle, kTol);
  const Sweep sweep =
      SweepBounce({shaft->rig, &*shaft->standing.stance}, {.from = 0.0, .to = 0.0, .step = 0.02});
  // The sweep adds the housing's pitch in side view; a housing steered by 0.1 deg turns the last
  // digits.
  EXPECT_NEAR(slopes[2].floor, *sweep.rows.front().axles[kRear]->pinion_angle, 1e-6);
  const Eigen::Vector3d p_CY =
      Transform(shaft->standing.level[kRear].pose) *
      OnHousing(shaft->rig.axles[kRear].frame, shaft->vehicle.axles[kRear].pinion->p_CY);
  const Eigen::Vector3d d = p_CY - shaft->vehicle.driveshafts[0].p_CO;
  EXPECT_NEAR(std::sin(slopes[1].chassis), -d.z() / d.norm(), kTol);
}

// Two crosses: with the yokes turned for it the two ratios are divided by one another, and the rest
// is cos = the smaller cosine over the greater.
TEST(Driveline, TheBestPhaseLeavesTheQuotientOfBothJoints) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].output_angle += 3.0 * kDegree;
  van.axles[kRear].pinion->angle += 3.0 * kDegree;
  van.driveshafts[0].phase = 0.7;
  const auto shaft = ReportOf(van);
  const ShaftPlace& rest = AtRest(shaft->report);
  const double c1 = std::cos(rest.joints[0].angle), c2 = std::cos(rest.joints[1].angle);
  ASSERT_TRUE(shaft->report.phase);
  const PhaseAdvice best = *shaft->report.phase;
  constexpr double kFlat = 1e-7;  // [rad] an angle from its cosine
  EXPECT_NEAR(best.net_angle, std::acos(std::min(c1, c2) / std::max(c1, c2)), kFlat);
  EXPECT_GT(rest.net_angle, best.net_angle + 0.5 * kDegree);
  van.driveshafts[0].phase = best.phase;
  EXPECT_NEAR(AtRest(ReportOf(van)->report).net_angle, best.net_angle, 1e-9);
  van.driveshafts[0].axle_joint = JointKind::kDouble;
  EXPECT_FALSE(ReportOf(van)->report.phase);
}

// The rear axle as it is measured again after its links were turned: every point of it where it
// then is, all lengths taken from the points.
Vehicle MeasuredAgain(const Vehicle& vehicle, const AxleFrame& before, const Pose& after) {
  Vehicle again = vehicle;
  Axle& axle = again.axles[kRear];
  const Eigen::Isometry3d moved = Transform(after) * before.X_CA.inverse(Eigen::Isometry);
  const auto move = [&](auto& members) {
    for (auto& member : members) member.span.p_CQ = moved * member.span.p_CQ;
  };
  move(axle.links), move(axle.springs), move(axle.bump_stops), move(axle.dampers);
  axle.p_CW_l = moved * axle.p_CW_l;
  axle.p_CW_r = moved * axle.p_CW_r;
  axle.unsprung->p_CM = moved * axle.unsprung->p_CM;
  Pinion& pinion = *axle.pinion;
  const Eigen::Vector3d nose =
      moved.linear() * Eigen::Vector3d(std::cos(pinion.angle), 0.0, std::sin(pinion.angle));
  pinion.p_CY = moved * pinion.p_CY;
  pinion.angle = std::atan2(nose.z(), nose.x());
  return again;
}

TEST(Driveline, ALinkTurnedAsToldAndMeasuredAgainCancels) {
  const auto shaft = ReportOf(sample::HarbourVan());
  ASSERT_FALSE(shaft->report.cures.empty());
  for (const LinkCure& cure : shaft->report.cures) {
    const auto rig = Lengthened(shaft->rig, kRear, cure.links.members, cure.by);
    ASSERT_TRUE(rig);
    const Vehicle again = MeasuredAgain(shaft->vehicle, shaft->rig.axles[kRear].frame,
                                        rig->axles[kRear].measured.pose);
    const double was = std::abs(shaft->report.aim->turn);
    EXPECT_GT(was, 0.3 * kDegree);  // enough to tell from what is left
    // Five links hold it: their give goes into the lengths measured again, some hundredths of a
    // degree of the pinion.
    EXPECT_LT(std::abs(ReportOf(again)->report.aim->turn), 0.05 * kDegree) << cure.links.name;
  }
}

// With the front axle driven through a pinion whose yoke stands behind the wheels.
Vehicle FrontDriven() {
  Vehicle van = sample::HarbourVan();
  const Eigen::Vector3d hub = 0.5 * (van.axles[kFront].p_CW_l + van.axles[kFront].p_CW_r);
  van.axles[kFront].pinion = Pinion{hub + Eigen::Vector3d(-0.25, 0.0, 0.02), 4.0 * kDegree};
  Driveshaft shaft = van.driveshafts[0];
  shaft.axle = kFront;
  shaft.p_CO = hub + Eigen::Vector3d(-1.1, 0.0, 0.10);
  shaft.output_angle = -3.0 * kDegree;
  van.driveshafts = {shaft};
  return van;
}

TEST(Driveline, TorqueLowersAYokeBehindTheWheels) {
  const auto shaft = ReportOf(FrontDriven(), {.load = nullptr, .speed = {}, .torque = 3000.0});
  ASSERT_TRUE(shaft->report.pinion_up);
  EXPECT_LT(*shaft->report.pinion_up, 0.0);
}

TEST(Driveline, AYokeBehindTheWheelsTurnsToTheAimToo) {
  Vehicle van = FrontDriven();
  const double turn = ReportOf(van)->report.aim->turn;
  ASSERT_GT(std::abs(turn), 0.1 * kDegree);
  van.axles[kFront].pinion->angle += turn;
  EXPECT_NEAR(ReportOf(van)->report.aim->turn, 0.0, 1e-4);  // [rad] plan parts of the track bar
  van.driveshafts[0].pinion_low = -1.5 * kDegree;
  EXPECT_NEAR(ReportOf(van)->report.aim->turn, 1.5 * kDegree, 1e-4);  // wanted higher by so much
}

// Without dampers and stops only links end the travel, far beyond any axle's: no end to warn by.
TEST(Driveline, LinksAloneFarOffEndNothing) {
  Vehicle van = sample::HarbourVan();
  Axle& rear = van.axles[kRear];
  rear.dampers.clear(), rear.bump_stops.clear();
  for (Spring& spring : rear.springs) spring.solid_length.reset();
  const auto shaft = ReportOf(van);
  EXPECT_FALSE(shaft->report.droop);
  EXPECT_FALSE(shaft->report.bump);
  for (const ShaftPlace& place : shaft->report.travel) {
    EXPECT_LE(std::abs(place.travel), 0.1 + 1e-9);
  }
}

}  // namespace
}  // namespace linkwright
