// SPDX-License-Identifier: MIT
// Ride frequencies, body modes and roll gradient against handbook numbers.
#include "solver/rest/ride.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/masses.h"
#include "tests/support/matchers.h"

namespace linkwright {
namespace {

using check::Holds;

constexpr double kInch = 0.0254;                      // [m] exact
constexpr double kPoundPerInch = 175.12683524647636;  // [N/m] NIST SP 811 B.8

// f = (1/2 pi) sqrt(g / deflection): 3.127257 / sqrt(inches), which handbooks print as 3.13;
// derived.
TEST(RideFrequency, OfStaticDeflection) {
  const std::vector<std::pair<double, double>> table{
      {1, 3.1273}, {2, 2.2113},  {3, 1.8055},  {4, 1.5636},  {5, 1.3986},  {6, 1.2767},
      {8, 1.1057}, {10, 0.9889}, {12, 0.9028}, {15, 0.8075}, {20, 0.6993}, {40, 0.4945}};
  const double mass = 700.0;  // [kg] any
  for (const auto& [inches, hertz] : table) {
    const double per_wheel = 0.5 * mass * kStandardGravity / (inches * kInch);
    EXPECT_TRUE(Holds(RideFrequency(per_wheel, mass), hertz, 5e-5));
    EXPECT_TRUE(Holds(RideFrequency(per_wheel, mass), 3.127257 / std::sqrt(inches), 5e-7));
  }
}

// OpenStax College Physics, examples 16.4 and 16.6: 900 kg on 6.53e4 N/m, 1.36 Hz (output from
// memory; recomputed 1.355675).
TEST(RideFrequency, CarOfAPhysicsBook) {
  EXPECT_TRUE(Holds(RideFrequency(0.5 * 6.53e4, 900.0), 1.355675, 5e-7));
}

// Tyre in series, lb/in; derived.
TEST(RideRate, TireInSeries) {
  for (const auto& [spring, tire_rate, ride] : std::vector<std::array<double, 3>>{
           {100, 1000, 90.9091}, {143, 1198, 127.7509}, {200, 1200, 171.4286}}) {
    Tire tire{};
    tire.rate = tire_rate * kPoundPerInch;
    EXPECT_NEAR(RideRate(spring * kPoundPerInch, tire) / kPoundPerInch, ride, 5e-5);
  }
}

// Rao, Mechanical Vibrations, example 5.7 (inputs seen in a university tutorial, results from
// memory, recomputed): 1000 kg, radius of gyration 0.9 m, 18 and 22 kN/m at 1.0 m before and 1.5 m
// behind. Rao's theta is nose down where ours is nose up, so the node ratios change sign.
TEST(TwoModes, CarOfAVibrationsBook) {
  const auto modes = TwoModes(18e3, 22e3, 1.0, 1.5, 1000.0, 1000.0 * 0.9 * 0.9);
  ASSERT_TRUE(modes);
  EXPECT_NEAR(2.0 * M_PI * modes->bounce, 5.859292, 5e-7);
  EXPECT_NEAR(2.0 * M_PI * modes->pitch, 9.434089, 5e-7);
  EXPECT_NEAR(modes->bounce_node, 2.646110, 5e-7);
  EXPECT_NEAR(modes->pitch_node, -0.306110, 5e-7);
}

// Gillespie, Fundamentals of Vehicle Dynamics, ch. 5 example (inputs from memory, algebra
// recomputed with g = 386 in/s2): front 127 lb/in with 957 lb a tyre, rear 92.3 with 730, wheelbase
// 100.6 in, dynamic index 1.1: 1.1303 and 1.0684 Hz. Gillespie's Z is down and theta nose up: signs
// as printed there are turned.
TEST(TwoModes, CarOfADynamicsBook) {
  const double g = 386.0;                         // [in/s2] the book's
  const double mass = 2.0 * (957.0 + 730.0) / g;  // [lb s2/in]
  const double b = 43.5317, c = 57.0683;          // [in]
  const auto modes = TwoModes(2.0 * 127.0, 2.0 * 92.3, b, c, mass, 1.1 * mass * b * c);
  ASSERT_TRUE(modes);
  EXPECT_NEAR(modes->bounce, 1.1303, 5e-5);
  EXPECT_NEAR(modes->pitch, 1.0684, 5e-5);
  EXPECT_NEAR(std::abs(modes->pitch_node), 11.685, 1e-2);  // [in/rad] inputs to four digits
  EXPECT_NEAR(std::abs(modes->bounce_node), 233.86, 0.3);
}

// Barton & Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 174: 1280 kg sprung, 0.365
// m above the roll axis, 28 650 N m/rad: 0.0194 rad/(m/s2), 10.9 deg/g (recomputed with g = 9.81:
// 0.01941266). Ours has standard gravity: 1e-5 of it.
TEST(RollGradient, CarOfAChassisBook) {
  EXPECT_TRUE(Holds(RollGradient(28650.0, 1280.0, 0.365), 0.01941266, 2e-6));
}

// Coils s apart on a live axle: k s^2 / 2 (handbook form). 200 lb/in, 40 in: 160 000 in lb/rad;
// with tyres of the same form in series by compliances.
TEST(WithTires, HandbookRollStiffness) {
  Tire tire{};
  tire.rate = 200.0;  // any consistent units: lb/in, in
  EXPECT_NEAR(1.0 / (1.0 / WithTires(1e5, tire, 40.0) - 1.0 / 1e5), 160000.0, 1e-6);
}

}  // namespace
}  // namespace linkwright
