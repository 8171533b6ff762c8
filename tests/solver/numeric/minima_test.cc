// SPDX-License-Identifier: MIT
#include "solver/numeric/minima.h"

#include <gtest/gtest.h>

#include <cmath>

namespace linkwright {
namespace {

TEST(LeastBetween, ClosesInOnASmoothLowPointAndOnACorner) {
  const auto smooth = [](double x) { return 3.0 + (x - 0.3) * (x - 0.3); };
  EXPECT_NEAR(LeastBetween(smooth, -1.0, 1.0, 1e-9).at, 0.3, 1e-7);  // the root of rounding
  EXPECT_NEAR(LeastBetween(smooth, -1.0, 1.0, 1e-9).value, 3.0, 1e-15);
  const auto corner = [](double x) { return std::max(0.3 - x, 2.0 * (x - 0.3)); };
  EXPECT_NEAR(LeastBetween(corner, -1.0, 1.0, 1e-9).at, 0.3, 1e-9);
}

// Two neighbours of all numbers have none between them: the search ends all the same.
TEST(LeastBetween, EndsWhereNumbersAreNoFiner) {
  const double a = 0.112977907593198646, b = std::nextafter(a, 1.0);
  const auto falling = [](double x) { return -x; };
  EXPECT_EQ(LeastBetween(falling, a, b, 1e-9 * (b - a)).at, b);
  EXPECT_GE(LeastOnInterval(falling, a, b, 3, 1e-9).at, a);
}

// Two dips, of which a coarse look sees the shallower one deeper.
double TwoDips(double x) {
  return 1.0 - std::exp(-400.0 * (x - 0.24) * (x - 0.24)) -
         0.9 * std::exp(-400.0 * (x - 0.70) * (x - 0.70));
}

TEST(LowPoints, AreEveryOneInsideInTheirOrder) {
  const auto found = LowPoints(TwoDips, 0.0, 1.0, 11);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NEAR(found[0].at, 0.24, 1e-6);
  EXPECT_NEAR(found[1].at, 0.70, 1e-6);
  EXPECT_TRUE(LowPoints([](double x) { return x; }, 0.0, 1.0, 11).empty());  // an end is none
}

TEST(LeastOnInterval, IsTheDeepestWhereverItLies) {
  EXPECT_LT(TwoDips(0.7), TwoDips(0.2));  // what samples a tenth apart see
  EXPECT_NEAR(LeastOnInterval(TwoDips, 0.0, 1.0, 11).at, 0.24, 1e-6);
  EXPECT_EQ(LeastOnInterval([](double x) { return x; }, 0.5, 2.0, 3).at, 0.5);
  EXPECT_NEAR(LeastOnInterval([](double x) { return -x; }, 0.5, 2.0, 3).at, 2.0, 1e-8);
  // Between the first two samples.
  EXPECT_NEAR(LeastOnInterval([](double x) { return std::abs(x - 0.55); }, 0.5, 2.0, 4).at, 0.55,
              1e-8);
}

}  // namespace
}  // namespace linkwright
