// SPDX-License-Identifier: MIT
#include "solver/study/file/original.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/error.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTiny = 1e-12;  // [m] sums of lengths of a few metres
constexpr double kInch = 0.0254;
constexpr double kStep = 0.01;  // [m] of camber

// An invented rear spring: 51 in of leaf, sagged by 2 3/4 in of camber.
LeafSpring Rear() {
  LeafSpring spring;
  spring.p_DF = {-1.956, 0.508};
  spring.p_DS = {-3.225, 0.533};
  spring.shackle = 0.095;
  spring.arc_fixed = 0.640;
  spring.arc_shackled = 0.690;
  spring.clamped = 0.110;
  spring.eye_up = 0.021;
  spring.camber_new = 0.150;
  spring.camber_now = 0.080;
  spring.to_wheel = 0.052;
  return spring;
}

// Its shackle in front, so that it grows forward as it sags.
LeafSpring Front() {
  LeafSpring spring;
  spring.shackle_behind = false;
  spring.p_DF = {-0.450, 0.503};
  spring.p_DS = {0.478, 0.523};
  spring.shackle = 0.080;
  spring.arc_fixed = 0.478;
  spring.arc_shackled = 0.455;
  spring.clamped = 0.095;
  spring.eye_up = 0.018;
  spring.camber_new = 0.090;
  spring.camber_now = 0.074;
  spring.to_wheel = 0.048;
  return spring;
}

Vehicle WithSprings(bool front, bool rear) {
  Vehicle vehicle = sample::HarbourVan();
  vehicle.leaf_original = LeafOriginal{};
  if (front) vehicle.leaf_original->axles[kFront] = Front();
  if (rear) vehicle.leaf_original->axles[kRear] = Rear();
  return vehicle;
}

// Common practice: about an inch of wheelbase on a sagged spring of a 100-odd-inch wheelbase.
TEST(ReportOriginal, ASaggedSpringIsAboutAnInchOfWheelbase) {
  const OriginalReport report = ReportOriginal(WithSprings(false, true), kStep);
  ASSERT_EQ(report.axles.size(), 1U);
  EXPECT_NEAR(report.change, kInch, 0.3 * kInch);  // "about"
  EXPECT_NEAR(report.axles[0].moved.x(), -report.change, kTiny);
}

// The handbook's link stands for the fixed half alone, seen from a clamp that does not tilt, eyes
// in line; there it is good to half a percent (0.13 % at a rise of 0.23 of its length).
TEST(ReportOriginal, TheLinkRuleIsTheFixedHalfSeenFromItsClamp) {
  const LeafAxle axle = ReportOriginal(WithSprings(false, true), kStep).axles[0];
  LeafSpring in_line = Rear();
  in_line.eye_up = 0.0;
  const double half = BendLeaf(in_line, axle.fresh.curvature).p_BF.x() -
                      BendLeaf(in_line, axle.now.curvature).p_BF.x();
  ASSERT_TRUE(axle.link_moved);
  EXPECT_LT(half, 0.0);
  EXPECT_NEAR(*axle.link_moved, half, 0.005 * std::abs(half));
}

TEST(ReportOriginal, BothAxlesMakeTheChange) {
  const OriginalReport report = ReportOriginal(WithSprings(true, true), kStep);
  ASSERT_EQ(report.axles.size(), 2U);
  EXPECT_GT(report.axles[0].moved.x(), 0.0);
  EXPECT_LT(report.axles[1].moved.x(), 0.0);
  EXPECT_NEAR(report.change, *report.now.along - *report.fresh.along, kTiny);
  EXPECT_NEAR(*DesignWheelbase(report), *report.fresh.centers, kTiny);
}

// The answers of another program in another language, which walks along the curved leaf by Simpson
// steps from the fixed eye and shoots for the shackle: docs/checks.md.
TEST(ReportOriginal, AgreesWithAnotherProgram) {
  constexpr double kOther = 1e-10;  // [m] 150 Simpson steps a part leave 1e-13 of it
  const OriginalReport report = ReportOriginal(WithSprings(true, true), kStep);
  const auto expect = [&](const Eigen::Vector2d& p, double x, double z) {
    EXPECT_NEAR(p.x(), x, kOther);
    EXPECT_NEAR(p.y(), z, kOther);
  };
  expect(report.axles[0].fresh.p_DW, 0.004106851373813, 0.336781878627380);
  expect(report.axles[0].now.p_DW, 0.009532319624691, 0.351397726459505);
  expect(report.axles[1].fresh.p_DW, -2.555246650053435, 0.272740012064736);
  expect(report.axles[1].now.p_DW, -2.581098095157335, 0.347609475831925);
}

TEST(ReportOriginal, TheMeasuredWheelbaseIsHeldAgainstThePoints) {
  Vehicle vehicle = WithSprings(true, true);
  vehicle.leaf_original->wheelbase_now = *ReportOriginal(vehicle, kStep).now.centers - 0.004;
  const OriginalReport report = ReportOriginal(vehicle, kStep);
  EXPECT_NEAR(*report.differs, 0.004, kTiny);
  EXPECT_NEAR(*report.from_measured, *report.fresh.centers - 0.004, kTiny);
}

TEST(ReportOriginal, OneSpringNeedsTheMeasuredWheelbase) {
  Vehicle vehicle = WithSprings(false, true);
  EXPECT_FALSE(DesignWheelbase(ReportOriginal(vehicle, kStep)));
  vehicle.leaf_original->wheelbase_now = 2.6;
  const OriginalReport report = ReportOriginal(vehicle, kStep);
  EXPECT_NEAR(*DesignWheelbase(report), 2.6 - report.change, kTiny);
  for (const CamberGuess& guess : report.axles[0].guesses) {
    EXPECT_NEAR(*guess.wheelbase, 2.6 + guess.moved.x(), kTiny);
  }
}

TEST(ReportOriginal, TheGuessInTheMiddleIsTheAnswer) {
  const OriginalReport report = ReportOriginal(WithSprings(true, true), kStep);
  for (const LeafAxle& axle : report.axles) {
    ASSERT_EQ(axle.guesses.size(), 7U);
    EXPECT_NEAR((axle.guesses[3].moved - axle.moved).norm(), 0.0, kTiny);
    EXPECT_NEAR(*axle.guesses[3].wheelbase, *report.fresh.centers, kTiny);
    EXPECT_NEAR(axle.guesses[4].camber_new - axle.guesses[3].camber_new, kStep, kTiny);
  }
}

TEST(ReportOriginal, AnUnchangedSpringHasNotMoved) {
  Vehicle vehicle = WithSprings(true, true);
  for (auto& spring : vehicle.leaf_original->axles) spring->camber_now = spring->camber_new;
  const OriginalReport report = ReportOriginal(vehicle, kStep);
  EXPECT_EQ(report.change, 0.0);
  EXPECT_EQ(report.axles[0].moved.norm(), 0.0);
}

// Put the opening where the wheel of some other camber stood: that camber is found again.
TEST(ReportOriginal, FindsTheCamberThatCentredTheWheel) {
  Vehicle vehicle = WithSprings(false, true);
  const CamberGuess guess = ReportOriginal(vehicle, kStep).axles[0].guesses[5];
  vehicle.leaf_original->axles[kRear]->p_DB = guess.p_DW;
  const LeafAxle axle = ReportOriginal(vehicle, kStep).axles[0];
  ASSERT_TRUE(axle.camber_centred);
  EXPECT_NEAR(*axle.camber_centred, guess.camber_new, 1e-10);  // [m] a tenth of a nanometre
  EXPECT_NEAR((*axle.off_opening - (axle.fresh.p_DW - guess.p_DW)).norm(), 0.0, kTiny);
}

TEST(ReportOriginal, AnOpeningOutOfReachHasNoCamber) {
  Vehicle vehicle = WithSprings(false, true);
  vehicle.leaf_original->axles[kRear]->p_DB = Eigen::Vector2d(-3.0, 0.4);
  EXPECT_FALSE(ReportOriginal(vehicle, kStep).axles[0].camber_centred);
}

TEST(ReportOriginal, NamesTheReadingThatCannotBe) {
  Vehicle vehicle = WithSprings(false, true);
  vehicle.leaf_original->axles[kRear]->camber_new = 0.7;
  try {
    (void)ReportOriginal(vehicle, kStep);
    FAIL() << "a camber beyond the leaf's length was taken";
  } catch (const ModelError& error) {
    EXPECT_THAT(error.part, testing::ElementsAre("leaf_original", "rear", "camber_new"));
    EXPECT_THAT(error.what(), testing::HasSubstr("cannot be bent so far"));
  }
  vehicle = WithSprings(false, true);
  vehicle.leaf_original->axles[kRear]->p_DS.x() = -3.5;
  try {
    (void)ReportOriginal(vehicle, kStep);
    FAIL() << "a shackle that cannot reach was taken";
  } catch (const ModelError& error) {
    EXPECT_THAT(error.part, testing::ElementsAre("leaf_original", "rear", "camber_new"));
    EXPECT_THAT(error.what(), testing::HasSubstr("cannot reach"));
  }
}

}  // namespace
}  // namespace linkwright
