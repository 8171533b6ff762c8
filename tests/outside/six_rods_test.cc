// SPDX-License-Identifier: MIT
// Six rods of fixed length between two bodies, 40 real poses: P. Dietmaier, "The Stewart-Gough
// platform of general geometry can have 40 real postures", Advances in Robot Kinematics, Kluwer
// 1998, pp. 1 to 10. The rods are an axle's links; a published pose's height and roll are
// prescribed and the links find the other four, as in the program.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "solver/pose/link_equations.h"
#include "solver/pose/solve.h"
#include "tests/support/matchers.h"

namespace linkwright {
namespace {

// The file has nine decimals: a component off by 5e-10 is up to 0.9e-9 along a rod (position) and
// as much again for each turn (|B| to 1.6). The worst of the 240 lengths is 1.64e-9 by a separate
// script.
constexpr double kLengthTol = 2e-9;     // [-] lengths are near 1
constexpr double kPublishedTol = 1e-9;  // [-] poses as published, with twelve decimals
constexpr double kPoseTol = 1e-8;       // [-, rad] well-conditioned poses (1/cond > 5e-3)

AxleFrame SixRods() {
  const std::array<Eigen::Vector3d, 6> base{{{0, 0, 0},
                                             {1.107915, 0, 0},
                                             {0.549094, 0.756063, 0},
                                             {0.735077, -0.223935, 0.525991},
                                             {0.514188, -0.526063, -0.368418},
                                             {0.590473, 0.094733, -0.205018}}};
  const std::array<Eigen::Vector3d, 6> body{{{0, 0, 0},
                                             {0.542805, 0, 0},
                                             {0.956919, -0.528915, 0},
                                             {0.665885, -0.353482, 1.402538},
                                             {0.478359, 1.158742, 0.107672},
                                             {-0.137087, -0.235121, 0.353913}}};
  const std::array<double, 6> length{1, 0.645275, 1.086284, 1.503439, 1.281933, 0.771071};
  AxleFrame frame{};
  frame.track = 1.0;
  for (size_t i = 0; i < 6; ++i) frame.links.push_back({base[i], body[i], length[i], 5e6});
  return frame;
}

// Steer, roll and pitch of R = Rz(steer) Rx(roll) Ry(-pitch).
Pose PoseOf(const Eigen::Vector3d& n, const Eigen::Matrix3d& R) {
  return {.x = n.x(),
          .y = n.y(),
          .steer = std::atan2(-R(0, 1), R(1, 1)),
          .pitch = std::atan2(R(2, 0), R(2, 2)),
          .z = n.z(),
          .roll = std::asin(R(2, 1))};
}

std::vector<Pose> PublishedPoses() {
  std::ifstream file(LINKWRIGHT_REFERENCE "/six_rods_40_poses.csv");
  std::vector<Pose> poses;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || !std::isdigit(static_cast<unsigned char>(line[0]))) continue;
    std::vector<double> cells;
    std::stringstream cut(line);
    for (std::string cell; std::getline(cut, cell, ',');) cells.push_back(std::stod(cell));
    if (cells.size() != 9) continue;
    const Eigen::Quaterniond q(cells[5], cells[6], cells[7], cells[8]);
    poses.push_back(PoseOf({cells[2], cells[3], cells[4]}, q.normalized().toRotationMatrix()));
  }
  return poses;
}

TEST(SixRods, AllFortyPosesKeepTheRodsTheirLength) {
  const AxleFrame frame = SixRods();
  const std::vector<Pose> poses = PublishedPoses();
  ASSERT_EQ(poses.size(), 40u);
  for (size_t i = 0; i < poses.size(); ++i) {
    Eigen::Matrix<double, 6, 1> residuals;
    LinkResiduals(frame.links, poses[i], residuals.data(), nullptr);
    EXPECT_TRUE(check::Near(residuals, Eigen::Matrix<double, 6, 1>::Zero(), kLengthTol))
        << "pose " << i + 1;
  }
}

TEST(SixRods, PosesAreFortyDifferentOnes) {
  const std::vector<Pose> poses = PublishedPoses();
  for (size_t i = 0; i < poses.size(); ++i) {
    for (size_t k = 0; k < i; ++k) {
      EXPECT_GT((Transform(poses[i]).matrix() - Transform(poses[k]).matrix()).norm(), 1e-3);
    }
  }
}

struct Published {
  int number;
  Eigen::Vector3d n, a1, a2;
};

const std::vector<Published>& BestConditioned() {
  static const std::vector<Published> poses{{34,
                                             {0.968094275401, 0.236773416582, -0.082047688188},
                                             {0.108313821994, 0.512433497755, 0.851868549920},
                                             {-0.756895695744, -0.513035561503, 0.404849871430}},
                                            {12,
                                             {0.636111780657, 0.771451960370, 0.014955779862},
                                             {0.403995111058, -0.570369249047, -0.715169119847},
                                             {0.546802941038, -0.476187161523, 0.688659807796}},
                                            {39,
                                             {0.489122174358, 0.696229957967, -0.525379238437},
                                             {0.777174054077, -0.215031454973, 0.591406766144},
                                             {-0.628581348447, -0.220815627983, 0.745738524433}},
                                            {7,
                                             {0.535059805090, -0.749596111151, -0.389636593668},
                                             {0.275453499518, 0.490427569123, 0.826804795008},
                                             {0.958346562587, -0.207623649715, -0.196123140035}}};
  return poses;
}

Pose PoseOf(const Published& published) {
  Eigen::Matrix3d R;
  R << published.a1, published.a2, published.a1.cross(published.a2);
  return PoseOf(published.n, R);
}

TEST(SixRods, PublishedPosesKeepTheRodsTheirLength) {
  const AxleFrame frame = SixRods();
  for (const Published& published : BestConditioned()) {
    Eigen::Matrix<double, 6, 1> residuals;
    LinkResiduals(frame.links, PoseOf(published), residuals.data(), nullptr);
    EXPECT_TRUE(check::Near(residuals, Eigen::Matrix<double, 6, 1>::Zero(), kPublishedTol))
        << published.number;
  }
}

// Started beside, all unknowns off by 0.02, at the published height and roll.
TEST(SixRods, BestConditionedPosesAreFoundFromBeside) {
  const AxleFrame frame = SixRods();
  for (const Published& published : BestConditioned()) {
    const Pose expected = PoseOf(published);
    for (const double sign : {1.0, -1.0}) {
      Pose guess = expected;
      guess.x += 0.02 * sign, guess.y -= 0.02 * sign;
      guess.steer += 0.02 * sign, guess.pitch += 0.02 * sign;
      const PoseSolution solved = SolvePose(frame, guess);
      ASSERT_EQ(solved.status, SolveStatus::kConverged) << published.number;
      EXPECT_TRUE(check::Near(check::FourOf(solved.pose), check::FourOf(expected), kPoseTol))
          << published.number;
    }
  }
}

// Any four of the rods make an axle of four links: the walk from the published pose to another
// height and back returns to it, though six-rod problems have up to forty assemblies.
TEST(SixRods, WalkOnFourOfTheRodsKeepsItsAssembly) {
  int walked = 0;
  for (const Published& published : BestConditioned()) {
    const Pose expected = PoseOf(published);
    AxleFrame frame = SixRods();
    frame.links.resize(4);
    const PoseSolution start = SolvePose(frame, expected);
    ASSERT_EQ(start.status, SolveStatus::kConverged);
    const PoseSolution there =
        MovePose(frame, EvaluateMotion(frame, start.pose), expected.z + 0.02, expected.roll - 0.02);
    const PoseSolution back =
        MovePose(frame, EvaluateMotion(frame, there.pose), expected.z, expected.roll);
    if (there.status != SolveStatus::kConverged) continue;  // a dead point lies between
    ++walked;
    ASSERT_EQ(back.status, SolveStatus::kConverged);
    EXPECT_TRUE(check::Near(check::FourOf(back.pose), check::FourOf(start.pose), 1e-9))
        << published.number;
  }
  EXPECT_EQ(walked, 4);
}

}  // namespace
}  // namespace linkwright
