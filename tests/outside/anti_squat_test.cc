// SPDX-License-Identifier: MIT
// Anti-squat of a live axle by the handbook's line and by statics of the links.
#include <gtest/gtest.h>

#include <Eigen/LU>

#include "solver/geometry/side_view.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using sample::kInch;

// Lower link (0, 10) to (25, 13), upper (0, 20) to (20, 18), wheelbase 110, centre of mass 24,
// inches; origin under the rear wheel centre, on the floor. Derived by two methods: crossing of the
// link lines with e/d l/h (Barton & Fieldhouse, Automotive Chassis Engineering, Springer 2018,
// section 3.11, eq. (3.63) to (3.69)), and the links as two-force members.
Axle RearOfTwoLinks(double wheel_centre_height) {
  Axle axle = sample::BareAxle("rear", 0.0, 30.0 * kInch, wheel_centre_height * kInch);
  sample::AddPair(axle.links, "lower", kInch * Eigen::Vector3d(25.0, 18.0, 13.0),
                  kInch * Eigen::Vector3d(0.0, 18.0, 10.0));
  sample::AddSingle(axle.links, "upper", kInch * Eigen::Vector3d(20.0, 0.0, 18.0),
                    kInch * Eigen::Vector3d(0.0, 0.0, 20.0));
  sample::AddSingle(axle.links, "bar", kInch * Eigen::Vector3d(0.0, 20.0, 15.0),
                    kInch * Eigen::Vector3d(0.0, -20.0, 15.0));
  return axle;
}

HousingMotion Measured(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  return EvaluateMotion(frame, frame.measured);
}

constexpr double kTol = 1e-9;         // [in, -] the reference's own
constexpr double kPrintedPct = 5e-5;  // [%] four decimals printed

TEST(AntiSquat, InstantCentre) {
  const auto centre = SideInstantCenter(Measured(RearOfTwoLinks(13.0)), Floor{});
  ASSERT_TRUE(centre);
  EXPECT_NEAR(centre->ahead / kInch, 500.0 / 11.0, kTol);   // 45.454545
  EXPECT_NEAR(centre->height / kInch, 170.0 / 11.0, kTol);  // 15.454545
}

TEST(AntiSquat, PercentOfTheHandbook) {
  for (const double wheel_centre : {11.0, 13.0, 16.5}) {  // torque stays in the axle: no matter
    const double slope =
        ContactSlope(Measured(RearOfTwoLinks(wheel_centre)), Floor{}, wheel_centre * kInch);
    const double percent = -100.0 * TransferShare(1.0, slope, 110.0, 24.0);
    EXPECT_NEAR(percent, 155.8333, kPrintedPct);
    EXPECT_NEAR(percent, 100.0 * 0.34 * 110.0 / 24.0, 1e-9);
  }
}

// The derived member forces for 1000 lbf at the tyre: lower 2014.3485 compression, upper 1004.9876
// tension, 340.000 lifted. Solved here from the members; its lift is what the slope says.
TEST(AntiSquat, LiftOfTheLinksAsTwoForceMembers) {
  const Eigen::Vector2d lower = Eigen::Vector2d(25.0, 3.0).normalized();
  const Eigen::Vector2d upper = Eigen::Vector2d(20.0, -2.0).normalized();
  // Horizontal balance and moments about the contact point.
  Eigen::Matrix2d M;
  M << lower.x(), upper.x(), -10.0 * lower.x(), -20.0 * upper.x();
  const Eigen::Vector2d tension = M.inverse() * Eigen::Vector2d(-1000.0, 0.0);
  EXPECT_NEAR(tension[0], -2014.3485, 5e-5);
  EXPECT_NEAR(tension[1], 1004.9876, 5e-5);
  const double lift = -(tension[0] * lower.y() + tension[1] * upper.y());
  EXPECT_NEAR(lift, 340.0, 1e-9);
  const double slope = ContactSlope(Measured(RearOfTwoLinks(13.0)), Floor{}, 13.0 * kInch);
  EXPECT_NEAR(-1000.0 * slope, lift, 1e-9);
  EXPECT_NEAR(-1000.0 * slope / (1000.0 * 24.0 / 110.0), 1.558333, 5e-7);
}

}  // namespace
}  // namespace linkwright
