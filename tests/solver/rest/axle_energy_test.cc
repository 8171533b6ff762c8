// SPDX-License-Identifier: MIT
#include "solver/rest/axle_energy.h"

#include <gtest/gtest.h>

#include "solver/pose/solve.h"
#include "solver/rest/ride.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::SecondDifference;
using One = Eigen::Matrix<double, 1, 1>;

constexpr double kStep = 1e-3;      // [m, rad] stays within one piece of every curve below
constexpr double kSlopeTol = 1e-5;  // [N, N m] energy of 1e3 J to 1e-13 over 1 mm, times 1e2
constexpr double kCurveTol = 0.1;   // [N/m, N m/rad] the same over 1 mm squared, times 1e2

// Energy of coils and stops from seat distances, written again from the springs' definition.
double EnergyBySeats(const Axle& axle, const AxleFrame& frame, const Pose& pose) {
  const auto length = [&](const Span& span) {
    return (Transform(pose) * (frame.X_CA.inverse() * span.p_CQ) - span.p_CP).norm();
  };
  double sum = 0.0;
  for (const Spring& spring : axle.springs) {
    const double squeeze = std::max(0.0, spring.law.free_length - length(spring.span));
    sum += 0.5 * spring.law.rate * squeeze * squeeze;
  }
  for (const Stop& stop : axle.bump_stops) {
    const double squeeze = stop.law.free_length - length(stop.span);
    for (size_t i = 1; i < stop.law.curve.size(); ++i) {
      const CurvePoint a = stop.law.curve[i - 1], b = stop.law.curve[i];
      const double run = std::min(squeeze, b.deflection) - a.deflection;
      if (run <= 0.0) continue;
      const double force = a.force + (b.force - a.force) * run / (b.deflection - a.deflection);
      sum += 0.5 * (a.force + force) * run;
    }
  }
  return sum;
}

struct Case {
  Axle axle;
  double travel, roll;
};

// The reference van's axles: off the stops, both in the middle of a piece of theirs, and one side
// in.
std::vector<Case> Cases() {
  const Vehicle van = sample::HarbourVan();
  return {{van.axles[0], 0.01, 0.0},
          {van.axles[1], -0.03, 0.02},
          {van.axles[0], 0.047, 0.0},
          {van.axles[1], 0.043, 0.03},
          {van.axles[0], 0.03, -0.05}};
}

HousingMotion MotionAt(const AxleFrame& frame, double travel, double roll) {
  const PoseSolution moved = MovePose(frame, EvaluateMotion(frame, frame.measured),
                                      frame.measured.z + travel, frame.measured.roll + roll);
  EXPECT_EQ(moved.status, SolveStatus::kConverged);
  return EvaluateMotion(frame, moved.pose);
}

Pose Beside(const AxleFrame& frame, const Pose& from, double dz, double droll) {
  Pose guess = from;
  guess.z += dz, guess.roll += droll;
  return SolvePose(frame, guess).pose;
}

TEST(StoredEnergy, AndItsDerivativesAreThoseOfTheSeats) {
  for (const Case& c : Cases()) {
    const AxleFrame frame = PrepareAxle(c.axle);
    const HousingMotion motion = MotionAt(frame, c.travel, c.roll);
    const Taylor energy =
        StoredEnergy(c.axle, frame, PreparePushers(c.axle, frame), motion).springs;
    const auto at = [&](double dz, double dr) {
      return One(EnergyBySeats(c.axle, frame, Beside(frame, motion.pose, dz, dr)));
    };
    const auto by_z = [&](double s) { return at(s, 0.0); };
    const auto by_r = [&](double s) { return at(0.0, s); };
    const auto by_both = [&](double s) {
      return FirstDifference([&](double t) { return at(s, t); }, kStep);
    };
    EXPECT_NEAR(energy.v, at(0.0, 0.0)[0], 1e-9);  // [J]
    EXPECT_NEAR(energy.z, FirstDifference(by_z, kStep)[0], kSlopeTol);
    EXPECT_NEAR(energy.r, FirstDifference(by_r, kStep)[0], kSlopeTol);
    EXPECT_NEAR(energy.zz, SecondDifference(by_z, kStep)[0], kCurveTol);
    EXPECT_NEAR(energy.rr, SecondDifference(by_r, kStep)[0], kCurveTol);
    EXPECT_NEAR(energy.zr, FirstDifference(by_both, kStep)[0], kCurveTol);
  }
}

// Wheel rate per wheel is half the second derivative by both wheels' travel.
TEST(StoredEnergy, WheelRateIsHalfItsSecondDifference) {
  const Axle axle = sample::HarbourVan().axles[kRear];
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = MotionAt(frame, -0.02, 0.0);
  const auto by_z = [&](double s) {
    return One(EnergyBySeats(axle, frame, Beside(frame, motion.pose, s, 0.0)));
  };
  const double rate = WheelRate(StoredEnergy(axle, frame, PreparePushers(axle, frame), motion));
  EXPECT_NEAR(rate, 0.5 * SecondDifference(by_z, kStep)[0], kCurveTol);
  // Nearly upright coils of 29 N/mm over the wheels' line: within a tenth of their rate.
  EXPECT_NEAR(rate, 29e3, 2.9e3);
}

TEST(StoredEnergy, UnseatedCoilHoldsNothing) {
  Axle axle = sample::HarbourVan().axles[kRear];
  axle.bump_stops.clear();
  for (Spring& spring : axle.springs) spring.law.free_length = 0.20;
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = MotionAt(frame, 0.0, 0.0);
  const Taylor energy = StoredEnergy(axle, frame, PreparePushers(axle, frame), motion).springs;
  EXPECT_TRUE(check::Near(check::SixOf(energy), Eigen::Matrix<double, 6, 1>::Zero(), 0.0));
}

TEST(StoredEnergy, BarIsFreeInTheMeasuredStance) {
  Axle axle = sample::HarbourVan().axles[kFront];
  axle.p_CW_l.z() += 0.006;  // measured with the housing rolled a little
  const AxleFrame frame = PrepareAxle(axle);
  const auto bar = [&](double roll) {
    return StoredEnergy(axle, frame, PreparePushers(axle, frame), MotionAt(frame, 0.0, roll)).bar;
  };
  EXPECT_NEAR(bar(0.0).v, 0.0, 1e-20);
  EXPECT_NEAR(bar(0.0).r, 0.0, 1e-9);
  const double rate = 210.0 * 180.0 / M_PI;
  EXPECT_NEAR(bar(0.03).v, 0.5 * rate * 0.03 * 0.03, 1e-9);
  EXPECT_NEAR(bar(0.03).r, rate * 0.03, 1e-9);
  EXPECT_NEAR(bar(0.03).rr, rate, 1e-9);
  EXPECT_EQ(bar(0.03).z, 0.0);
}

TEST(MeanOfCoils, LeavesStopsOutAndTakesBothSides) {
  const Axle axle = sample::HarbourVan().axles[kFront];
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = MotionAt(frame, 0.02, 0.03);
  const auto mean = MeanOfCoils(PreparePushers(axle, frame), motion);
  ASSERT_TRUE(mean);
  double length = 0.0, force = 0.0;
  for (const Spring& spring : axle.springs) {
    const double l =
        (Transform(motion.pose) * OnHousing(frame, spring.span.p_CQ) - spring.span.p_CP).norm();
    length += 0.5 * l;
    force += 0.5 * 26e3 * (0.444 - l);
  }
  EXPECT_NEAR(mean->length, length, 1e-14);
  EXPECT_NEAR(mean->force, force, 1e-8);
}

TEST(MeanOfCoils, AbsentWithoutCoils) {
  Axle axle = sample::HarbourVan().axles[kFront];
  axle.springs.clear();
  const AxleFrame frame = PrepareAxle(axle);
  EXPECT_FALSE(MeanOfCoils(PreparePushers(axle, frame), MotionAt(frame, 0.0, 0.0)));
}

}  // namespace
}  // namespace linkwright
