// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/geometry/driveshaft.h"
#include "solver/geometry/steering.h"
#include "solver/geometry/travel_limits.h"
#include "solver/pose/motion.h"
#include "solver/pose/solve.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [m, rad] a few roundings

const TravelMargin* Find(const std::vector<TravelMargin>& margins, TravelEnd end,
                         const std::string& member) {
  const auto at = std::find_if(margins.begin(), margins.end(), [&](const TravelMargin& margin) {
    return margin.end == end && margin.member == member;
  });
  return at == margins.end() ? nullptr : &*at;
}

TEST(WatchedMargins, OfTheReferenceVehicleAsMeasured) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].opening->inner_panel_y = 0.600;
  van.axles[kRear].links[0].misalignment_limit = 0.2;
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  const auto margins = WatchedMargins(van, kRear, frame, frame.X_CA);
  const auto left = [&](TravelEnd end, const std::string& member) {
    const TravelMargin* margin = Find(margins, end, member);
    EXPECT_NE(margin, nullptr) << member;
    return margin == nullptr ? -1.0 : margin->left;
  };
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(left(TravelEnd::kCoilUnseated, "coil left"), 0.339 - coil, kTol);
  EXPECT_TRUE(Find(margins, TravelEnd::kCoilUnseated, "coil left")->event);
  // Half the slip is left either way as measured (slip_left unless given).
  EXPECT_NEAR(left(TravelEnd::kShaftBottomed, "rear driveshaft"), 0.0275, kTol);
  EXPECT_NEAR(left(TravelEnd::kShaftParted, "rear driveshaft"), 0.0275, kTol);
  EXPECT_NEAR(left(TravelEnd::kJointAtLimit, "lower arm left, frame end"), 0.2, kTol);
  EXPECT_NEAR(left(TravelEnd::kTireOnPanel, "tyre right"), 0.745 - 0.1175 - 0.600, kTol);
  // Side view: 8 mm ahead of and 9 mm under its opening's centre, in the lower half of the outline.
  EXPECT_GT(left(TravelEnd::kTireOnLip, "tyre left"), 0.425 - std::hypot(0.008, 0.009) - 0.378);
  EXPECT_LT(left(TravelEnd::kTireOnLip, "tyre left"), 0.425 - 0.378);
}

TEST(WatchedMargins, ACoilKeptSeatedIsAnEnd) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].springs[0].keep_seated = true;
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  const auto margins = WatchedMargins(van, kRear, frame, frame.X_CA);
  EXPECT_FALSE(Find(margins, TravelEnd::kCoilUnseated, "coil left")->event);
  EXPECT_TRUE(Find(margins, TravelEnd::kCoilUnseated, "coil right")->event);
}

TEST(WatchedMargins, AShaftLosesWhatItsLengthLoses) {
  const Vehicle van = sample::HarbourVan();
  const Axle& rear = van.axles[kRear];
  const AxleFrame frame = PrepareAxle(rear);
  const HousingMotion measured = EvaluateMotion(frame, frame.measured);
  const PoseSolution up = MovePose(frame, measured, frame.measured.z + 0.060, 0.0);
  const Eigen::Isometry3d X_CA = Transform(up.pose);
  const Eigen::Vector3d yoke = X_CA * OnHousing(frame, rear.pinion->p_CY);
  const double longer = (yoke - van.driveshafts[0].p_CO).norm() -
                        (rear.pinion->p_CY - van.driveshafts[0].p_CO).norm();
  const auto margins = WatchedMargins(van, kRear, frame, X_CA);
  EXPECT_NEAR(Find(margins, TravelEnd::kShaftBottomed, "rear driveshaft")->left, 0.0275 + longer,
              kTol);
  EXPECT_NEAR(Find(margins, TravelEnd::kShaftParted, "rear driveshaft")->left, 0.0275 - longer,
              kTol);
}

TEST(TravelLimits, AStrapIsTautAtItsLength) {
  Axle axle = sample::HarbourVan().axles[kRear];
  axle.straps.push_back(
      {.name = {"strap"}, .span = {{-2.6, 0.3, 0.7}, {-2.6, 0.3, 0.4}}, .length = 0.42});
  axle.straps.push_back({.name = {"no length"}, .span = axle.straps[0].span, .length = {}});
  const AxleFrame frame = PrepareAxle(axle);
  const auto margins = TravelMargins(axle, frame, frame.X_CA);
  EXPECT_NEAR(Find(margins, TravelEnd::kStrapTaut, "strap")->left, 0.12, kTol);
  EXPECT_EQ(Find(margins, TravelEnd::kStrapTaut, "no length"), nullptr);
}

TEST(ReachLeft, IsZeroWhereTheKnuckleJustStopsFollowing) {
  const Axle front = sample::HarbourVan().axles[kFront];
  const AxleFrame frame = PrepareAxle(front);
  Knuckle knuckle = PrepareKnuckle(front, frame);
  const double left = ReachLeft(knuckle, frame.X_CA);
  ASSERT_GT(left, 0.0);
  const double length = knuckle.length;
  constexpr double kHair = 1e-7;  // [m] the root's slope is steep at the end of reach
  for (const double beyond : {-left - kHair, -left + kHair, left - kHair, left + kHair}) {
    knuckle.length = length + beyond;
    EXPECT_EQ(KnuckleTurn(knuckle, frame.X_CA).has_value(), ReachLeft(knuckle, frame.X_CA) > 0.0)
        << beyond;
  }
}

TEST(TurnInside, GivesTheWheelInsideTheBendItsSteer) {
  Axle front = sample::HarbourVan().axles[kFront];
  front.steering->tie_rod = TieRod{{-0.16, 0.61, 0.33}, {-0.16, -0.61, 0.33}};
  const AxleFrame frame = PrepareAxle(front);
  for (const double steer : {0.5, -0.5}) {
    const auto turns = TurnInside(front, frame, frame.X_CA, steer);
    ASSERT_TRUE(turns);
    const double side = steer > 0.0 ? 1.0 : -1.0;
    const KingpinAxis pin = PrepareKingpin(front, frame, side);
    const double turn = steer > 0.0 ? turns->left : turns->right;
    EXPECT_NEAR(HeadingOf(pin, turn, frame.X_CA) - HeadingOf(pin, 0.0, frame.X_CA), steer, kTol);
    // Arms that converge behind the axle turn the outer wheel less (Ackermann).
    const double outer = std::abs(steer > 0.0 ? turns->right : turns->left);
    EXPECT_LT(outer, std::abs(turn));
  }
  // A mirror image: the same turns on the other side.
  EXPECT_NEAR(TurnInside(front, frame, frame.X_CA, 0.5)->right,
              -TurnInside(front, frame, frame.X_CA, -0.5)->left, 1e-10);
}

}  // namespace
}  // namespace linkwright
