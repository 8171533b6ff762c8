// SPDX-License-Identifier: MIT
// Distances from a tyre to its opening against brute force: dense samples of the solid's surface
// and of the lip, with nothing of the closed forms in them.
#include "solver/geometry/tire_clearance.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/geometry/steering.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [m] closed forms: a few roundings of metres

// A tyre steered and leaned, off every axis.
TireSolid Leaning() {
  const Eigen::AngleAxisd steer(0.31, Eigen::Vector3d::UnitZ());
  const Eigen::AngleAxisd lean(-0.07, Eigen::Vector3d::UnitX());
  return {.p_CW = {0.020, 0.745, 0.380},
          .axis_C = steer * lean * Eigen::Vector3d::UnitY(),
          .radius = 0.378,
          .half_width = 0.1175};
}

TireSolid Straight() {
  return {.p_CW = {0.020, 0.745, 0.380},
          .axis_C = Eigen::Vector3d::UnitY(),
          .radius = 0.378,
          .half_width = 0.1175};
}

// Points of a tyre's surface: around in `turns`, across and over the faces in `steps`.
template <typename F>
void ForSurface(const TireSolid& tire, int turns, int steps, const F& visit) {
  const Eigen::Vector3d one = tire.axis_C.cross(Eigen::Vector3d::UnitZ()).normalized();
  const Eigen::Vector3d two = tire.axis_C.cross(one);
  for (int i = 0; i < turns; ++i) {
    const double turn = 2.0 * M_PI * i / turns;
    const Eigen::Vector3d radial = std::cos(turn) * one + std::sin(turn) * two;
    for (int k = 0; k <= steps; ++k) {
      const double share = static_cast<double>(k) / steps;
      visit(tire.p_CW + tire.radius * radial + (2.0 * share - 1.0) * tire.half_width * tire.axis_C);
      for (const double face : {-1.0, 1.0}) {
        visit(tire.p_CW + share * tire.radius * radial + face * tire.half_width * tire.axis_C);
      }
    }
  }
}

double SampledDistance(const TireSolid& tire, const Eigen::Vector3d& p) {
  double least = 1e9;
  ForSurface(tire, 1440, 200,
             [&](const Eigen::Vector3d& q) { least = std::min(least, (q - p).norm()); });
  return least;
}

TEST(DistanceToTire, AgreesWithSamplesOfItsSurface) {
  const TireSolid tire = Leaning();
  // [m] samples 1.7 mm apart along the rim and 1.9 mm across: at a distance of 20 mm or more the
  // nearest sample is at most (1.3 mm)^2 / (2 x 20 mm) farther than the surface.
  constexpr double kSampling = 5e-5;
  for (const Eigen::Vector3d& p :
       {Eigen::Vector3d(0.30, 0.80, 0.75), Eigen::Vector3d(-0.10, 0.95, 0.40),
        Eigen::Vector3d(0.05, 0.50, 0.30), Eigen::Vector3d(0.45, 0.95, 0.30),
        Eigen::Vector3d(0.02, 0.75, 0.85)}) {
    const SolidDistance found = DistanceToTire(tire, p);
    EXPECT_GT(found.distance, 0.02);
    EXPECT_NEAR(found.distance, SampledDistance(tire, p), kSampling);
    EXPECT_NEAR((found.nearest - p).norm(), found.distance, kTol);
  }
}

TEST(DistanceToTire, IsNegativeInsideByTheWayOut) {
  const TireSolid tire = Leaning();
  const Eigen::Vector3d p = tire.p_CW + 0.05 * tire.axis_C;  // nearer to a face than to the tread
  EXPECT_NEAR(DistanceToTire(tire, p).distance, 0.05 - 0.1175, kTol);
  const Eigen::Vector3d radial = tire.axis_C.cross(Eigen::Vector3d::UnitZ()).normalized();
  const Eigen::Vector3d q = tire.p_CW + 0.36 * radial;  // 18 mm under the tread
  EXPECT_NEAR(DistanceToTire(tire, q).distance, -0.018, kTol);
  EXPECT_NEAR(DistanceToTire(tire, q).nearest.z(), tire.p_CW.z() + 0.378 * radial.z(), kTol);
}

TEST(GapToLip, OfAWheelThatStandsStraightIsTheDifferenceOfTwoCircles) {
  // The lip in the plane of the tyre: radii less the distance of the centres, at the point of the
  // arc on the line through both, here 3-4-5 in the upper half.
  TireSolid tire = Straight();
  const Opening opening{0.020 - 0.030, 0.380 - 0.040, 0.470, 0.745, std::nullopt};
  const auto gap = GapToLip(tire, opening, 0);
  ASSERT_TRUE(gap);
  EXPECT_NEAR(gap->distance, 0.470 - 0.050 - 0.378, 1e-10);  // [m] golden section to 1e-9 of pi
  EXPECT_NEAR(gap->around, std::atan2(0.040, 0.030), 1e-4);  // [rad] flat there: root of 1e-9
  EXPECT_EQ(gap->part, TirePart::kTread);
}

TEST(GapToLip, OfALipThatReachesAcrossIsThatInSideView) {
  const Opening opening{-0.010, 0.340, 0.470, std::nullopt, std::nullopt};
  const auto gap = GapToLip(Straight(), opening, 0);
  ASSERT_TRUE(gap);
  EXPECT_NEAR(gap->distance, 0.470 - 0.050 - 0.378, 1e-10);
}

TEST(GapToLip, AgreesWithSamplesOfLipAndTire) {
  const TireSolid tire = Leaning();
  for (const double lip_y : {0.790, 0.880, 0.930}) {
    const Opening opening{0.008, 0.372, 0.430, lip_y, std::nullopt};
    double sampled = 1e9;
    for (int i = 0; i <= 36000; ++i) {
      const double s = M_PI * i / 36000;
      const Eigen::Vector3d p(0.008 + 0.430 * std::cos(s), lip_y, 0.372 + 0.430 * std::sin(s));
      sampled = std::min(sampled, DistanceToTire(tire, p).distance);
    }
    for (int i = 0; i <= 20000; ++i) {
      for (const double x : {0.008 - 0.430, 0.008 + 0.430}) {
        sampled = std::min(sampled, DistanceToTire(tire, {x, lip_y, 0.372 - 5e-5 * i}).distance);
      }
    }
    const auto gap = GapToLip(tire, opening, 0);
    ASSERT_TRUE(gap);
    // [m] samples 0.04 mm apart: second order where the least is smooth, first order (half a
    // sample) on an edge of the tyre.
    EXPECT_NEAR(gap->distance, sampled, 2e-5);
    EXPECT_LE(gap->distance, sampled + 1e-9);
    EXPECT_NEAR((gap->p_CT - gap->p_CB).norm(), std::abs(gap->distance), 1e-9);
  }
}

TEST(GapToLip, InSideViewAgreesWithSamplesOfTheTire) {
  const TireSolid tire = Leaning();
  const Opening opening{0.008, 0.372, 0.430, std::nullopt, std::nullopt};
  double sampled = 1e9;
  ForSurface(tire, 7200, 2, [&](const Eigen::Vector3d& q) {
    const double dx = q.x() - opening.x, dz = q.z() - opening.z;
    sampled = std::min(sampled, 0.430 - (dz > 0.0 ? std::hypot(dx, dz) : std::abs(dx)));
  });
  const auto gap = GapToLip(tire, opening, 0);
  ASSERT_TRUE(gap);
  EXPECT_NEAR(gap->distance, sampled, 1e-6);  // [m] samples 0.33 mm apart, second order
}

TEST(GapToPanel, AgreesWithSamplesOfTheTire) {
  const Opening opening{0.008, 0.372, std::nullopt, std::nullopt, 0.560};
  const TireSolid tire = Leaning();
  double sampled = 1e9;
  ForSurface(tire, 7200, 2,
             [&](const Eigen::Vector3d& q) { sampled = std::min(sampled, q.y() - 0.560); });
  const auto gap = GapToPanel(tire, opening, 0);
  ASSERT_TRUE(gap);
  EXPECT_NEAR(gap->distance, sampled, 1e-6);
  EXPECT_NEAR(gap->p_CT.y() - 0.560, gap->distance, kTol);
  EXPECT_EQ(gap->part, TirePart::kInnerEdge);
  EXPECT_NEAR(GapToPanel(Straight(), opening, 0)->distance, 0.745 - 0.1175 - 0.560, kTol);
}

TEST(TireClearance, IsTheSameInAMirror) {
  TireSolid left = Leaning(), right = left;
  right.p_CW.y() *= -1.0;
  right.axis_C = {-left.axis_C.x(), left.axis_C.y(), -left.axis_C.z()};
  for (const auto& lip : {std::optional<double>(0.88), std::optional<double>()}) {
    const Opening opening{0.008, 0.372, 0.430, lip, 0.560};
    EXPECT_NEAR(GapToLip(left, opening, 0)->distance, GapToLip(right, opening, 1)->distance, 1e-9);
    EXPECT_NEAR(GapToPanel(left, opening, 0)->distance, GapToPanel(right, opening, 1)->distance,
                kTol);
  }
}

TEST(TireAt, SteersAboutTheKingpinAsAHandWouldDrawIt) {
  // Upright kingpin 80 mm inside the wheel: turned 30 degrees left, the hub swings on a circle of
  // that radius, back by 80 sin 30 and in by 80 (1 - cos 30).
  Axle axle = sample::BareAxle("front", 0.0, 0.745, 0.359);
  axle.kingpin = Kingpin{0.0, 0.0, Eigen::Vector3d(0.0, 0.665, 0.359)};
  const AxleFrame frame{.measured = {},
                        .track = 1.490,
                        .X_CA = Eigen::Isometry3d(Eigen::Translation3d(0.0, 0.0, 0.359)),
                        .links = {}};
  const double turn = M_PI / 6.0;
  const TireSolid tire = TireAt(axle, frame, {0.378, 0.235, false, false}, frame.X_CA, 0, turn);
  EXPECT_NEAR(tire.p_CW.x(), -0.080 * 0.5, kTol);
  EXPECT_NEAR(tire.p_CW.y(), 0.665 + 0.080 * std::cos(turn), kTol);
  EXPECT_NEAR(tire.axis_C.x(), -0.5, kTol);
  EXPECT_NEAR(tire.axis_C.y(), std::cos(turn), kTol);
}

TEST(ShapeOfTire, TakesTheMeasuredHeightAndADiscWhereTheFileIsSilent) {
  Vehicle van = sample::HarbourVan();
  EXPECT_EQ(ShapeOfTire(van, 0).radius, 0.378);
  EXPECT_FALSE(ShapeOfTire(van, 0).radius_assumed);
  van.axles[0].tire = {};
  const TireShape shape = ShapeOfTire(van, 0);
  EXPECT_NEAR(shape.radius, 0.359, kTol);
  EXPECT_EQ(shape.width, 0.0);
  EXPECT_TRUE(shape.radius_assumed && shape.width_assumed);
}

TEST(TapeAround, ReadsWhatATapeWould) {
  // Level with the hub the arc is sqrt(r^2 - dz^2) from its centre; above it, sqrt(r^2 - dx^2).
  const Opening opening{0.008, 0.362, 0.430, 0.870, std::nullopt};
  const TapeGaps gaps = TapeAround(Straight(), opening, 0);
  const double dx = 0.012, dz = 0.018;
  EXPECT_NEAR(*gaps.ahead, std::sqrt(0.430 * 0.430 - dz * dz) - dx - 0.378, kTol);
  EXPECT_NEAR(*gaps.behind, std::sqrt(0.430 * 0.430 - dz * dz) + dx - 0.378, kTol);
  EXPECT_NEAR(*gaps.above, std::sqrt(0.430 * 0.430 - dx * dx) - dz - 0.378, kTol);
  EXPECT_NEAR(*gaps.in_lip, 0.870 - 0.745 - 0.1175, kTol);
}

}  // namespace
}  // namespace linkwright
