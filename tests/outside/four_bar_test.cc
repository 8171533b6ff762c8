// SPDX-License-Identifier: MIT
// The side view of an axle on symmetrical links is a planar four-bar linkage: the frame is the
// ground link, the housing the coupler. Freudenstein's equation and the answers of Norton, Design
// of Machinery, example 4-1 (p. 194) and problems P4-1 (from memory, recomputed).
#include <gtest/gtest.h>

#include <cmath>

#include "solver/pose/solve.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;

struct Row {
  double ground, crank, coupler, rocker;  // [any length; scaled below]
  double crank_angle;                     // [deg]
  double theta3, theta4;                  // coupler and rocker [deg], printed
  double tolerance;                       // [deg] half a unit of the last printed digit
};

const std::vector<Row>& Table() {
  static const std::vector<Row> rows{
      // Example 4-1 at 30 deg: open, crossed; at 40 deg: open, crossed.
      {100, 40, 120, 80, 30, 22.409, 55.268, 6e-4},
      {100, 40, 120, 80, 30, -56.437, -89.296, 6e-4},
      {100, 40, 120, 80, 40, 20.298, 57.325, 6e-4},
      {100, 40, 120, 80, 40, -60.978, -98.005, 6e-4},
      // P4-1 a, e, g: the book's one decimal, recomputed to three.
      {6, 2, 7, 9, 30, 88.837, 117.286, 6e-4},
      {6, 2, 7, 9, 30, -115.211, -143.660, 6e-4},
      {8, 5, 8, 6, 75, 7.497, 78.212, 6e-4},
      {8, 5, 8, 6, 75, -79.021, -149.736, 6e-4},
      {6, 8, 8, 9, 25, -16.315, 7.236, 6e-4},
      {6, 8, 8, 9, 25, 155.720, 132.170, 6e-4}};
  return rows;
}

// Coupler pin A at the housing's centre; crank from the origin, rocker from (ground, 0). Each is a
// pair splayed in plan, so that both pairs hold the housing sideways and square without leaving the
// plane: an eye-to-eye length sqrt(planar^2 + splay^2) keeps the planar one.
AxleFrame FourBar(const Row& row, double scale) {
  AxleFrame frame{};
  frame.track = 1.0;
  const auto add_pair = [&](const Eigen::Vector2d& on_frame, const Eigen::Vector2d& on_housing,
                            double planar, double y_frame, double y_housing) {
    for (const double side : {1.0, -1.0}) {
      frame.links.push_back({{on_frame.x(), side * y_frame, on_frame.y()},
                             {on_housing.x(), side * y_housing, on_housing.y()},
                             std::hypot(planar, y_frame - y_housing),
                             5e6});
    }
  };
  add_pair({0.0, 0.0}, {0.0, 0.0}, scale * row.crank, 0.5, 0.2);
  add_pair({scale * row.ground, 0.0}, {scale * row.coupler, 0.0}, scale * row.rocker, 0.2, 0.5);
  return frame;
}

TEST(FourBar, NortonsAnswers) {
  for (const Row& row : Table()) {
    const double scale = 0.8 / std::max({row.ground, row.crank, row.coupler, row.rocker});
    const AxleFrame frame = FourBar(row, scale);
    const double crank = scale * row.crank;
    Pose guess;  // from the answer to the nearest 5 degrees: which assembly is meant, not where it
                 // is
    guess.z = crank * std::sin(row.crank_angle * kDegree);
    guess.x = 0.98 * crank * std::cos(row.crank_angle * kDegree);
    guess.pitch = std::round(row.theta3 / 5.0) * 5.0 * kDegree;
    const PoseSolution solved = SolvePose(frame, guess);
    ASSERT_EQ(solved.status, SolveStatus::kConverged) << row.theta3;
    EXPECT_NEAR(solved.pose.x, crank * std::cos(row.crank_angle * kDegree), 1e-10);
    EXPECT_NEAR(solved.pose.y, 0.0, 1e-10);
    EXPECT_NEAR(std::remainder(solved.pose.pitch / kDegree - row.theta3, 360.0), 0.0,
                row.tolerance);
    const Eigen::Vector3d pin =
        Transform(solved.pose) * Eigen::Vector3d(scale * row.coupler, 0.0, 0.0);
    const double theta4 = std::atan2(pin.z(), pin.x() - scale * row.ground);
    EXPECT_NEAR(std::remainder(theta4 / kDegree - row.theta4, 360.0), 0.0, row.tolerance);
  }
}

// Freudenstein's equation: K1 cos t4 - K2 cos t2 + K3 = cos(t2 - t4), K1 = d/a, K2 = d/c,
// K3 = (a^2 - b^2 + c^2 + d^2) / (2 a c), along a whole sweep of the crank.
TEST(FourBar, FreudensteinAlongASweep) {
  const Row& row = Table()[0];
  const double scale = 0.8 / 120.0;
  const AxleFrame frame = FourBar(row, scale);
  const double a = row.crank, b = row.coupler, c = row.rocker, d = row.ground;
  Pose start;
  start.x = scale * a * std::cos(30.0 * kDegree), start.z = scale * a * std::sin(30.0 * kDegree);
  start.pitch = 22.0 * kDegree;
  Pose pose = SolvePose(frame, start).pose;
  for (double t2 = -60.0; t2 <= 60.0; t2 += 5.0) {
    const PoseSolution moved =
        MovePose(frame, EvaluateMotion(frame, pose), scale * a * std::sin(t2 * kDegree), 0.0);
    ASSERT_EQ(moved.status, SolveStatus::kConverged) << t2;
    pose = moved.pose;
    const Eigen::Vector3d pin = Transform(pose) * Eigen::Vector3d(scale * b, 0.0, 0.0);
    const double t4 = std::atan2(pin.z(), pin.x() - scale * d);
    const double left = d / a * std::cos(t4) - d / c * std::cos(t2 * kDegree) +
                        (a * a - b * b + c * c + d * d) / (2.0 * a * c);
    EXPECT_NEAR(left, std::cos(t2 * kDegree - t4), 1e-9) << t2;
  }
}

}  // namespace
}  // namespace linkwright
