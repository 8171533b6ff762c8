// SPDX-License-Identifier: MIT
// Cardan joints against printed tables.
#include "solver/geometry/driveshaft.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
using sample::kInch;

Eigen::Vector3d InPlane(double degrees) {
  return {-std::cos(degrees * kDegree), 0.0, std::sin(degrees * kDegree)};
}

double Single(double degrees) {
  return SpeedRipple(InPlane(degrees), InPlane(0.0), InPlane(0.0), 0.0, true, true);
}

// Greatest and least ratio and fluctuation tan b sin b per cent of one joint (GWB catalogue p. 38;
// extremes 1/cos and cos).
TEST(CardanJoint, TableOfFluctuation) {
  struct Row {
    double degrees, greatest, least, percent;
  };
  for (const Row& row : std::vector<Row>{{1, 1.000152, .999848, .0305},
                                         {3, 1.001372, .998630, .2743},
                                         {5, 1.003820, .996195, .7625},
                                         {8, 1.009828, .990268, 1.9560},
                                         {10, 1.015427, .984808, 3.0619},
                                         {15, 1.035276, .965926, 6.9350},
                                         {20, 1.064178, .939693, 12.4485},
                                         {30, 1.154701, .866025, 28.8675}}) {
    EXPECT_NEAR(100.0 * Single(row.degrees), row.percent, 5.1e-5);
    EXPECT_NEAR(Single(row.degrees), row.greatest - row.least, 1.1e-6);
  }
}

// Khurmi & Gupta, Theory of Machines, ch. 9, example 9.4: 12 % fluctuation at 19.64 deg (recomputed
// 19.6442); 9.5: 100 rpm in 1200 at 16.4 deg (16.4229).
TEST(CardanJoint, KhurmiExamples9_4And9_5) {
  EXPECT_NEAR(Single(19.6442), 0.12, 2e-6);
  EXPECT_NEAR(1200.0 * Single(16.4229), 100.0, 2e-3);
}

// Example 9.7: 500 rpm, two joints of 20 deg with the forks at right angles: 566.24 to 441.5 rpm
// (recomputed 566.2372, 441.5111).
TEST(CardanJoint, KhurmiExample9_7WrongPhase) {
  const double ripple =
      SpeedRipple(InPlane(20), InPlane(0), InPlane(20), 90.0 * kDegree, true, true);
  EXPECT_NEAR(500.0 * ripple, 566.2372 - 441.5111, 1e-4);
}

// European limit U = tan b sin b <= 0.0027: 2.977 deg (elbe-group.de, technical notes 3).
TEST(CardanJoint, EuropeanLimit) { EXPECT_NEAR(Single(2.977), 0.0027, 1e-6); }

// Two joints in one plane: what is left is a single joint of sqrt(|a^2 - b^2|) (SAE AE-7, 3.1.1;
// small angles, so 1 % here).
TEST(CardanJoint, ResidualAngleOfTwoInOnePlane) {
  for (const auto& [a, b] : std::vector<std::pair<double, double>>{{3, 1}, {5, 4}, {2, 4}}) {
    const double pair = SpeedRipple(InPlane(a), InPlane(0), InPlane(b), 0.0, true, true);
    EXPECT_NEAR(pair / Single(std::sqrt(std::abs(a * a - b * b))), 1.0, 0.01);
  }
}

// Angles of 2.15 deg in plan and 2.50 in side view make 3.3 together (a driveline maker's manual,
// p. 10; exact 3.29557).
TEST(CardanJoint, CompoundAngle) {
  const Eigen::Vector3d shaft(-1.0, std::tan(2.15 * kDegree), std::tan(2.50 * kDegree));
  const double ripple =
      SpeedRipple({-1.0, 0.0, 0.0}, shaft.normalized(), shaft.normalized(), 0.0, true, true);
  EXPECT_NEAR(ripple, Single(3.29557), 1e-8);
}

// Joints at (0, 18) and (-52, 14) in: 4.398705 deg, 52.153619 in; rear one at (-51.8, 17): 1.105959
// deg, plunge -0.343968 in (derived).
TEST(Driveshaft, LengthAnglesAndPlunge) {
  const auto evaluate = [](double x, double z) {
    Axle axle = sample::BareAxle("rear", -60.0 * kInch, 30.0 * kInch, 14.0 * kInch);
    axle.pinion = Pinion{kInch * Eigen::Vector3d(x, 0.0, z), 0.0};
    Driveshaft shaft{};
    shaft.p_CO = kInch * Eigen::Vector3d(0.0, 0.0, 18.0);
    const AxleFrame frame = PrepareAxle(axle);
    return EvaluateDriveshaft(shaft, axle, frame, frame.X_CA);
  };
  const DriveshaftState before = evaluate(-52.0, 14.0), after = evaluate(-51.8, 17.0);
  EXPECT_NEAR(before.length / kInch, 52.153619, 5e-7);
  EXPECT_NEAR(before.output_angle / kDegree, 4.398705, 5e-7);
  EXPECT_NEAR(before.axle_angle / kDegree, 4.398705, 5e-7);
  EXPECT_NEAR((after.length - before.length) / kInch, -0.343968, 5e-7);
  EXPECT_NEAR(after.output_angle / kDegree, 1.105959, 5e-7);
}

}  // namespace
}  // namespace linkwright
