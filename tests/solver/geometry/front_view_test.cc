// SPDX-License-Identifier: MIT
#include "solver/geometry/front_view.h"

#include <gtest/gtest.h>

#include "solver/pose/solve.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;

constexpr double kTol = 1e-12;           // [m, -] rounding, times a condition of 1e3
constexpr double kStep = 4e-3;           // [rad]
constexpr double kDifferenceTol = 1e-9;  // [m, rad/rad] what such a difference is good to

// Level arms along x, and a track bar in the transverse plane of the wheels.
Axle BarInTheWheelPlane() {
  Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.33);
  sample::AddPair(axle.links, "lower arm", {0.6, 0.45, 0.30}, {0.0, 0.45, 0.30});
  sample::AddSingle(axle.links, "upper arm", {0.5, 0.0, 0.55}, {0.0, 0.0, 0.55});
  sample::AddSingle(axle.links, "track bar", {0.0, 0.46, 0.31}, {0.0, -0.51, 0.41});
  return axle;
}

Floor Sloping(double slope) {
  Floor floor;
  floor.e = {std::cos(slope), 0.0, std::sin(slope)};
  floor.n = {-std::sin(slope), 0.0, std::cos(slope)};
  floor.offset = 0.02;
  return floor;
}

HousingMotion Measured(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  return EvaluateMotion(frame, frame.measured);
}

TEST(FrontView, RollCentreIsWhereTheBarCrossesTheCentrePlane) {
  const HousingMotion motion = Measured(BarInTheWheelPlane());
  const double crossing = 0.31 + 0.10 * 0.46 / 0.97;
  EXPECT_NEAR(RollCenterHeight(motion, Floor{}), crossing, kTol);
  EXPECT_NEAR(RollSteer(motion, Floor{}), 0.0, kTol);
}

// The point that stays in the plane: a point of the housing at the roll centre's height above the
// housing centre goes neither left nor right in antisymmetric travel. Differences of solved poses.
TEST(FrontView, RollCentreDoesNotMoveSideways) {
  for (const Axle& axle :
       {sample::ThreeLinkTrackBar(), sample::TriangulatedRear(), sample::FourArmsTrackBar(4e5)}) {
    const AxleFrame frame = PrepareAxle(axle);
    const PoseSolution off = MovePose(frame, EvaluateMotion(frame, frame.measured),
                                      frame.measured.z + 0.05, frame.measured.roll);
    const HousingMotion motion = EvaluateMotion(frame, off.pose);
    const Floor floor = Sloping(0.03);
    const Eigen::Vector3d centre(off.pose.x, off.pose.y, off.pose.z);
    const double above = RollCenterHeight(motion, floor) - HeightAbove(floor, centre);
    const Eigen::Vector3d p_AR = Transform(off.pose).inverse() * (centre + above * floor.n);
    const auto at = [&](double s) -> Eigen::Vector3d {
      Pose guess = off.pose;
      guess.roll += s;
      return Transform(SolvePose(frame, guess).pose) * p_AR;
    };
    EXPECT_NEAR(FirstDifference(at, kStep).y(), 0.0, kDifferenceTol);
  }
}

// Axle steer per unit of body roll over a level housing, from the finite turn between two poses:
// turn the whole vehicle back until the housing is level along the floor; what is left is steer and
// body roll, with body roll opposite to the housing's roll in the body.
TEST(FrontView, RollSteerIsSteerPerBodyRoll) {
  for (const Axle& axle : {sample::ThreeLinkTrackBar(), sample::TriangulatedRear()}) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = EvaluateMotion(frame, frame.measured);
    const Floor floor = Sloping(0.02);
    const auto turn = [&](double s) -> Eigen::Vector3d {
      Pose guess = frame.measured;
      guess.roll += s;
      const Eigen::Matrix3d R = Transform(SolvePose(frame, guess).pose).linear() *
                                Transform(frame.measured).linear().transpose();
      const Eigen::AngleAxisd turned(R);
      return turned.angle() * turned.axis();
    };
    const Eigen::Vector3d w = FirstDifference(turn, kStep);
    EXPECT_NEAR(RollSteer(motion, floor), w.dot(floor.n) / -w.dot(floor.e), kDifferenceTol);
  }
}

// Lower arms that run down toward the front at the rear axle: body rolls left up, the left wheel in
// droop goes back and the right one comes forward, so the axle steers left: understeer, +.
TEST(FrontView, ArmsDownTowardTheFrontUndersteer) {
  Axle axle = BarInTheWheelPlane();
  for (Link& link : axle.links) {
    if (link.name.key.find("arm") != std::string::npos) link.span.p_CP.z() -= 0.06;
  }
  EXPECT_GT(RollSteer(Measured(axle), Floor{}), 0.05);
}

TEST(FrontView, RollAxisJoinsTheRollCentres) {
  const std::array<Eigen::Vector3d, 2> centres{Eigen::Vector3d(0, 0, 0.36),
                                               Eigen::Vector3d(-2.5, 0, 0.36)};
  const std::array<double, 2> heights{0.10, 0.40};
  const Floor level;
  const RollAxis at_front = JoinRollCenters(centres, heights, level, centres[0]);
  const RollAxis at_rear = JoinRollCenters(centres, heights, level, centres[1]);
  const RollAxis between = JoinRollCenters(centres, heights, level, {-1.0, 0.0, 0.8});
  EXPECT_NEAR(at_front.height, 0.10, kTol);
  EXPECT_NEAR(at_rear.height, 0.40, kTol);
  EXPECT_NEAR(between.height, 0.10 + 0.30 * 1.0 / 2.5, kTol);
  EXPECT_NEAR(between.slope, -std::atan(0.30 / 2.5), kTol);  // falls toward the front
  EXPECT_EQ(RollAxisSlope(centres, heights, level), between.slope);
}

// On a sloping floor it is read along the perpendicular to the floor, so height of the mass counts.
TEST(FrontView, RollAxisIsReadAlongThePerpendicularToTheFloor) {
  const Floor floor = Sloping(0.05);
  const std::array<Eigen::Vector3d, 2> centres{Eigen::Vector3d(0, 0, 0.36),
                                               Eigen::Vector3d(-2.5, 0, 0.30)};
  const Eigen::Vector3d mass(-1.0, 0.1, 0.8);
  const double ahead_of_rear = floor.e.dot(mass - centres[1]);
  const double length = floor.e.dot(centres[0] - centres[1]);
  EXPECT_NEAR(JoinRollCenters(centres, {0.10, 0.40}, floor, mass).height,
              0.40 - 0.30 * ahead_of_rear / length, kTol);
}

}  // namespace
}  // namespace linkwright
