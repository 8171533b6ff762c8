// SPDX-License-Identifier: MIT
#include "io/write/reading.h"

#include <gtest/gtest.h>

namespace linkwright::check {
namespace {

using enum Dimension;
constexpr UnitSystem kMetric = UnitSystem::kMetric, kInch = UnitSystem::kInch;

Column Named(const char* name, Dimension dimension, const char* head = "") {
  return {name, head, dimension, "", ""};
}

TEST(Reading, SaysWhichWayInWordsAndNothingWhereATapeShowsNothing) {
  const Column rise = Named("body_rise_front", kLength);
  EXPECT_EQ(ReadOut(rise, 0.0084, kMetric), "8 mm up");
  EXPECT_EQ(ReadOut(rise, -0.0254, kInch), "1 in down");
  EXPECT_EQ(ReadOut(rise, 0.0004, kMetric), "none");
  EXPECT_EQ(ReadBare(rise, 0.0084, kMetric), "8 up");
  EXPECT_EQ(ReadOut(Named("rake", kAngle), 0.01, kMetric), "0.6 deg nose up");
  EXPECT_EQ(ReadOut(Named("roll", kAngle), -0.01, kMetric), "0.6 deg left down");
  EXPECT_EQ(ReadOut(Named("rear_lateral_shift", kLength), -0.003, kMetric), "3 mm right");
}

TEST(Reading, RollSteerHasItsWordByItsAxle) {
  EXPECT_EQ(ReadOut(Named("rear_roll_steer", kAngleRatio), 0.05, kMetric),
            "0.050 deg/deg understeer");
  EXPECT_EQ(ReadOut(Named("front_roll_steer", kAngleRatio), 0.05, kMetric),
            "0.050 deg/deg oversteer");
  EXPECT_FALSE(WaysOf(Named("front_roll_center_height", kLength)));
}

TEST(Reading, AWheelLoadIsWhatAScaleShows) {
  const Column load = Named("wheel_load_front_left", kForce);
  EXPECT_EQ(ReadOut(load, 4181.0, kMetric), "426 kg");
  EXPECT_EQ(ReadOut(load, 4448.2216152605, kInch), "1000 lb");
  EXPECT_EQ(DimensionRead(load), kMass);
  EXPECT_EQ(ReadOut(Named("front_spring_force", kForce), 4181.0, kMetric), "4181 N");
}

TEST(Reading, ChangesSayFartherWhichWayOrHowMuchMore) {
  EXPECT_EQ(ReadChange(Named("body_rise_rear", kLength), -0.002, kMetric), "2 down");
  EXPECT_EQ(ReadChange(Named("wheel_load_rear_left", kForce), 49.03325, kMetric), "5 more");
  EXPECT_EQ(ReadChange(Named("rear_ride_frequency", kFrequency), -0.04, kMetric), "0.04 less");
  const Column pinion = Named("rear_pinion_angle", kAngle);
  EXPECT_EQ(ReadFromTo(pinion, ToSi(5.6, kAngle, kMetric), ToSi(4.1, kAngle, kMetric), kMetric),
            "5.6 to 4.1 deg up");
  EXPECT_EQ(ReadFromTo(pinion, ToSi(5.6, kAngle, kMetric), ToSi(-4.1, kAngle, kMetric), kMetric),
            "5.6 deg up to 4.1 deg down");
}

// What is told apart: 1/16 in of a tape, 5 lb of a scale pad.
TEST(Reading, KnowsWhatInstrumentsTellApart) {
  EXPECT_DOUBLE_EQ(ReadsTo(Named("wheelbase", kLength), 2.5), 0.0254 / 16.0);
  EXPECT_DOUBLE_EQ(ReadsTo(Named("wheel_load_rear_left", kForce), 5000.0), 5.0 * 4.4482216152605);
}

TEST(Reading, AColumnOutsideItsGroupNamesItsAxle) {
  EXPECT_EQ(FullName(Named("rear_anti_squat", kPercent, "anti-squat")), "rear anti-squat");
  EXPECT_EQ(FullName(Named("front_ride_frequency", kFrequency, "front ride frequency")),
            "front ride frequency");
}

}  // namespace
}  // namespace linkwright::check
