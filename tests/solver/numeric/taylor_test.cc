// SPDX-License-Identifier: MIT
// Taylor arithmetic against ceres::Jet (first derivatives) and closed forms (second ones).
#include "solver/numeric/taylor.h"

#include <ceres/jet.h>
#include <gtest/gtest.h>

#include "tests/support/matchers.h"

namespace linkwright {
namespace {

using check::Near;
using check::SixOf;
using Jet = ceres::Jet<double, 2>;
using Six = Eigen::Matrix<double, 6, 1>;

constexpr double kTol = 1e-13;  // [-] rounding of numbers near 1, times 1e3
constexpr double kZ = 0.37, kR = -0.61;

const Taylor kTaylorZ{.v = kZ, .z = 1.0}, kTaylorR{.v = kR, .r = 1.0};

Six Expected(double v, double z, double r, double zz, double zr, double rr) {
  return (Six() << v, z, r, zz, zr, rr).finished();
}

// Uses every operation; the same text for both scalars.
template <typename T>
T Everything(const T& z, const T& r) {
  using std::asin;
  using std::cos;
  using std::sin;
  using std::sqrt;
  const T a = sin(z * r) + 2.0 * cos(z - r) * z;
  const T b = sqrt(z * z + r * r + 1.5) - 0.25;
  return -(a / b) + asin(0.5 * z * r) * (r + 3.0);
}

TEST(Taylor, FirstDerivativesAreThoseOfJets) {
  const Jet jet = Everything(Jet(kZ, 0), Jet(kR, 1));
  const Taylor taylor = Everything(kTaylorZ, kTaylorR);
  EXPECT_NEAR(taylor.v, jet.a, kTol);
  EXPECT_NEAR(taylor.z, jet.v[0], kTol);
  EXPECT_NEAR(taylor.r, jet.v[1], kTol);
}

// Jets are exact, so a central difference of theirs is good to h^2: 1e-10 with h = 1e-5.
TEST(Taylor, SecondDerivativesAreTheSlopesOfJets) {
  constexpr double kStep = 1e-5;
  const auto slopes = [](double z, double r) {
    const Jet jet = Everything(Jet(z, 0), Jet(r, 1));
    return Eigen::Vector2d(jet.v);
  };
  const Eigen::Vector2d along_z = (slopes(kZ + kStep, kR) - slopes(kZ - kStep, kR)) / (2.0 * kStep);
  const Eigen::Vector2d along_r = (slopes(kZ, kR + kStep) - slopes(kZ, kR - kStep)) / (2.0 * kStep);
  const Taylor taylor = Everything(kTaylorZ, kTaylorR);
  EXPECT_TRUE(Near(Eigen::Vector4d(taylor.zz, taylor.zr, taylor.zr, taylor.rr),
                   Eigen::Vector4d(along_z[0], along_z[1], along_r[0], along_r[1]), 1e-8));
}

TEST(Taylor, SineAndCosineOfAProduct) {
  const double p = kZ * kR, s = std::sin(p), c = std::cos(p);
  EXPECT_TRUE(Near(SixOf(sin(kTaylorZ * kTaylorR)),
                   Expected(s, kR * c, kZ * c, -kR * kR * s, c - p * s, -kZ * kZ * s), kTol));
  EXPECT_TRUE(Near(SixOf(cos(kTaylorZ * kTaylorR)),
                   Expected(c, -kR * s, -kZ * s, -kR * kR * c, -s - p * c, -kZ * kZ * c), kTol));
}

TEST(Taylor, QuotientZOverR) {
  EXPECT_TRUE(Near(SixOf(kTaylorZ / kTaylorR),
                   Expected(kZ / kR, 1.0 / kR, -kZ / (kR * kR), 0.0, -1.0 / (kR * kR),
                            2.0 * kZ / (kR * kR * kR)),
                   kTol));
}

// Distance from the origin: its Hessian is (I - n n') / d.
TEST(Taylor, RootOfASumOfSquaresIsADistance) {
  const double d = std::hypot(kZ, kR), a = kZ / d, b = kR / d;
  EXPECT_TRUE(Near(SixOf(sqrt(kTaylorZ * kTaylorZ + kTaylorR * kTaylorR)),
                   Expected(d, a, b, (1.0 - a * a) / d, -a * b / d, (1.0 - b * b) / d), kTol));
}

TEST(Taylor, ArcSineUndoesSine) {
  EXPECT_TRUE(Near(SixOf(asin(sin(kTaylorZ * kTaylorR))), SixOf(kTaylorZ * kTaylorR), kTol));
}

TEST(Taylor, SumsAndMultiplesAreLinear) {
  const Taylor sum = 2.0 * kTaylorZ + kTaylorR * 3.0 - kTaylorZ + 5.0 - 1.0;
  EXPECT_TRUE(Near(SixOf(-sum), Expected(-(kZ + 3.0 * kR + 4.0), -1.0, -3.0, 0.0, 0.0, 0.0), kTol));
}

}  // namespace
}  // namespace linkwright
