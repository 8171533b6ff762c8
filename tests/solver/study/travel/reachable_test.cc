// SPDX-License-Identifier: MIT
// Where stops and straps let an axle go, and the dampers ordered for it, against every pair of
// wheel travels on a fine grid.
#include "solver/study/travel/reachable.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "solver/study/travel/travel_parts.h"
#include "solver/study/walk/paths.h"
#include "tests/solver/study/stood.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kReserve = 0.0127;  // [m]

// The reference vehicle with nothing alike left and right: one stop inboard, one damper leaning the
// other way and outboard.
Vehicle Unequal() {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    axle.bump_stops[1].span.p_CP += Eigen::Vector3d(0.02, 0.12, 0.03);
    axle.bump_stops[1].span.p_CQ += Eigen::Vector3d(0.02, 0.12, 0.01);
    axle.dampers[0].span.p_CP += Eigen::Vector3d(0.0, 0.10, 0.0);
    axle.dampers[0].span.p_CQ += Eigen::Vector3d(0.0, 0.14, 0.02);
  }
  return van;
}

// What a stop or strap that holds least has left: below 0 where the axle cannot get to.
double SlackAt(const Axle& axle, const AxleFrame& frame, const PartsAdvice& advice, size_t index,
               const Eigen::Isometry3d& X_CA, bool stops) {
  double least = 1.0;
  for (const StopAdvice& each : advice.stops) {
    for (const Stop& stop : axle.bump_stops) {
      if (!stops || each.axle != index || DisplayName(stop.name) != each.member) continue;
      const check::ConeByHand cone = check::ConeAt(stop, X_CA * frame.X_CA.inverse());
      least = std::min(least, cone.length - each.solid);
    }
  }
  for (const StrapAdvice& each : advice.straps) {
    if (stops || each.axle != index) continue;
    least = std::min(least, each.length - LengthAt(each.span, frame, X_CA));
  }
  return least;
}

LengthLimit HoldOf(const AxleFrame& frame, const Span& span, double length, bool stop) {
  const LimitKind kind = stop ? LimitKind::kStopSolid : LimitKind::kStrapTaut;
  return {{{kind}, "", "", LimitRole::kEndsRows},
          span.p_CP,
          OnHousing(frame, span.p_CQ),
          length,
          !stop};
}

class Reaching : public testing::Test {
 protected:
  Stood stood_{Unequal()};
  LimitsReport limits_ = FindLimits({stood_.rig, &stood_.stance});
  PartsAdvice advice_ = AdviseParts(stood_.rig, nullptr, &stood_.stance, limits_,
                                    {.split = {}, .bump = 0.070, .droop = 0.090}, kReserve);
  std::array<double, 2> start_ = StartOf(stood_.rig, &stood_.stance);
};

// Every pair of wheel travels on a grid that the axle can get to from rest without crossing a stop
// or a strap: a stop turned inside out far beyond is no place.
std::vector<Eigen::Isometry3d> Flooded(const Stood& stood, const PartsAdvice& advice, size_t index,
                                       double start, double spacing) {
  std::vector<Eigen::Isometry3d> poses;
  std::set<std::pair<int, int>> seen{{0, 0}};
  std::vector<std::pair<int, int>> open{{0, 0}};
  while (!open.empty()) {
    const auto [l, r] = open.back();
    open.pop_back();
    const auto X_CA = PoseAtTravels(stood.rig.axles[index], start, l * spacing, r * spacing);
    if (!X_CA) continue;
    const Axle& axle = stood.vehicle.axles[index];
    const AxleFrame& frame = stood.rig.axles[index].frame;
    if (SlackAt(axle, frame, advice, index, *X_CA, true) < 0.0) continue;
    if (SlackAt(axle, frame, advice, index, *X_CA, false) < 0.0) continue;
    poses.push_back(*X_CA);
    for (const auto& next :
         {std::pair(l + 1, r), std::pair(l - 1, r), std::pair(l, r + 1), std::pair(l, r - 1)}) {
      if (seen.insert(next).second) open.push_back(next);
    }
  }
  return poses;
}

TEST_F(Reaching, TheOrderHoldsForEveryPairOfWheelTravelsAndNoMore) {
  constexpr double kSpacing = 0.003;  // [m] of the grid
  for (size_t i = 0; i < 2; ++i) {
    const std::vector<Eigen::Isometry3d> poses = Flooded(stood_, advice_, i, start_[i], kSpacing);
    EXPECT_GT(poses.size(), 1000U);
    for (size_t d = 0; d < 2; ++d) {
      const Span& span = stood_.vehicle.axles[i].dampers[d].span;
      double least = 1.0, greatest = 0.0;
      for (const Eigen::Isometry3d& X_CA : poses) {
        const double length = LengthAt(span, stood_.rig.axles[i].frame, X_CA);
        least = std::min(least, length), greatest = std::max(greatest, length);
      }
      const DamperAdvice& damper = advice_.dampers[2 * i + d];
      // [m] corners are exact and between them directions 5 deg apart: 10 mm of a smooth edge
      constexpr double kBetween = 3e-5;
      EXPECT_GE(least, damper.closed + kReserve - kBetween) << damper.member;
      EXPECT_LE(greatest, damper.open - kReserve + kBetween) << damper.member;
      // [m] the nearest place of the grid is within two spacings, a damper's slope below 1.2
      EXPECT_NEAR(least, damper.closed + kReserve, 2.4 * kSpacing) << damper.member;
      EXPECT_NEAR(greatest, damper.open - kReserve, 2.4 * kSpacing) << damper.member;
    }
  }
}

TEST_F(Reaching, ADamperIsShortestWhereOneSideIsSolidAndTheOtherTaut) {
  // The left damper stands outboard of its stop, so that it goes shorter than with both wheels up.
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = stood_.vehicle.axles[i];
    const AxleFrame& frame = stood_.rig.axles[i].frame;
    Holds holds;
    for (const Stop& stop : axle.bump_stops) {
      for (const StopAdvice& each : advice_.stops) {
        if (each.axle == i && DisplayName(stop.name) == each.member) {
          holds.members.push_back(StopLimit({{LimitKind::kStopSolid}, "", "", LimitRole::kEndsRows},
                                            stop, frame, each.solid));
        }
      }
    }
    for (const StrapAdvice& each : advice_.straps) {
      if (each.axle == i) holds.members.push_back(HoldOf(frame, each.span, each.length, false));
    }
    const Reachable all = FindReachable(stood_.rig.axles[i], start_[i], holds);
    EXPECT_TRUE(all.followed);
    const Span& span = axle.dampers[0].span;
    const Eigen::Isometry3d& shortest =
        *std::min_element(all.poses.begin(), all.poses.end(), [&](const auto& a, const auto& b) {
          return LengthAt(span, frame, a) < LengthAt(span, frame, b);
        });
    const DamperAdvice& damper = advice_.dampers[2 * i];
    EXPECT_EQ(damper.least, LengthAt(span, frame, shortest));
    EXPECT_LT(damper.least, damper.at_bump - 0.002);
    constexpr double kCorner = 1e-9;  // [m] the corner is closed in on to 1e-10 rad of 0.2 m
    EXPECT_NEAR(SlackAt(axle, frame, advice_, i, shortest, true), 0.0, kCorner);
    EXPECT_NEAR(SlackAt(axle, frame, advice_, i, shortest, false), 0.0, kCorner);
  }
}

TEST(Reachable, WithoutHoldsEachWheelKeepsToItsOwnTravel) {
  const Stood stood(sample::HarbourVan());
  const Reachable all = FindReachable(stood.rig.axles[1], 0.0,
                                      {.members = {}, .bump = {0.05, 0.04}, .droop = {0.03, 0.06}});
  EXPECT_TRUE(all.followed);
  const AxleFrame& frame = stood.rig.axles[1].frame;
  std::array<double, 2> up{0.0, 0.0}, down{0.0, 0.0};
  for (const Eigen::Isometry3d& X_CA : all.poses) {
    for (size_t side = 0; side < 2; ++side) {
      const double y = (side == 0 ? 0.5 : -0.5) * frame.track;
      const double travel = (X_CA * Eigen::Vector3d(0.0, y, 0.0)).z() -
                            (frame.X_CA * Eigen::Vector3d(0.0, y, 0.0)).z();
      up[side] = std::max(up[side], travel), down[side] = std::min(down[side], travel);
    }
  }
  constexpr double kTol = 1e-9;  // [m] ends and corners are closed in on to 1e-10
  EXPECT_NEAR(up[0], 0.05, kTol);
  EXPECT_NEAR(up[1], 0.04, kTol);
  EXPECT_NEAR(down[0], -0.03, kTol);
  EXPECT_NEAR(down[1], -0.06, kTol);
}

// Three holds that meet between two of the directions looked in: both wheels' bump, and a stop in
// the middle that cuts the corner between them off by 1 mm. Each corner of the cut is a place.
TEST(Reachable, AThirdHoldBetweenTwoDirectionsHasItsCorners) {
  const Stood stood(sample::HarbourVan());
  const RigAxle& axle = stood.rig.axles[1];
  constexpr double kLeft = 0.0600, kRight = 0.0622;  // [m] their corner lies at 46 deg
  const Eigen::Vector3d hub = axle.frame.X_CA.translation();
  const Span middle{hub + Eigen::Vector3d(0.0, 0.0, 0.3), hub};
  const auto length = [&](double left, double right) {
    return (*PoseAtTravels(axle, 0.0, left, right) * OnHousing(axle.frame, middle.p_CQ) -
            middle.p_CP)
        .norm();
  };
  const double solid = length(kLeft - 0.0005, kRight - 0.0005);
  const Reachable all = FindReachable(axle, 0.0,
                                      {.members = {HoldOf(axle.frame, middle, solid, true)},
                                       .bump = {kLeft, kRight},
                                       .droop = {0.05, 0.05}});
  // By halves along each wheel's bound: where the stop is solid there.
  const auto corner = [&](const std::function<std::pair<double, double>(double)>& at) {
    double low = 0.0, high = 0.01;
    for (int i = 0; i < 60; ++i) {
      const double middle_of = 0.5 * (low + high);
      const auto [left, right] = at(middle_of);
      (length(left, right) < solid ? low : high) = middle_of;
    }
    return at(high);
  };
  for (const auto& [left, right] :
       {corner([&](double less) { return std::pair(kLeft, kRight - less); }),
        corner([&](double less) { return std::pair(kLeft - less, kRight); })}) {
    const Eigen::Vector3d there = PoseAtTravels(axle, 0.0, left, right)->translation();
    double nearest = 1.0;
    for (const Eigen::Isometry3d& X_CA : all.poses) {
      nearest = std::min(nearest, (X_CA.translation() - there).norm());
    }
    EXPECT_LT(nearest, 1e-8);  // [m] corners are closed in on to 1e-10 rad
  }
}

}  // namespace
}  // namespace linkwright
