// SPDX-License-Identifier: MIT
#include "solver/pose/arms_at.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/pose/fit_links.h"
#include "solver/pose/link_equations.h"
#include "solver/pose/solve.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;
using Eigen::Vector3d;

// Equal parallel level trailing arms of length a and a level bar across of length b, the axle up by
// z: with k = 1/4a^2 + 1/4b^2 it goes s/2a ahead and s/2b sideways, k s^2 - s + z^2 = 0.
TEST(ArmsAt, SlopeAsTheCircleOfTheirEyesSays) {
  const double a = 0.6, b = 0.8, z = 0.07;
  const Axle axle = sample::EqualParallelLinks(a, b);
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion measured = EvaluateMotion(frame, frame.measured);
  const Pose up = MovePose(frame, measured, frame.measured.z + z, 0.0).pose;
  const double k = 0.25 / (a * a) + 0.25 / (b * b);
  const double s = (1.0 - std::sqrt(1.0 - 4.0 * k * z * z)) / (2.0 * k);
  const std::vector<ArmAt> arms = ArmsAt(axle, frame, up);
  ASSERT_EQ(arms.size(), 4U);
  for (size_t i = 0; i < 3; ++i) {
    // The eye on the axle has gone up: the frame end is the lower one. The bar runs from its frame
    // end on the right, so that the axle's end, up, goes to the right: the frame end lies left.
    EXPECT_NEAR(arms[i].side, -std::atan2(z, a - s / (2.0 * a)), 1e-9) << i;
    EXPECT_NEAR(arms[i].plan, std::atan2(s / (2.0 * b), a - s / (2.0 * a)), 1e-9) << i;
    EXPECT_NEAR(arms[i].length, a, 1e-15);
    EXPECT_EQ(arms[i].longer, 0.0);
    EXPECT_FALSE(arms[i].turns);
    EXPECT_FALSE(arms[i].strain_force) << "four links cannot fight";
  }
  EXPECT_EQ(arms[3].name, "track bar");
  EXPECT_EQ(arms[3].part, (std::vector<std::string>{"axles", "rear", "links", "track bar"}));
}

TEST(ArmsAt, TellTheTurnsOfAThread) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.8);
  axle.links[2].thread = 0.002, axle.links[2].length = 0.594;  // its holes are 0.6 apart
  const AxleFrame frame = PrepareAxle(axle);
  const std::vector<ArmAt> arms = ArmsAt(axle, frame, MeasuredPose(axle, frame).pose.value());
  EXPECT_NEAR(arms[2].longer, -0.006, 1e-15);
  EXPECT_TRUE(Holds(arms[2].turns, -3.0, 1e-12));
}

// Two lower arms, an A-shaped upper arm and a Watt's link, five ways for four motions, and not one
// of them fits.
Axle Strained() {
  Axle axle = sample::BareAxle("rear", -2.7, 0.75, 0.36);
  sample::AddPair(axle.links, "lower arm", {-2.0, 0.42, 0.40}, {-2.68, 0.46, 0.30});
  AArm upper{.name = {"upper arm", Side::kMiddle},
             .p_CP = {Vector3d(-2.1, 0.30, 0.56), Vector3d(-2.12, -0.32, 0.55)},
             .p_CQ = {-2.69, 0.02, 0.52},
             .rate = 4e6};
  const double first = (upper.p_CP[0] - upper.p_CQ).norm();
  const double second = (upper.p_CP[1] - upper.p_CQ).norm();
  upper.leg_length = {first - 0.004, second + 0.001};
  axle.a_arms.push_back(upper);
  WattsLink watt{};
  watt.name = "Watt's link";
  watt.pivot = {-2.8, 0.01, 0.36};
  watt.axis = {1.0, 0.0, 0.05};
  watt.end = {Vector3d(-2.8, 0.02, 0.44), Vector3d(-2.8, 0.0, 0.28)};
  watt.far = {Vector3d(-2.79, 0.45, 0.45), Vector3d(-2.81, -0.45, 0.29)};
  watt.made = CrankShape{watt.pivot, watt.end, watt.far};
  watt.made->far[0].y() += 0.003;
  axle.watts_links.push_back(watt);
  axle.links[0].length = MeasuredLength(axle.links[0].span) + 0.006;
  axle.links[1].length = MeasuredLength(axle.links[1].span) - 0.002;
  return axle;
}

// The arm at an index of ArmsAt, by so much longer.
void Lengthen(Axle& axle, size_t index, double by) {
  if (index < 2) {
    *axle.links[index].length += by;
  } else if (index < 4) {
    (*axle.a_arms[0].leg_length)[index - 2] += by;
  } else {
    CrankShape& made = *axle.watts_links[0].made;
    const size_t k = index - 4;
    made.far[k] += by * (made.far[k] - made.end[k]).normalized();
  }
}

double LeastStrain(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  const Pose pose = MeasuredPose(axle, frame).pose.value();
  return StrainOf(frame, StretchesAt(frame, CoordinatesOf(pose))).energy;
}

// By another road than rate times stretch: an arm made longer takes strain out by the force it is
// pulled with (Castigliano's first theorem).
TEST(ArmsAt, PullIsWhatTheStrainLosesAsTheArmIsMadeLonger) {
  const Axle axle = Strained();
  const AxleFrame frame = PrepareAxle(axle);
  const std::vector<ArmAt> arms = ArmsAt(axle, frame, MeasuredPose(axle, frame).pose.value());
  ASSERT_EQ(arms.size(), 6U);
  constexpr double kStep = 2e-5;  // [m]
  constexpr double kTol = 0.05;   // [N] third derivative of some 5e8 N/m2, times its square over 6
  double most = 0.0;
  for (size_t i = 0; i < arms.size(); ++i) {
    Axle longer = axle, shorter = axle;
    Lengthen(longer, i, kStep), Lengthen(shorter, i, -kStep);
    const double slope = (LeastStrain(longer) - LeastStrain(shorter)) / (2.0 * kStep);
    EXPECT_TRUE(Holds(arms[i].strain_force, -slope, kTol)) << arms[i].name;
    most = std::max(most, std::abs(slope));
  }
  EXPECT_GT(most, 1000.0);
}

// Two radius arms, a bar and a link over them, one arm 4 mm too long: the strain grows, as the
// arm's bracket is taken along the arm, by what it is pulled with.
TEST(ArmsAt, ARadiusArmIsPulledByWhatItsBracketFeels) {
  Axle axle = sample::BareAxle("front", 0.0, 0.75, 0.37);
  for (const double side : {1.0, -1.0}) {
    RadiusArm arm{};
    arm.name = {"radius arm", side > 0.0 ? Side::kLeft : Side::kRight};
    arm.p_CP = {-0.9, 0.42 * side, 0.45};
    arm.p_CQ = {Vector3d(0.085, 0.42 * side, 0.365), Vector3d(-0.085, 0.42 * side, 0.38)};
    arm.frame_rate = 4e6, arm.axle_rate = 2e6;
    axle.radius_arms.push_back(arm);
  }
  sample::AddSingle(axle.links, "track bar", {0.1, 0.43, 0.48}, {0.12, -0.46, 0.42}, 3e6);
  sample::AddSingle(axle.links, "middle link", {-0.8, 0.02, 0.60}, {0.02, 0.02, 0.58});
  RadiusArm& left = axle.radius_arms[0];
  left.made = RadiusArmShape{left.p_CP, left.p_CQ};
  left.made->chassis_eye.x() -= 0.004;
  const AxleFrame frame = PrepareAxle(axle);
  const Pose pose = MeasuredPose(axle, frame).pose.value();
  const std::vector<ArmAt> arms = ArmsAt(axle, frame, pose);
  ASSERT_EQ(arms.size(), 4U);
  EXPECT_EQ(arms[2].name, "radius arm left");
  const Vector3d along = Transform(pose).linear() * frame.links[2].arm->along;
  constexpr double kStep = 2e-5;  // [m]
  Axle farther = axle, nearer = axle;
  farther.radius_arms[0].p_CP += kStep * along, nearer.radius_arms[0].p_CP -= kStep * along;
  const double slope = (LeastStrain(farther) - LeastStrain(nearer)) / (2.0 * kStep);
  // [N] the arm's swing out of its plane, of some 1e-3, counts by its square.
  EXPECT_TRUE(Holds(arms[2].strain_force, slope, 1e-4 * std::abs(slope) + 0.05));
  EXPECT_GT(std::abs(slope), 100.0);
}

// Rates times stretches, by hand, at rest under a load that leans it, one arm 9 mm too long. Fore
// and aft, sideways, steering and winding up the links hold one another; only up and in roll are
// they left with something, which wheels and coils carry.
TEST(ArmsAt, AtRestLinksBalanceOneAnotherInWhatTheyHold) {
  Vehicle van = sample::HarbourVan();
  Axle& rear = van.axles[kRear];
  rear.links[0].length = MeasuredLength(rear.links[0].span) + 0.009;
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, {"skew", {{"item", 120.0, {-1.8, 0.3, 0.9}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const Pose& pose = stance.motion[kRear].pose;
  const AxleFrame& frame = rig.axles[kRear].frame;
  const std::vector<ArmAt> arms = ArmsAt(rear, frame, pose);
  const Eigen::Isometry3d X_CA = Transform(pose);
  Vector3d force = Vector3d::Zero(), moment = Vector3d::Zero();  // on the housing, about its centre
  double most = 0.0;
  for (size_t i = 0; i < rear.links.size(); ++i) {
    const Link& link = rear.links[i];
    const Vector3d at = X_CA * frame.X_CA.inverse() * link.span.p_CQ;
    const Vector3d p_QP = link.span.p_CP - at;
    const double tension = link.rate * (p_QP.norm() - LengthOf(link));
    EXPECT_TRUE(Holds(arms[i].strain_force, tension, 1e-6)) << i;  // [N] 1e-13 m at 5e6 N/m
    const Vector3d pull = tension * p_QP.normalized();
    force += pull, moment += (at - X_CA.translation()).cross(pull);
    most = std::max(most, std::abs(tension));
  }
  EXPECT_GT(most, 1000.0);
  constexpr double kTol = 1e-4;  // [N, N m] what the pose's solve leaves of most
  EXPECT_NEAR(force.x(), 0.0, kTol);
  EXPECT_NEAR(force.y(), 0.0, kTol);
  EXPECT_NEAR(moment.z(), 0.0, kTol);
  EXPECT_NEAR(moment.dot(X_CA.linear().col(1)), 0.0, kTol);
  EXPECT_GT(std::abs(force.z()) + std::abs(moment.x()), 1.0);
}

}  // namespace
}  // namespace linkwright
