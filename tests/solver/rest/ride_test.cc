// SPDX-License-Identifier: MIT
#include "solver/rest/ride.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;

constexpr double kTol = 1e-12;     // [Hz, rad, -] rounding, times 1e4
constexpr double kRateTol = 1e-8;  // [N/m, N m/rad] rounding of 1e5, times 1e3

double Hertz(double stiffness, double mass) { return std::sqrt(stiffness / mass) / (2.0 * M_PI); }

TEST(Ride, TireInSeriesAddsCompliances) {
  Tire tire{};
  tire.rate = 200e3;
  EXPECT_NEAR(1.0 / RideRate(30e3, tire), 1.0 / 30e3 + 1.0 / 200e3, 1e-18);
  tire.rate.reset();
  EXPECT_EQ(RideRate(30e3, tire), 30e3);
}

TEST(Ride, FrequencyIsOfBothWheels) {
  EXPECT_TRUE(Holds(RideFrequency(25e3, 500.0), Hertz(50e3, 500.0), kTol));
}

TEST(Ride, NoFrequencyWithoutStiffnessOrMass) {
  EXPECT_FALSE(RideFrequency(0.0, 500.0));
  EXPECT_FALSE(RideFrequency(-1.0, 500.0));
  EXPECT_FALSE(RideFrequency(25e3, 0.0));
  EXPECT_FALSE(RideFrequency(25e3, -1.0));
}

// kf b = kr c: heave and pitch do not feel one another.
TEST(TwoModes, UncoupledWhereTheRatesBalance) {
  const double kf = 30e3, b = 1.2, c = 1.5, kr = kf * b / c, mass = 1100.0, inertia = 2500.0;
  const auto modes = TwoModes(kf, kr, b, c, mass, inertia);
  ASSERT_TRUE(modes);
  EXPECT_NEAR(modes->bounce, Hertz(kf + kr, mass), kTol);
  EXPECT_NEAR(modes->pitch, Hertz(kf * b * b + kr * c * c, inertia), kTol);
  EXPECT_GT(std::abs(modes->bounce_node), 1e6);
  EXPECT_NEAR(modes->pitch_node, 0.0, 1e-6);
}

// A dynamic index of 1: each end bounces on its own with the mass it carries.
TEST(TwoModes, DynamicIndexOfOneParts) {
  const double kf = 40e3, kr = 34e3, b = 1.3, c = 1.4, mass = 1200.0;
  const auto modes = TwoModes(kf, kr, b, c, mass, std::nullopt);
  ASSERT_TRUE(modes);
  EXPECT_TRUE(modes->inertia_assumed);
  const double front = Hertz(kf, mass * c / (b + c)), rear = Hertz(kr, mass * b / (b + c));
  // The front end moves about the rear axle, c behind the centre: Z/theta = c; the rear one about
  // the front axle: -b. Bounce is the one with the greater reach.
  EXPECT_NEAR(modes->bounce, front, kTol);
  EXPECT_NEAR(modes->pitch, rear, kTol);
  EXPECT_NEAR(modes->bounce_node, c, 1e-9);
  EXPECT_NEAR(modes->pitch_node, -b, 1e-9);
}

// The centre midway and an index of 1: both reach as far, and the lower one is bounce, whichever
// end it is.
TEST(TwoModes, OfEqualReachTheLowerOneIsBounce) {
  for (const auto& [kf, kr] : std::vector<std::pair<double, double>>{{30e3, 40e3}, {40e3, 30e3}}) {
    const auto modes = TwoModes(kf, kr, 1.35, 1.35, 1200.0, std::nullopt);
    ASSERT_TRUE(modes);
    EXPECT_NEAR(modes->bounce, Hertz(30e3, 600.0), kTol);
    EXPECT_NEAR(modes->pitch, Hertz(40e3, 600.0), kTol);
  }
}

// Each mode by itself: the equations of motion hold for its shape.
TEST(TwoModes, ShapesSatisfyTheEquationsOfMotion) {
  const double kf = 35e3, kr = 29e3, b = 1.1, c = 1.6, mass = 1150.0, inertia = 2100.0;
  const auto modes = TwoModes(kf, kr, b, c, mass, inertia);
  ASSERT_TRUE(modes);
  EXPECT_FALSE(modes->inertia_assumed);
  for (const auto& [hertz, node] :
       {std::pair{modes->bounce, modes->bounce_node}, std::pair{modes->pitch, modes->pitch_node}}) {
    const double w2 = std::pow(2.0 * M_PI * hertz, 2);
    const double front = node + b, rear = node - c;  // rise of either end per unit of nose-up pitch
    EXPECT_NEAR(kf * front + kr * rear, w2 * mass * node, 1e-6);
    EXPECT_NEAR(kf * front * b - kr * rear * c, w2 * inertia, 1e-6);
  }
}

TEST(TwoModes, AbsentWhereAModeHasNoStiffness) {
  EXPECT_FALSE(TwoModes(-1e3, 30e3, 1.2, 1.4, 1000.0, 1500.0));
  EXPECT_FALSE(TwoModes(0.0, 0.0, 1.2, 1.4, 1000.0, 1500.0));
  EXPECT_FALSE(
      TwoModes(30e3, 30e3, -0.1, 2.7, 1000.0, std::nullopt));  // centre ahead of the front axle
  EXPECT_TRUE(TwoModes(30e3, 30e3, -0.1, 2.7, 1000.0, 1500.0));
}

TEST(Roll, GradientTipsOverWhereTheWeightDoes) {
  const double overturning = 1000.0 * kStandardGravity * 0.5;  // [N m/rad]
  EXPECT_TRUE(Holds(RollGradient(5.0 * overturning, 1000.0, 0.5), 0.25 / kStandardGravity, kTol));
  EXPECT_TRUE(RollGradient(1.001 * overturning, 1000.0, 0.5));
  EXPECT_FALSE(RollGradient(overturning, 1000.0, 0.5));
  EXPECT_FALSE(RollGradient(0.999 * overturning, 1000.0, 0.5));
}

// Each tyre half a track from the middle: 2 k (t/2)^2, in series with the axle's own.
TEST(Roll, TiresInSeries) {
  Tire tire{};
  EXPECT_EQ(WithTires(30e3, tire, 1.5), 30e3);
  tire.rate = 220e3;
  EXPECT_NEAR(1.0 / WithTires(30e3, tire, 1.5), 1.0 / 30e3 + 1.0 / (2.0 * 220e3 * 0.75 * 0.75),
              1e-15);
}

// Upright coils: half their spacing squared, times rate, twice over; plus what the lean of a loaded
// coil takes away: the seats part sideways as the housing rolls. Here from a direct second
// difference of the coils' energy with the housing turned about its centre.
TEST(Roll, StiffnessOfCoilsOfTheLevelTruck) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const RigAxle& rear = rig.axles[kRear];
  const AxleEnergy energy =
      StoredEnergy(truck.axles[kRear], rear.frame, rear.pushers, rear.measured);
  const double k = 28e3, half = 0.42;
  EXPECT_NEAR(RollStiffness(energy, rear.measured), 2.0 * k * half * half, 0.12 * k * half * half);
  EXPECT_GT(std::abs(RollStiffness(energy, rear.measured) - 2.0 * k * half * half), kRateTol);
}

TEST(Roll, AntiRollBarAddsItsRate) {
  Vehicle truck = sample::LevelTruck();
  const auto stiffness = [](const Vehicle& vehicle) {
    const Rig rig = PrepareRig(vehicle);
    const RigAxle& axle = rig.axles[kFront];
    return RollStiffness(
        StoredEnergy(vehicle.axles[kFront], axle.frame, axle.pushers, axle.measured),
        axle.measured);
  };
  const double without = stiffness(truck);
  truck.axles[kFront].bar_roll_rate = 12e3;
  EXPECT_NEAR(stiffness(truck) - without, 12e3, kRateTol);
}

TEST(Ride, SprungMassOnAnAxleIsItsLoadLessItsOwnMass) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  Stance stance{};
  stance.wheel_load = {3000.0, 3100.0, 2000.0, 2050.0};
  EXPECT_NEAR(SprungMassOn(rig, stance, kFront), 6100.0 / kStandardGravity - 100.0, 1e-9);
  EXPECT_NEAR(SprungMassOn(rig, stance, kRear), 4050.0 / kStandardGravity - 100.0, 1e-9);
}

}  // namespace
}  // namespace linkwright
