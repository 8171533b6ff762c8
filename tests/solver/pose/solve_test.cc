// SPDX-License-Identifier: MIT
#include "solver/pose/solve.h"

#include <gtest/gtest.h>

#include "solver/pose/link_equations.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kPoseTol = 1e-12;        // [m, rad] residuals 1e-15, times a condition of 1e3
constexpr double kArm = 0.6, kBar = 0.8;  // [m] trailing and cross links of the closed form

PoseSolution Move(const AxleFrame& frame, const Pose& from, double z, double roll) {
  return MovePose(frame, EvaluateMotion(frame, from), z, roll);
}

// k s^2 - s + z^2 = 0 with k = 1/4a^2 + 1/4b^2 and s the squared length of the translation:
// x = s/2a forward, y = -s/2b (the bar's axle end is on the left).
Eigen::Vector3d Translation(double z) {
  const double k = 0.25 / (kArm * kArm) + 0.25 / (kBar * kBar);
  const double s = 2.0 * z * z / (1.0 + std::sqrt(1.0 - 4.0 * k * z * z));
  return {0.5 * s / kArm, -0.5 * s / kBar, z};
}

TEST(SolvePose, EqualParallelLinksTranslateWithoutRotating) {
  const AxleFrame frame = PrepareAxle(sample::EqualParallelLinks(kArm, kBar));
  for (double travel : {-0.15, -0.08, -0.01, 0.0, 0.03, 0.10, 0.15}) {
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + travel, 0.0);
    ASSERT_EQ(moved.status, SolveStatus::kConverged) << travel;
    const Eigen::Vector3d went(moved.pose.x - frame.measured.x, moved.pose.y - frame.measured.y,
                               travel);
    EXPECT_TRUE(Near(went, Translation(travel), kPoseTol)) << travel;
    EXPECT_NEAR(moved.pose.steer, 0.0, kPoseTol);
    EXPECT_NEAR(moved.pose.pitch, 0.0, kPoseTol);
  }
}

// Trailing links so long that they only slide: the bar's end goes round a circle about its frame
// end.
TEST(SolvePose, TrackBarEndGoesRoundItsCircle) {
  Axle axle = sample::EqualParallelLinks(kArm, kBar);
  for (size_t i = 0; i < 3; ++i) axle.links[i].span.p_CP.x() = 1e3;  // [m]
  const AxleFrame frame = PrepareAxle(axle);
  constexpr double kSag = 1e-9;  // [m] the arms draw the axle 7e-6 m forward, which counts squared
  for (double travel : {-0.12, 0.09}) {
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + travel, 0.0);
    ASSERT_EQ(moved.status, SolveStatus::kConverged);
    EXPECT_NEAR(moved.pose.y, std::sqrt(kBar * kBar - travel * travel) - kBar, kSag);
  }
}

TEST(SolvePose, KeepsFourLinksAtTheirLength) {
  for (const Axle& axle : {sample::ThreeLinkTrackBar(), sample::TriangulatedRear()}) {
    const AxleFrame frame = PrepareAxle(axle);
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z - 0.09, 0.08);
    ASSERT_EQ(moved.status, SolveStatus::kConverged);
    for (const FrameLink& link : frame.links) {
      const double length = (Transform(moved.pose) * link.p_AQ - link.p_CP).norm();
      EXPECT_NEAR(length, link.length, 1e-11);  // [m] what kConverged promises
    }
  }
}

TEST(SolvePose, HoldsHeightAndRollExactly) {
  const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(5e6));
  const PoseSolution moved = Move(frame, frame.measured, 0.41, -0.03);
  EXPECT_EQ(moved.pose.z, 0.41);
  EXPECT_EQ(moved.pose.roll, -0.03);
}

// Links that agree need no strain: a fifth one copied from a mechanism's own motion changes
// nothing.
TEST(SolvePose, FifthLinkThatAgreesChangesNothing) {
  const Axle four = sample::EqualParallelLinks(kArm, kBar);
  Axle five = four;
  sample::AddSingle(five.links, "second upper arm", {kArm, -0.3, 0.52}, {0.0, -0.3, 0.52});
  const AxleFrame frame_4 = PrepareAxle(four), frame_5 = PrepareAxle(five);
  const PoseSolution a = Move(frame_4, frame_4.measured, frame_4.measured.z + 0.1, 0.0);
  const PoseSolution b = Move(frame_5, frame_5.measured, frame_5.measured.z + 0.1, 0.0);
  ASSERT_EQ(b.status, SolveStatus::kConverged);
  EXPECT_TRUE(Near(check::FourOf(b.pose), check::FourOf(a.pose), kPoseTol));
}

// No neighbour has less strain energy: checked in all four unknowns both ways.
TEST(SolvePose, FiveLinksRestWhereStrainIsLeast) {
  const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(4e5));
  const auto strain = [&](const Pose& pose) {
    Eigen::Matrix<double, 5, 1> r;
    LinkResiduals(frame.links, pose, r.data(), nullptr);
    double sum = 0.0;
    for (size_t i = 0; i < 5; ++i) {
      sum += 0.5 * frame.links[i].rate * r[static_cast<Eigen::Index>(i)] *
             r[static_cast<Eigen::Index>(i)];
    }
    return sum;
  };
  const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + 0.09, 0.08);
  ASSERT_EQ(moved.status, SolveStatus::kConverged);
  const double least = strain(moved.pose);
  ASSERT_GT(least, 0.01);
  for (double Pose::*unknown : {&Pose::x, &Pose::y, &Pose::steer, &Pose::pitch}) {
    for (double nudge : {-1e-6, 1e-6}) {
      Pose beside = moved.pose;
      beside.*unknown += nudge;
      EXPECT_GT(strain(beside), least);
    }
  }
}

// A soft bar gives way to the arms; a bar of no rate to speak of leaves the arms alone.
TEST(SolvePose, SofterBarLeavesTheArmsNearerTheirLengths) {
  double worst_before = 1.0;
  for (double rate : {5e6, 5e5, 5e4}) {
    const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(rate));
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + 0.09, 0.0);
    Eigen::Matrix<double, 5, 1> r;
    LinkResiduals(frame.links, moved.pose, r.data(), nullptr);
    const double worst = r.head<4>().cwiseAbs().maxCoeff();
    EXPECT_LT(worst, worst_before);
    worst_before = worst;
  }
}

TEST(SolvePose, FarFromAnyRootItSaysSo) {
  const AxleFrame frame = PrepareAxle(sample::EqualParallelLinks(kArm, kBar));
  Pose guess = frame.measured;
  guess.z += 0.7;  // beyond a = 0.6
  EXPECT_EQ(SolvePose(frame, guess).status, SolveStatus::kNotConverged);
}

TEST(MovePose, FarAndBackIsTheSamePose) {
  for (const Axle& axle : {sample::TriangulatedRear(), sample::ThreeLinkTrackBar(),
                           sample::FourArmsTrackBar(4e5), sample::FourArmsTrackBar(5e6)}) {
    const AxleFrame frame = PrepareAxle(axle);
    Pose pose = frame.measured;
    const std::array<std::array<double, 2>, 5> visits{
        {{0.16, 0.10}, {-0.14, 0.15}, {-0.15, -0.12}, {0.12, -0.16}, {0.0, 0.0}}};
    for (const auto& [travel, roll] : visits) {
      const PoseSolution moved = Move(frame, pose, frame.measured.z + travel, roll);
      ASSERT_EQ(moved.status, SolveStatus::kConverged) << travel << " " << roll;
      pose = moved.pose;
    }
    EXPECT_TRUE(Near(check::FourOf(pose), check::FourOf(frame.measured), kPoseTol));
  }
}

TEST(MovePose, PathDoesNotMatter) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  const double z = frame.measured.z + 0.12;
  const PoseSolution straight = Move(frame, frame.measured, z, 0.1);
  const PoseSolution corner = Move(frame, frame.measured, frame.measured.z - 0.1, 0.1);
  const PoseSolution round = Move(frame, corner.pose, z, 0.1);
  ASSERT_EQ(round.status, SolveStatus::kConverged);
  EXPECT_TRUE(Near(check::FourOf(round.pose), check::FourOf(straight.pose), kPoseTol));
}

TEST(MovePose, NoWayAtAllIsAWay) {
  for (const Axle& axle : {sample::ThreeLinkTrackBar(), sample::FourArmsTrackBar(4e5)}) {
    const AxleFrame frame = PrepareAxle(axle);
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + 0.1, 0.05);
    const PoseSolution stayed = Move(frame, moved.pose, moved.pose.z, moved.pose.roll);
    ASSERT_EQ(stayed.status, SolveStatus::kConverged);
    EXPECT_TRUE(Near(check::FourOf(stayed.pose), check::FourOf(moved.pose), kPoseTol));
  }
}

// The closed form has a root while 4 k z^2 <= 1: beyond 1/sqrt(1/a^2 + 1/b^2) the links cannot
// follow. With a short bar it is the bar that has come round; at the dead point it carries ten
// times the arms.
class DeadPoint : public testing::Test {
 protected:
  static constexpr double kLong = 0.8, kShort = 0.25;  // [m]
  AxleFrame frame = PrepareAxle(sample::EqualParallelLinks(kLong, kShort));
  double limit = 1.0 / std::sqrt(1.0 / (kLong * kLong) + 1.0 / (kShort * kShort));
};

TEST_F(DeadPoint, IsReachedFromBelow) {
  for (double short_of : {1e-3, 1e-4}) {
    const PoseSolution moved =
        Move(frame, frame.measured, frame.measured.z + limit - short_of, 0.0);
    EXPECT_EQ(moved.status, SolveStatus::kConverged) << short_of;
  }
}

TEST_F(DeadPoint, StopsTheWalkThereAndNamesTheBar) {
  // [m] the walk gives up where a step of 1e-7 m fails, which is within 1e-5 m of the fold
  constexpr double kGivesUp = 2e-5;
  for (double beyond : {1e-4, 0.02, 0.3}) {
    const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + limit + beyond, 0.0);
    ASSERT_EQ(moved.status, SolveStatus::kLinksStraight) << beyond;
    EXPECT_LE(moved.pose.z - frame.measured.z, limit + 1e-9);
    EXPECT_GE(moved.pose.z - frame.measured.z, limit - kGivesUp);
    ASSERT_TRUE(moved.blocking_link.has_value());
    EXPECT_EQ(*moved.blocking_link, 3u);
  }
}

// The other assembly of the same links lies past the fold; the walk must not land on it.
TEST_F(DeadPoint, WalkNeverLandsOnTheOtherAssembly) {
  const double travel = 0.97 * limit;
  const PoseSolution moved = Move(frame, frame.measured, frame.measured.z + travel, 0.0);
  ASSERT_EQ(moved.status, SolveStatus::kConverged);
  const double k = 0.25 / (kLong * kLong) + 0.25 / (kShort * kShort);
  const double near_root = (1.0 - std::sqrt(1.0 - 4.0 * k * travel * travel)) / (2.0 * k);
  const double far_root = (1.0 + std::sqrt(1.0 - 4.0 * k * travel * travel)) / (2.0 * k);
  ASSERT_GT(far_root - near_root, 0.02);
  EXPECT_NEAR(moved.pose.x - frame.measured.x, 0.5 * near_root / kLong, 1e-10);
}

// Five links that agree keep their length as far as four do, and end where those end: with the bar,
// which carries seven times what any arm does there.
TEST(MovePose, FiveLinksThatAgreeEndAtTheSameFold) {
  Axle axle = sample::EqualParallelLinks(0.5, 0.3);
  sample::AddSingle(axle.links, "second upper arm", {0.5, -0.3, 0.52}, {0.0, -0.3, 0.52});
  const AxleFrame frame = PrepareAxle(axle);
  const double limit = 1.0 / std::sqrt(1.0 / 0.25 + 1.0 / 0.09);
  const PoseSolution short_of = Move(frame, frame.measured, frame.measured.z + limit - 0.01, 0.0);
  ASSERT_EQ(short_of.status, SolveStatus::kConverged);
  Eigen::Matrix<double, 5, 1> r;
  LinkResiduals(frame.links, short_of.pose, r.data(), nullptr);
  EXPECT_TRUE(Near(r, Eigen::Matrix<double, 5, 1>::Zero(), 1e-11));
  const PoseSolution past = Move(frame, frame.measured, frame.measured.z + limit + 0.01, 0.0);
  ASSERT_EQ(past.status, SolveStatus::kLinksStraight);
  EXPECT_NEAR(past.pose.z - frame.measured.z, limit, 2e-5);  // [m] as in DeadPoint above
  ASSERT_TRUE(past.blocking_link.has_value());
  EXPECT_EQ(*past.blocking_link, 3u);
}

}  // namespace
}  // namespace linkwright
