// SPDX-License-Identifier: MIT
#include "solver/geometry/travel_limits.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-14;  // [m]

double Left(const std::vector<TravelMargin>& margins, TravelEnd end, const std::string& member) {
  const auto at = std::find_if(margins.begin(), margins.end(), [&](const TravelMargin& margin) {
    return margin.end == end && margin.member == member;
  });
  EXPECT_NE(at, margins.end()) << member;
  return at == margins.end() ? -1.0 : at->left;
}

TEST(TravelLimits, MarginsOfTheReferenceVehicleAsMeasured) {
  const Vehicle van = sample::HarbourVan();
  const Axle& rear = van.axles[kRear];
  const AxleFrame frame = PrepareAxle(rear);
  const std::vector<TravelMargin> margins = TravelMargins(rear, frame, frame.X_CA);
  EXPECT_EQ(margins.size(), 8u);  // two dampers twice, two coils, two stops
  const double damper = Eigen::Vector3d(0.130, -0.070, 0.390).norm();
  for (const char* side : {"damper left", "damper right"}) {
    EXPECT_NEAR(Left(margins, TravelEnd::kDamperClosed, side), damper - 0.315, kTol);
    EXPECT_NEAR(Left(margins, TravelEnd::kDamperOpen, side), 0.505 - damper, kTol);
  }
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(Left(margins, TravelEnd::kCoilBound, "coil left"), coil - 0.120, kTol);
  const double cone = Eigen::Vector3d(0.001, 0.0, 0.102).norm();
  EXPECT_NEAR(Left(margins, TravelEnd::kStopSolid, "cone right"), cone - (0.067 - 0.040), kTol);
}

TEST(TravelLimits, WhatTheFileDoesNotGiveIsNotWatched) {
  Axle axle = sample::HarbourVan().axles[kRear];
  for (Damper& damper : axle.dampers) damper.shortest.reset(), damper.longest.reset();
  for (Spring& spring : axle.springs) spring.solid_length.reset();
  for (Stop& stop : axle.bump_stops) stop.law.curve.clear();
  const AxleFrame frame = PrepareAxle(axle);
  EXPECT_TRUE(TravelMargins(axle, frame, frame.X_CA).empty());
}

TEST(TravelLimits, CoilWithACurveIsBoundPastItsLastPoint) {
  Axle axle = sample::HarbourVan().axles[kRear];
  axle.springs[0].solid_length.reset();
  axle.springs[0].law.curve = {{0.0, 0.0}, {0.05, 1000.0}, {0.15, 5000.0}};
  const AxleFrame frame = PrepareAxle(axle);
  const double coil = Eigen::Vector3d(0.010, 0.010, 0.240).norm();
  EXPECT_NEAR(Left(TravelMargins(axle, frame, frame.X_CA), TravelEnd::kCoilBound, "coil left"),
              coil - (0.339 - 0.15), kTol);
}

TEST(TravelLimits, RowExactlyAtAnEndIsStillARow) {
  const auto past = [](double left) {
    return PastEnd({{TravelEnd::kDamperOpen, "damper left", left}}).has_value();
  };
  EXPECT_FALSE(past(0.0));
  EXPECT_FALSE(past(-0.99 * kEndTolerance));
  EXPECT_TRUE(past(-1.01 * kEndTolerance));
}

TEST(TravelLimits, TheOneFurthestPastItsEndIsNamed) {
  const auto past = PastEnd({{TravelEnd::kDamperOpen, "damper left", -0.001},
                             {TravelEnd::kStopSolid, "cone left", -0.004},
                             {TravelEnd::kCoilBound, "coil left", 0.010},
                             {TravelEnd::kDamperClosed, "damper right", -0.002}});
  ASSERT_TRUE(past);
  EXPECT_EQ(past->member, "cone left");
  EXPECT_FALSE(PastEnd({}));
}

TEST(TravelLimits, WordsForEveryEnd) {
  EXPECT_EQ(Describe({TravelEnd::kDamperClosed, "damper left", 0.0}),
            "damper left is fully closed");
  EXPECT_EQ(Describe({TravelEnd::kDamperOpen, "damper left", 0.0}), "damper left is fully open");
  EXPECT_EQ(Describe({TravelEnd::kCoilBound, "coil right", 0.0}), "coil right is coil-bound");
  EXPECT_EQ(Describe({TravelEnd::kStopSolid, "cone left", 0.0}), "cone left is solid");
  EXPECT_EQ(Describe({TravelEnd::kLinksStraight, "track bar", 0.0}),
            "its links line up and can follow no further (track bar holds it most)");
  EXPECT_EQ(Describe({TravelEnd::kDragLinkOutOfReach, "drag link", 0.0}),
            "the drag link cannot reach its knuckle");
}

}  // namespace
}  // namespace linkwright
