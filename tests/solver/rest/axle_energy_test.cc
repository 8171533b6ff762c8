// SPDX-License-Identifier: MIT
#include "solver/rest/axle_energy.h"

#include <gtest/gtest.h>

#include "solver/pose/link_equations.h"
#include "solver/pose/solve.h"
#include "solver/rest/housing_work.h"
#include "solver/rest/ride.h"
#include "tests/support/cone_by_hand.h"
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

// Energy of coils from seat distances and of stops from cones cut by hand, written again from their
// definition.
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
    const check::ConeByHand cone = check::ConeAt(stop, Transform(pose) * frame.X_CA.inverse());
    if (!cone.on(stop)) continue;
    const double squeeze = stop.law.free_length - cone.length;
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
// in; then with their cones on the housing, and so far rolled that one side misses its pad.
std::vector<Case> Cases() {
  Vehicle van = sample::HarbourVan(), other = sample::HarbourVan(), narrow = sample::HarbourVan();
  for (Axle& axle : other.axles) {
    for (Stop& stop : axle.bump_stops) stop.cone_on_axle = true;
  }
  for (Stop& stop : narrow.axles[0].bump_stops) stop.pad_radius = 0.004;
  return {{van.axles[0], 0.01, 0.0},      {van.axles[1], -0.03, 0.02},
          {van.axles[0], 0.047, 0.0},     {van.axles[1], 0.043, 0.03},
          {van.axles[0], 0.03, -0.05},    {other.axles[0], 0.047, 0.0},
          {other.axles[1], 0.043, 0.03},  {other.axles[0], 0.03, -0.05},
          {narrow.axles[0], 0.048, 0.045}};
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

// One side beside its pad in the last case above: it carries nothing there, the other does.
TEST(StoredEnergy, AConeBesideItsPadHoldsNothing) {
  const Case c = Cases().back();
  const AxleFrame frame = PrepareAxle(c.axle);
  const HousingMotion motion = MotionAt(frame, c.travel, c.roll);
  Axle wide = c.axle;
  for (Stop& stop : wide.bump_stops) stop.pad_radius = 1.0;
  const auto stops = [&](const Axle& axle) {
    return StoredEnergy(axle, frame, PreparePushers(axle, frame), motion).stops.v;
  };
  int beside = 0;
  for (const Stop& stop : c.axle.bump_stops) {
    const check::ConeByHand cone =
        check::ConeAt(stop, Transform(motion.pose) * frame.X_CA.inverse());
    if (!cone.on(stop) && cone.length < stop.law.free_length) ++beside;
  }
  ASSERT_GT(beside, 0) << "every cone is on its pad: the test proves nothing";
  EXPECT_LT(stops(c.axle), stops(wide));
}

using Six = std::array<double, 6>;

// Work per unit of each coordinate of a housing that no link holds, of its stops alone.
template <typename T>
std::array<T, 6> WorkOfStops(const std::vector<Pusher>& pushers, const std::array<T, 6>& q) {
  HousingWork<T> work(q);
  for (const Pusher& pusher : pushers) {
    if (pusher.cone) AddStop(*pusher.law, *pusher.cone, work);
  }
  return work.work;
}

double EnergyOfStops(const Axle& axle, const AxleFrame& frame, const Six& q) {
  Axle alone = axle;
  alone.springs.clear();
  return EnergyBySeats(
      alone, frame, {.x = q[0], .y = q[1], .steer = q[2], .pitch = q[3], .z = q[4], .roll = q[5]});
}

// A push along the pad's normal where the axis meets it takes as much energy as the squeeze has,
// whichever of the six ways the housing goes; and its slope, which wind-up solves with.
TEST(WorkOfStops, IsTheEnergyItTakes) {
  for (const bool on_axle : {false, true}) {
    Axle axle = sample::HarbourVan().axles[kFront];
    for (Stop& stop : axle.bump_stops) stop.cone_on_axle = on_axle;
    const AxleFrame frame = PrepareAxle(axle);
    const std::vector<Pusher> pushers = PreparePushers(axle, frame);
    Six at = CoordinatesOf(frame.measured);
    at[0] += 0.010, at[1] -= 0.015, at[2] += 0.02, at[3] += 0.04, at[4] += 0.047, at[5] += 0.03;
    const Six work = WorkOfStops(pushers, at);
    const auto with_slope = WorkOfStops(pushers, Variables(at));
    ASSERT_GT(std::abs(work[4]), 500.0) << "[N] no stop is squeezed: the test proves nothing";
    for (size_t i = 0; i < 6; ++i) {
      const auto moved = [&](double s) {
        Six q = at;
        q[i] += s;
        return q;
      };
      const auto energy = [&](double s) { return One(EnergyOfStops(axle, frame, moved(s))); };
      EXPECT_NEAR(work[i], -FirstDifference(energy, 2e-4)[0], kSlopeTol) << i;
      for (size_t k = 0; k < 6; ++k) {
        const auto other = [&](double s) { return One(WorkOfStops(pushers, moved(s))[k]); };
        EXPECT_NEAR(with_slope[k].d[i], FirstDifference(other, 2e-4)[0], kCurveTol) << i << k;
      }
    }
  }
}

// Along a way of the housing the forces at the places where the axes meet their pads, each times
// how far the pad's stuff there goes, add up to what the stops have taken in.
TEST(WorkOfStops, AddsUpToTheEnergyAlongAWay) {
  for (const bool on_axle : {false, true}) {
    Axle axle = sample::HarbourVan().axles[kFront];
    for (Stop& stop : axle.bump_stops) {
      stop.cone_on_axle = on_axle;
      stop.law = {.free_length = stop.law.free_length, .rate = 60e3, .curve = {}};  // smooth
    }
    const AxleFrame frame = PrepareAxle(axle);
    const Eigen::Isometry3d back = frame.X_CA.inverse();
    const auto pose = [&](double s) {
      Pose p = frame.measured;
      p.x += 0.02 * std::sin(s), p.y += 0.03 * s * s, p.steer += 0.05 * s, p.pitch += 0.2 * s;
      p.z += 0.04 + 0.02 * s, p.roll += 0.15 * s;
      return Transform(p);
    };
    // Power at s by hand: the force at the meeting point, dotted with the velocity of the housing's
    // own point there.
    const auto power = [&](double s) {
      constexpr double kH = 1e-4;
      double sum = 0.0;
      for (const Stop& stop : axle.bump_stops) {
        const check::ConeByHand cone = check::ConeAt(stop, pose(s) * back);
        const double force = stop.law.rate * std::max(0.0, stop.law.free_length - cone.length);
        const Eigen::Vector3d own = pose(s).inverse() * cone.meets;
        const Eigen::Vector3d velocity = (pose(s + kH) * own - pose(s - kH) * own) / (2.0 * kH);
        sum -= force * cone.push.dot(velocity);
      }
      return sum;
    };
    constexpr int kSteps = 4000;  // Simpson; a stop that comes to touch bends the slope alone
    double integral = power(0.0) + power(1.0);
    for (int i = 1; i < kSteps; ++i)
      integral += (i % 2 == 1 ? 4.0 : 2.0) * power(double(i) / kSteps);
    integral /= 3.0 * kSteps;
    const auto energy = [&](double s) {
      const Eigen::Isometry3d X = pose(s);
      double sum = 0.0;
      for (const Pusher& pusher : PreparePushers(axle, frame)) {
        if (pusher.cone) sum += Evaluate(*pusher.law, PlaceOf(*pusher.cone, X).length).energy;
      }
      return sum;
    };
    ASSERT_GT(std::abs(energy(1.0) - energy(0.0)), 10.0) << "[J]";
    EXPECT_NEAR(integral, energy(1.0) - energy(0.0), 1e-4) << "[J]";
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
