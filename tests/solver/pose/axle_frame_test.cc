// SPDX-License-Identifier: MIT
#include "solver/pose/axle_frame.h"

#include <gtest/gtest.h>

#include "solver/model/error.h"
#include "solver/pose/rotation.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kTol = 1e-14;  // [m, rad, -] rounding of metres, times 50

// An axle measured out of true: raised, ahead and outboard on the left.
Axle CrookedAxle() {
  Axle axle = sample::ThreeLinkTrackBar();
  axle.p_CW_l += Eigen::Vector3d(0.012, 0.004, 0.020);
  axle.p_CW_r += Eigen::Vector3d(-0.003, 0.010, -0.007);
  return axle;
}

TEST(AxleFrame, RotationIsSteerThenRollThenNoseUpPitch) {
  const double steer = 0.3, roll = -0.2, pitch = 0.15;
  const Eigen::Matrix3d expected = (Eigen::AngleAxisd(steer, Eigen::Vector3d::UnitZ()) *
                                    Eigen::AngleAxisd(roll, Eigen::Vector3d::UnitX()) *
                                    Eigen::AngleAxisd(-pitch, Eigen::Vector3d::UnitY()))
                                       .toRotationMatrix();
  Pose pose;
  pose.steer = steer, pose.roll = roll, pose.pitch = pitch;
  EXPECT_TRUE(Near(Transform(pose).linear(), expected, kTol));
}

TEST(AxleFrame, CentreIsMidwayAndLateralAxisRunsFromRightWheelToLeft) {
  const Axle axle = CrookedAxle();
  const AxleFrame frame = PrepareAxle(axle);
  const Eigen::Vector3d half(0.0, 0.5 * frame.track, 0.0);
  EXPECT_TRUE(Near(frame.X_CA * half, axle.p_CW_l, kTol));
  EXPECT_TRUE(Near(frame.X_CA * Eigen::Vector3d(-half), axle.p_CW_r, kTol));
}

TEST(AxleFrame, ForwardAxisIsLevelInTheMeasuredStance) {
  const AxleFrame frame = PrepareAxle(CrookedAxle());
  EXPECT_NEAR(frame.X_CA.linear()(2, 0), 0.0, kTol);
  EXPECT_GT(frame.X_CA.linear()(0, 0), 0.9);
}

TEST(AxleFrame, LinksHaveTheirMeasuredLengthThere) {
  const Axle axle = CrookedAxle();
  const AxleFrame frame = PrepareAxle(axle);
  ASSERT_EQ(frame.links.size(), axle.links.size());
  for (size_t i = 0; i < frame.links.size(); ++i) {
    const FrameLink& link = frame.links[i];
    EXPECT_NEAR((frame.X_CA * link.p_AQ - link.p_CP).norm(), link.length, kTol);
    EXPECT_TRUE(Near(frame.X_CA * link.p_AQ, axle.links[i].span.p_CQ, kTol));
  }
}

TEST(AxleFrame, TravelsGoThereAndBack) {
  const AxleFrame frame = PrepareAxle(CrookedAxle());
  const AxlePlace place = PlaceAt(frame, 0.0, {0.07, -0.05});
  const Pose pose{.z = place.z, .roll = place.roll};
  const Travels travels = TravelsOf(frame, pose);
  EXPECT_NEAR(travels.left, 0.07, kTol);
  EXPECT_NEAR(travels.right, -0.05, kTol);
}

TEST(AxleFrame, TravelsAreHeightsOfTheWheelCentresWhateverTheUnknowns) {
  const Axle axle = CrookedAxle();
  const AxleFrame frame = PrepareAxle(axle);
  Pose guess = frame.measured;
  guess.x += 0.1, guess.y -= 0.05, guess.steer += 0.1, guess.pitch = -0.2;
  const AxlePlace place = PlaceAt(frame, 0.0, {0.07, -0.05});
  guess.z = place.z, guess.roll = place.roll;
  const Eigen::Isometry3d X_CA = Transform(guess);
  const double half = 0.5 * frame.track;
  EXPECT_NEAR((X_CA * Eigen::Vector3d(0.0, half, 0.0)).z(), axle.p_CW_l.z() + 0.07, kTol);
  EXPECT_NEAR((X_CA * Eigen::Vector3d(0.0, -half, 0.0)).z(), axle.p_CW_r.z() - 0.05, kTol);
}

TEST(AxleFrame, CoincidentWheelCentresAreAnError) {
  Axle axle = sample::ThreeLinkTrackBar();
  axle.p_CW_r = axle.p_CW_l;
  try {
    (void)PrepareAxle(axle);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "rear", "wheel_center"}));
    EXPECT_STREQ(error.what(), "both wheel centres are at one point");
  }
}

TEST(AxleFrame, LinkWithoutLengthIsAnErrorThatNamesIt) {
  Axle axle = sample::ThreeLinkTrackBar();
  axle.links[3].span.p_CQ = axle.links[3].span.p_CP;
  try {
    (void)PrepareAxle(axle);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "rear", "links", "track bar"}));
    EXPECT_STREQ(error.what(), "the link has no length: its frame and axle ends are at one point");
  }
}

}  // namespace
}  // namespace linkwright
