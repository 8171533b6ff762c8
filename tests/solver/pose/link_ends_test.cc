// SPDX-License-Identifier: MIT
#include "solver/pose/link_ends.h"

#include <gtest/gtest.h>

#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [rad] rounding, times 1e4

// A level link along x whose axle end is the housing's centre.
struct Bench {
  AxleFrame frame{.measured = {}, .track = 1.5, .X_CA = Eigen::Isometry3d::Identity(), .links = {}};
  FrameLink link{.p_CP = {0.6, 0.0, 0.0}, .p_AQ = {0.0, 0.0, 0.0}, .length = 0.6, .rate = 5e6};
  Eigen::Vector3d bolt = UsualBolt(link, frame);
  [[nodiscard]] LinkTurn At(const Eigen::Isometry3d& X_CA) const {
    return TurnOfLink(frame, link, bolt, X_CA);
  }
};

Eigen::Isometry3d Turned(double angle, const Eigen::Vector3d& axis) {
  return Eigen::Isometry3d(Eigen::AngleAxisd(angle, axis));
}

TEST(UsualBolt, IsLevelAndSquareToTheLink) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  for (const FrameLink& link : frame.links) {
    const Eigen::Vector3d bolt = UsualBolt(link, frame);
    EXPECT_NEAR(bolt.z(), 0.0, kTol);
    EXPECT_NEAR(bolt.dot(frame.X_CA * link.p_AQ - link.p_CP), 0.0, kTol);
    EXPECT_NEAR(bolt.norm(), 1.0, kTol);
  }
}

TEST(UsualBolt, OfAnUprightLinkIsLateral) {
  Bench bench;
  bench.link.p_CP = {0.0, 0.0, 0.6};
  EXPECT_TRUE(check::Near(UsualBolt(bench.link, bench.frame), Eigen::Vector3d::UnitY(), kTol));
}

TEST(TurnOfLink, IsNoneInTheMeasuredStance) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  for (const FrameLink& link : frame.links) {
    const LinkTurn turn = TurnOfLink(frame, link, UsualBolt(link, frame), frame.X_CA);
    for (const JointTurn& joint : {turn.frame, turn.axle}) {
      EXPECT_NEAR(joint.swing, 0.0, kTol);
      EXPECT_NEAR(joint.twist, 0.0, kTol);
      EXPECT_NEAR(joint.misalignment, 0.0, kTol);
    }
  }
}

// The housing swings about the frame end without turning: both ends swing by the link's angle.
TEST(TurnOfLink, TranslatingHousingSwingsBothEnds) {
  const Bench bench;
  const double angle = 0.2;
  Eigen::Isometry3d X_CA = Eigen::Isometry3d::Identity();
  X_CA.translation() << 0.6 - 0.6 * std::cos(angle), 0.0, 0.6 * std::sin(angle);
  const LinkTurn turn = bench.At(X_CA);
  for (const JointTurn& joint : {turn.frame, turn.axle}) {
    EXPECT_NEAR(joint.swing, angle, kTol);
    EXPECT_NEAR(joint.twist, 0.0, kTol);
    EXPECT_NEAR(joint.misalignment, 0.0, kTol);
  }
}

TEST(TurnOfLink, HousingPitchingAboutItsEndSwingsThatEndOnly) {
  const Bench bench;
  const LinkTurn turn = bench.At(Turned(0.15, Eigen::Vector3d::UnitY()));
  EXPECT_NEAR(turn.frame.swing, 0.0, kTol);
  EXPECT_NEAR(turn.axle.swing, 0.15, kTol);
  EXPECT_NEAR(turn.axle.misalignment, 0.0, kTol);
}

// Roll about the link's own line: shared, and each bore stands off its bolt by its share.
TEST(TurnOfLink, RollTwistsBothEndsAlike) {
  const Bench bench;
  const LinkTurn turn = bench.At(Turned(0.2, Eigen::Vector3d::UnitX()));
  EXPECT_NEAR(std::abs(turn.frame.twist), 0.1, kTol);
  EXPECT_NEAR(turn.axle.twist, -turn.frame.twist, kTol);
  EXPECT_NEAR(turn.frame.misalignment, 0.1, kTol);
  EXPECT_NEAR(turn.axle.misalignment, 0.1, kTol);
  EXPECT_NEAR(turn.frame.swing, 0.0, kTol);
}

// Steer about the link's axle end: that end's bolt turns under it, square to bolt and link.
TEST(TurnOfLink, SteerIsMisalignmentAtTheAxle) {
  const Bench bench;
  const LinkTurn turn = bench.At(Turned(0.1, Eigen::Vector3d::UnitZ()));
  EXPECT_NEAR(turn.axle.misalignment, 0.1, kTol);
  EXPECT_NEAR(turn.axle.swing, 0.0, kTol);
  EXPECT_NEAR(turn.axle.twist, 0.0, kTol);
  EXPECT_NEAR(turn.frame.misalignment, 0.0, kTol);
}

}  // namespace
}  // namespace linkwright
