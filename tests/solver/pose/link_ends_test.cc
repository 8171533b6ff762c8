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

const JointTurn& Joint(const std::vector<NamedJoint>& joints, const std::string& name) {
  for (const NamedJoint& joint : joints) {
    if (joint.name == name) return joint.turn;
  }
  ADD_FAILURE() << "no joint " << name;
  return joints.front().turn;
}

// One arm of each kind on a housing at the datum.
Axle WithArms() {
  Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.35);
  axle.a_arms = {{.name = {"upper"},
                  .p_CP = {Eigen::Vector3d(0.6, 0.3, 0.5), Eigen::Vector3d(0.6, -0.3, 0.5)},
                  .p_CQ = {0.0, 0.0, 0.5}}};
  axle.radius_arms = {
      {.name = {"arm"},
       .p_CP = {0.9, 0.4, 0.35},
       .p_CQ = {Eigen::Vector3d(0.1, 0.4, 0.35), Eigen::Vector3d(-0.1, 0.4, 0.35)}}};
  axle.watts_links = {
      {.name = "watt",
       .on_housing = true,
       .pivot = {-0.1, 0.0, 0.35},
       .axis = {1.0, 0.0, 0.0},
       .end = {Eigen::Vector3d(-0.1, 0.0, 0.45), Eigen::Vector3d(-0.1, 0.0, 0.25)},
       .far = {Eigen::Vector3d(-0.1, 0.5, 0.45), Eigen::Vector3d(-0.1, -0.5, 0.25)}}};
  return axle;
}

TEST(TurnsOfArms, AreNoneInTheMeasuredStanceAndNamedAlike) {
  const Axle axle = WithArms();
  const AxleFrame frame = PrepareAxle(axle);
  const std::vector<NamedJoint> joints = TurnsOfArms(axle, frame, frame.measured);
  const std::vector<std::string> names = ArmJointNames(axle);
  ASSERT_EQ(joints.size(), names.size());
  EXPECT_EQ(joints.size(), 3U + 3U + 5U);
  for (size_t i = 0; i < joints.size(); ++i) {
    EXPECT_EQ(joints[i].name, names[i]);
    EXPECT_NEAR(joints[i].turn.swing, 0.0, 1e-7) << names[i];
    EXPECT_NEAR(joints[i].turn.twist, 0.0, 1e-7) << names[i];
    EXPECT_NEAR(joints[i].turn.misalignment, 0.0, 1e-7) << names[i];
  }
}

// The housing rolls about the level line of the radius arm: the frame eye is twisted by all of it,
// the housing eyes, which hold the arm, by nothing.
TEST(TurnsOfArms, ARadiusArmIsTwistedAtItsFrameEye) {
  const Axle axle = WithArms();
  const AxleFrame frame = PrepareAxle(axle);
  const double roll = 0.12;
  // About the line y = 0.4, z = 0.35 along x.
  Pose pose = frame.measured;
  pose.roll += roll;
  pose.y = 0.4 - 0.4 * std::cos(roll);
  pose.z = 0.35 - 0.4 * std::sin(roll);
  const std::vector<NamedJoint> joints = TurnsOfArms(axle, frame, pose);
  EXPECT_NEAR(std::abs(Joint(joints, "arm frame eye").twist), roll, 1e-9);
  EXPECT_NEAR(Joint(joints, "arm frame eye").misalignment, roll, 1e-9);
  for (const char* eye : {"arm first eye", "arm second eye"}) {
    EXPECT_NEAR(Joint(joints, eye).twist, 0.0, 1e-9);
    EXPECT_NEAR(Joint(joints, eye).misalignment, 0.0, 1e-9);
  }
}

// The housing steers about its own centre: the radius arm's frame eye stays in place, so the arm
// swings against its housing bolts sideways by what its eye has gone aside there.
TEST(TurnsOfArms, SteerMisalignsARadiusArmsHousingEyes) {
  const Axle axle = WithArms();
  const AxleFrame frame = PrepareAxle(axle);
  const double steer = 0.05;
  Pose pose = frame.measured;
  pose.steer += steer;
  // In the housing's axes the frame eye (0.9, 0.4) stands turned back by the steer.
  const double x = 0.9 * std::cos(steer) + 0.4 * std::sin(steer);
  const double y = -0.9 * std::sin(steer) + 0.4 * std::cos(steer);
  const double aside = std::atan2(0.4 - y, x);
  const std::vector<NamedJoint> joints = TurnsOfArms(axle, frame, pose);
  EXPECT_NEAR(Joint(joints, "arm first eye").misalignment, aside, 1e-9);
  EXPECT_NEAR(Joint(joints, "arm first eye").twist, 0.0, 1e-9);
  // Against the frame the arm has turned by the steer less what its housing eyes give.
  EXPECT_NEAR(Joint(joints, "arm frame eye").misalignment, std::abs(steer - aside), 1e-9);
}

// An A-arm whose point moves on its circle without the housing turning: eyes and point swing alike.
TEST(TurnsOfArms, AnAArmSwingsAboutTheLineOfItsEyes) {
  const Axle axle = WithArms();
  const AxleFrame frame = PrepareAxle(axle);
  const double angle = 0.2;
  Pose pose = frame.measured;
  pose.x += 0.6 - 0.6 * std::cos(angle);
  pose.z += 0.6 * std::sin(angle);
  const std::vector<NamedJoint> joints = TurnsOfArms(axle, frame, pose);
  for (const char* joint : {"upper first eye", "upper second eye", "upper axle end"}) {
    EXPECT_NEAR(Joint(joints, joint).swing, angle, 1e-9) << joint;
    EXPECT_NEAR(Joint(joints, joint).misalignment, 0.0, 1e-9) << joint;
  }
}

// The housing rises straight up: both links stay as long, so the crank turns, and with it and the
// links lying across, every joint swings about the pivot's axis alone.
TEST(TurnsOfArms, AWattsLinkSwingsInItsPlane) {
  const Axle axle = WithArms();
  const AxleFrame frame = PrepareAxle(axle);
  Pose pose = frame.measured;
  pose.z += 0.06;
  const std::vector<NamedJoint> joints = TurnsOfArms(axle, frame, pose);
  const double turn = Joint(joints, "watt pivot").swing;
  EXPECT_GT(turn, 0.01);
  for (const char* link : {"watt first link", "watt second link"}) {
    const std::string name = link;
    const JointTurn &far = Joint(joints, name + " far end"),
                    &crank = Joint(joints, name + " crank end");
    EXPECT_NEAR(far.misalignment, 0.0, 1e-9) << link;
    EXPECT_NEAR(crank.misalignment, 0.0, 1e-9) << link;
    // The link leans by what its ends part: the crank's own turn is the difference of both swings.
    const double lean = far.swing, against = crank.swing;
    EXPECT_NEAR(
        std::min(std::abs(lean + against - turn), std::abs(std::abs(lean - against) - turn)), 0.0,
        1e-9)
        << link;
  }
}

}  // namespace
}  // namespace linkwright
