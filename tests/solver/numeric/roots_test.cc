// SPDX-License-Identifier: MIT
#include "solver/numeric/roots.h"

#include <gtest/gtest.h>

#include <cmath>

namespace linkwright {
namespace {

constexpr double kMet = 1e-9;

// Slopes a thousand to one, as where a member meets an end that is stiffer than a coil.
TEST(CloseIn, TakesNoMoreThanTwiceHalvingWhereTheSlopeJumpsAtTheRoot) {
  for (double root : {0.1, 0.5, 0.999}) {
    for (double steep : {1.0, 1e3, 1e-3, 1e6}) {
      int looks = 0;
      const auto f = [&](double x) -> std::optional<double> {
        ++looks;
        return x < root ? root - x : steep * (root - x);
      };
      const SignChange closed = CloseIn(f, {0.0, *f(0.0), 1.0, *f(1.0)}, kMet);
      EXPECT_LE(closed.below - closed.above, kMet) << root << " " << steep;
      EXPECT_LE(closed.above, root);
      EXPECT_GE(closed.below, root);
      EXPECT_LE(looks, 62) << "halving needs 30 for " << kMet;
    }
  }
}

TEST(CloseIn, TakesFewLooksOfASmoothFunctionEitherWayRound) {
  int looks = 0;
  const auto f = [&](double x) -> std::optional<double> {
    ++looks;
    return std::cos(x);
  };
  const double root = std::acos(0.0);
  const SignChange up = CloseIn(f, {0.0, 1.0, 3.0, std::cos(3.0)}, 1e-12);
  EXPECT_NEAR(up.above, root, 1e-12);
  EXPECT_LE(looks, 12);
  const SignChange down = CloseIn(f, {6.0, std::cos(6.0), 3.0, std::cos(3.0)}, 1e-12);
  EXPECT_NEAR(down.below, 3.0 * root, 1e-12);
}

// Beyond 0.7 the function is not defined, and below it has no root: what holds ends there.
TEST(CloseIn, EndsWhereTheFunctionIsDefinedNoFurther) {
  const auto f = [](double x) -> std::optional<double> {
    if (x > 0.7 && x < 0.9) return std::nullopt;
    return x < 0.8 ? 1.0 : -1.0;
  };
  const SignChange closed = CloseIn(f, {0.0, 1.0, 1.0, -1.0}, kMet);
  EXPECT_NEAR(closed.above, 0.7, 2.0 * kMet);
  EXPECT_GT(closed.below - closed.above, 0.1) << "nothing between them is defined";
}

TEST(LastThatHolds, IsTheLastPlaceInEitherDirection) {
  const auto holds = [](double x) { return std::abs(x) <= 0.3; };
  EXPECT_NEAR(LastThatHolds(0.0, 1.0, 1e-12, holds), 0.3, 1e-12);
  EXPECT_NEAR(LastThatHolds(0.0, -1.0, 1e-12, holds), -0.3, 1e-12);
  EXPECT_TRUE(holds(LastThatHolds(0.0, 1.0, 1e-3, holds)));
}

// x^3 = 2, from where the tangent would go far.
TEST(SecantRoot, FindsARootInShortSteps) {
  double last = 0.0;
  const auto f = [&](double x) -> std::optional<double> {
    EXPECT_LE(std::abs(x - last), 0.3 + 1e-12) << x;
    last = x;
    return x * x * x - 2.0;
  };
  const auto root =
      SecantRoot(f, {.first = 0.01, .second = 0.0, .met = 1e-11, .longest = 0.3, .most = 5.0});
  ASSERT_TRUE(root);
  EXPECT_NEAR(*root, std::cbrt(2.0), 1e-12);
  EXPECT_EQ(last, *root);  // what was asked last is the answer
}

TEST(SecantRoot, GivesUpBeyondTheMostAndWhereNothingIsDefined) {
  const SecantSearch search{.first = 0.01, .second = 0.0, .met = 1e-12, .longest = 0.3, .most = 1};
  EXPECT_FALSE(SecantRoot([](double x) -> std::optional<double> { return x - 1.2; }, search));
  EXPECT_TRUE(SecantRoot([](double x) -> std::optional<double> { return x - 1.0; }, search));
  EXPECT_FALSE(SecantRoot(
      [](double x) -> std::optional<double> {
        return x > 0.5 ? std::nullopt : std::optional(x - 0.8);
      },
      search));
  EXPECT_FALSE(SecantRoot([](double) -> std::optional<double> { return 1.0; }, search));
}

// x = 2 y, y = cos x: its root by another road, halving.
TEST(BroydenRoot, FindsWhatComesBackToItself) {
  const auto f = [](const Eigen::VectorXd& v) -> std::optional<Eigen::VectorXd> {
    return Eigen::VectorXd(Eigen::Vector2d(2.0 * v[1] - v[0], std::cos(v[0]) - v[1]));
  };
  const auto root = BroydenRoot(f, Eigen::Vector2d(0.5, 0.5), 1e-12);
  ASSERT_TRUE(root);
  const double x = LastThatHolds(0.0, 2.0, 1e-14, [](double s) { return s < 2.0 * std::cos(s); });
  EXPECT_NEAR((*root)[0], x, 1e-11);
  EXPECT_NEAR((*root)[1], 0.5 * x, 1e-11);
  EXPECT_FALSE(BroydenRoot([](auto&) { return std::optional<Eigen::VectorXd>(); },
                           Eigen::Vector2d(0.5, 0.5), 1e-12));
}

}  // namespace
}  // namespace linkwright
