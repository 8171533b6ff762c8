// SPDX-License-Identifier: MIT
#include "solver/model/force_law.h"

#include <gtest/gtest.h>

namespace linkwright {
namespace {

constexpr double kForceTol = 1e-9;    // [N] rounding of 1e4 N, times 1e3
constexpr double kEnergyTol = 1e-10;  // [J] rounding of 1e2 J, times 1e3

ForceLaw LinearCoil() { return {.free_length = 0.444, .rate = 26e3, .curve = {}}; }

// 75 mm cone of the reference vehicle's front axle: rates 46.7, 113.3, 373.3 N/mm.
ForceLaw Cone() {
  return {.free_length = 0.075,
          .rate = 0.0,
          .curve = {{0.0, 0.0}, {0.015, 700.0}, {0.030, 2400.0}, {0.045, 8000.0}}};
}

// A stop that touches only after 5 mm, and then with a jump.
ForceLaw Preloaded() {
  return {.free_length = 0.1, .rate = 0.0, .curve = {{0.005, 100.0}, {0.020, 1000.0}}};
}

TEST(ForceLaw, LinearPushIsRateTimesShortening) {
  const LawState state = Evaluate(LinearCoil(), 0.344);
  EXPECT_NEAR(state.force, 2600.0, kForceTol);
  EXPECT_NEAR(state.rate, 26e3, kForceTol);
  EXPECT_NEAR(state.energy, 130.0, kEnergyTol);
}

TEST(ForceLaw, NeverPulls) {
  for (const ForceLaw& law : {LinearCoil(), Cone(), Preloaded()}) {
    for (double longer : {0.0, 1e-12, 0.05}) {
      const LawState state = Evaluate(law, law.free_length + longer);
      EXPECT_EQ(state.force, 0.0);
      EXPECT_EQ(state.rate, 0.0);
      EXPECT_EQ(state.energy, 0.0);
    }
  }
}

TEST(ForceLaw, CurveMeetsItsOwnPoints) {
  for (const CurvePoint& point : Cone().curve) {
    EXPECT_NEAR(Evaluate(Cone(), 0.075 - point.deflection).force, point.force, kForceTol);
  }
}

TEST(ForceLaw, CurveIsStraightBetweenPoints) {
  const LawState state = Evaluate(Cone(), 0.075 - 0.0225);
  EXPECT_NEAR(state.force, 0.5 * (700.0 + 2400.0), kForceTol);
  EXPECT_NEAR(state.rate, 1700.0 / 0.015, 1e-6);  // [N/m] 1e5 N/m, rounding times 1e5
}

TEST(ForceLaw, RateChangesAtACornerAndNowhereElse) {
  const double corner = 0.075 - 0.015;  // [m]
  constexpr double kHair = 1e-9;        // [m]
  EXPECT_NEAR(Evaluate(Cone(), corner + kHair).rate, 700.0 / 0.015, 1e-6);
  EXPECT_NEAR(Evaluate(Cone(), corner - kHair).rate, 1700.0 / 0.015, 1e-6);
}

// The trapezium rule is exact on straight pieces, and the grid has every corner in it.
TEST(ForceLaw, EnergyIsTheIntegralOfForce) {
  constexpr double kGrid = 0.0005;  // [m] divides every deflection above
  for (const ForceLaw& law : {LinearCoil(), Cone()}) {
    double work = 0.0;
    for (int i = 0; i < 120; ++i) {
      const LawState from = Evaluate(law, law.free_length - i * kGrid);
      const LawState to = Evaluate(law, law.free_length - (i + 1) * kGrid);
      work += 0.5 * (from.force + to.force) * kGrid;
      EXPECT_NEAR(to.energy, work, kEnergyTol) << "deflection " << (i + 1) * kGrid;
    }
  }
}

TEST(ForceLaw, IsZeroBeforeItsFirstPoint) {
  EXPECT_EQ(Evaluate(Preloaded(), 0.1 - 0.004).force, 0.0);
  EXPECT_NEAR(Evaluate(Preloaded(), 0.1 - 0.005 - 1e-9).force, 100.0, 1e-4);  // 60 N/mm over 1 nm
}

TEST(ForceLaw, LastLineGoesOnBeyondTheLastPoint) {
  const double solid = SolidBelow(Cone());
  EXPECT_NEAR(solid, 0.030, 1e-15);
  EXPECT_NEAR(Evaluate(Cone(), solid - 0.003).force, 8000.0 + 0.003 * 5600.0 / 0.015, kForceTol);
}

TEST(ForceLaw, LinearSpringIsNeverSolid) { EXPECT_EQ(SolidBelow(LinearCoil()), 0.0); }

TEST(HelicalRate, ScalesAsItsPowers) {
  const CoilWire wire{0.014, 0.13, 6.0, 81.5e9};
  const double rate = HelicalRate(wire);
  CoilWire thick = wire, wide = wire, many = wire;
  thick.wire_diameter *= 2.0, wide.mean_diameter *= 2.0, many.active_coils *= 2.0;
  EXPECT_NEAR(HelicalRate(thick) / rate, 16.0, 1e-12);
  EXPECT_NEAR(HelicalRate(wide) / rate, 1.0 / 8.0, 1e-12);
  EXPECT_NEAR(HelicalRate(many) / rate, 0.5, 1e-12);
}

}  // namespace
}  // namespace linkwright
