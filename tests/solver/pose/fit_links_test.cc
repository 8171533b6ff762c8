// SPDX-License-Identifier: MIT
// The other road: arms of their own lengths by a hand solve of four distances, by what moving every
// hole alike does, and by the strain's own minimum.
#include "solver/pose/fit_links.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/pose/motion.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

// The arms as they are in `before`, on holes that `move` has moved.
template <typename Move>
Axle Moved(const Axle& before, const Move& move) {
  Axle axle = before;
  move(axle);
  KeepArms(
      before, [](auto&, auto&) { return true; }, axle);
  return axle;
}

// A rigid housing by hand: x, y and the three angles of a general rotation about the housing centre
// as unknowns would be six; height and roll of the lateral axis are given. Newton on the four
// distances with a Jacobian by central differences, its own rotation written out.
Eigen::Vector4d HandSolve(const Axle& axle, const std::vector<double>& length) {
  const Eigen::Vector3d centre = 0.5 * (axle.p_CW_l + axle.p_CW_r);
  const Eigen::Vector3d u = (axle.p_CW_l - axle.p_CW_r).normalized();
  const auto distance = [&](const Eigen::Vector4d& q, size_t i) {
    // Turned by q[3] about its own lateral axis, then about z by q[2].
    const Eigen::Vector3d a = axle.links[i].span.p_CQ - centre;
    const Eigen::Vector3d pitched =
        a * std::cos(q[3]) - u.cross(a) * std::sin(q[3]) + u * u.dot(a) * (1.0 - std::cos(q[3]));
    const Eigen::Vector3d turned(pitched.x() * std::cos(q[2]) - pitched.y() * std::sin(q[2]),
                                 pitched.x() * std::sin(q[2]) + pitched.y() * std::cos(q[2]),
                                 pitched.z());
    const Eigen::Vector3d at = centre + Eigen::Vector3d(q[0], q[1], 0.0) + turned;
    return (at - axle.links[i].span.p_CP).norm();
  };
  Eigen::Vector4d q = Eigen::Vector4d::Zero();
  for (int n = 0; n < 50; ++n) {
    Eigen::Vector4d r;
    Eigen::Matrix4d J;
    for (size_t i = 0; i < 4; ++i) {
      const auto row = static_cast<Eigen::Index>(i);
      r[row] = distance(q, i) - length[i];
      for (int k = 0; k < 4; ++k) {
        Eigen::Vector4d step = Eigen::Vector4d::Zero();
        step[k] = 1e-6;
        J(row, k) = (distance(q + step, i) - distance(q - step, i)) / 2e-6;
      }
    }
    q -= J.fullPivLu().solve(r);
  }
  return q;
}

TEST(FitLinks, AHoleMovedBackSteersTheAxleAsFourDistancesSay) {
  const Axle before = sample::ThreeLinkTrackBar();
  ASSERT_EQ(before.links.size(), 4U);
  const Axle after =
      Moved(before, [](Axle& axle) { axle.links[0].span.p_CP.x() -= 0.375 * sample::kInch; });
  std::vector<double> length;
  for (const Link& link : before.links) length.push_back(MeasuredLength(link.span));
  const AxleFrame frame = PrepareAxle(after);
  const FittedPose fitted = MeasuredPose(after, frame);
  ASSERT_TRUE(fitted.pose);
  const Eigen::Vector4d hand = HandSolve(after, length);
  EXPECT_GT(std::abs(hand[2]), 1e-3);  // it steers
  EXPECT_NEAR(fitted.pose->x - frame.measured.x, hand[0], 1e-9);
  EXPECT_NEAR(fitted.pose->y - frame.measured.y, hand[1], 1e-9);
  EXPECT_NEAR(fitted.pose->steer - frame.measured.steer, hand[2], 1e-9);
  EXPECT_NEAR(fitted.pose->pitch, hand[3], 1e-9);
  EXPECT_EQ(fitted.pose->z, frame.measured.z);
}

TEST(FitLinks, EveryHoleMovedBackMovesTheAxleByThatAndNothingElse) {
  constexpr double kBack = 0.0137;
  for (const Axle& before :
       {sample::TriangulatedRear(), sample::ThreeLinkTrackBar(), sample::FourArmsTrackBar(4e5)}) {
    const Axle after = Moved(before, [](Axle& axle) {
      for (Link& link : axle.links) link.span.p_CP.x() -= kBack;
    });
    const AxleFrame frame = PrepareAxle(after);
    const FittedPose fitted = MeasuredPose(after, frame);
    ASSERT_TRUE(fitted.pose);
    EXPECT_NEAR(fitted.pose->x, frame.measured.x - kBack, 1e-9);
    EXPECT_NEAR(fitted.pose->y, frame.measured.y, 1e-9);
    EXPECT_NEAR(fitted.pose->steer, frame.measured.steer, 1e-9);
    EXPECT_NEAR(fitted.pose->pitch, 0.0, 1e-9);
  }
}

// Five links: the energy in them is stationary and least, by plain differences of its own sum.
TEST(FitLinks, FiveLinksSettleWhereTheStrainBetweenThemIsLeast) {
  const Axle before = sample::FourArmsTrackBar(4e5);
  const Axle after = Moved(before, [](Axle& axle) { axle.links[0].span.p_CP.x() -= 0.009; });
  const AxleFrame frame = PrepareAxle(after);
  const FittedPose fitted = MeasuredPose(after, frame);
  ASSERT_TRUE(fitted.pose);
  const auto energy = [&](const Pose& pose) {
    double sum = 0.0;
    for (size_t i = 0; i < before.links.size(); ++i) {
      const Eigen::Vector3d at = Transform(pose) * OnHousing(frame, after.links[i].span.p_CQ);
      const double stretch =
          (at - after.links[i].span.p_CP).norm() - MeasuredLength(before.links[i].span);
      sum += 0.5 * before.links[i].rate * stretch * stretch;
    }
    return sum;
  };
  const double least = energy(*fitted.pose);
  EXPECT_GT(least, 1.0);  // they fight
  constexpr double kStep = 1e-5;
  for (double Pose::*unknown : {&Pose::x, &Pose::y, &Pose::steer, &Pose::pitch}) {
    Pose up = *fitted.pose, down = *fitted.pose;
    up.*unknown += kStep, down.*unknown -= kStep;
    EXPECT_GT(energy(up), least);
    EXPECT_GT(energy(down), least);
    // A quadratic's two sides are alike to third order.
    EXPECT_NEAR(energy(up) - least, energy(down) - least, 1e-3 * (energy(up) - least));
  }
}

TEST(FitLinks, ArmsThatCannotBePutTogetherNameTheWorst) {
  const Axle before = sample::TriangulatedRear();
  Axle after = before;
  after.links[0].length = 0.01;
  const FittedPose fitted = MeasuredPose(after, PrepareAxle(after));
  EXPECT_FALSE(fitted.pose);
  EXPECT_EQ(fitted.worst, 0U);
  EXPECT_GT(fitted.short_by.value(), 0.01);
}

// An A-arm's two legs and a radius arm's shape go along with their holes like links do.
TEST(FitLinks, ArmsMovedWholeMoveTheAxleWhole) {
  Axle before = sample::TriangulatedRear();
  before.links.clear();
  const Eigen::Vector3d hub = 0.5 * (before.p_CW_l + before.p_CW_r);
  for (const double y : {0.4, -0.4}) {
    RadiusArm arm{};
    arm.name = {y > 0.0 ? "arm left" : "arm right"};
    arm.p_CP = hub + Eigen::Vector3d(0.9, y, 0.05);
    arm.p_CQ = {hub + Eigen::Vector3d(0.1, y, 0.08), hub + Eigen::Vector3d(-0.1, y, 0.02)};
    before.radius_arms.push_back(arm);
  }
  Link bar{};
  bar.name = {"track bar"};
  bar.span = {hub + Eigen::Vector3d(0.0, 0.5, 0.2), hub + Eigen::Vector3d(0.0, -0.5, 0.15)};
  before.links.push_back(bar);
  constexpr double kBack = 0.011;
  const Axle after = Moved(before, [](Axle& axle) {
    for (RadiusArm& arm : axle.radius_arms) arm.p_CP.x() -= kBack;
    axle.links[0].span.p_CP.x() -= kBack;
  });
  const AxleFrame frame = PrepareAxle(after);
  const FittedPose fitted = MeasuredPose(after, frame);
  ASSERT_TRUE(fitted.pose);
  EXPECT_NEAR(fitted.pose->x, frame.measured.x - kBack, 1e-9);
  EXPECT_NEAR(fitted.pose->y, frame.measured.y, 1e-9);
  EXPECT_NEAR(fitted.pose->pitch, 0.0, 1e-8);
}

}  // namespace
}  // namespace linkwright
