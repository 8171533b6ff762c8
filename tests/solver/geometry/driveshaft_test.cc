// SPDX-License-Identifier: MIT
// Speed ripple against a turn of the yokes followed pin by pin; lengths and angles against vectors.
#include "solver/geometry/driveshaft.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/error.h"
#include "tests/support/matchers.h"
#include "tests/support/two_joints.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kTol = 1e-12;  // [-, m, rad] rounding, times 1e4
constexpr double kTurnTol =
    1e-7;  // [-] a turn in 4000 steps misses an extreme by 6e-7 of the ripple

Eigen::Vector3d AcrossBoth(const Eigen::Vector3d& shaft, const Eigen::Vector3d& pin) {
  return shaft.cross(pin).normalized();
}

// Turn of `after` against `before` about an axis across which both lie [rad].
double TurnAbout(const Eigen::Vector3d& axis, const Eigen::Vector3d& before,
                 const Eigen::Vector3d& after) {
  return std::atan2(axis.dot(before.cross(after)), before.dot(after));
}

// Pin of the output's own yoke when the input's stands at `angle`. A cross has two pins at right
// angles: one in each yoke, each square to its own shaft.
Eigen::Vector3d OutputPin(const Eigen::Vector3d& input, const Eigen::Vector3d& shaft,
                          const Eigen::Vector3d& output, double phase, double angle) {
  const Eigen::Vector3d start = input.unitOrthogonal();
  const Eigen::Vector3d driving = Eigen::AngleAxisd(angle, input) * start;
  const Eigen::Vector3d inner = AcrossBoth(shaft, driving);  // square to the shaft and to `driving`
  const Eigen::Vector3d far_inner = Eigen::AngleAxisd(phase, shaft) * inner;
  return AcrossBoth(output, far_inner);
}

// (greatest - least) / mean of output over input speed, from a turn in small steps: each ratio is
// the turn of the output pin over that of the input, centred, over half a degree and a quarter
// (Richardson).
double RippleOfATurn(const Eigen::Vector3d& input, const Eigen::Vector3d& shaft,
                     const Eigen::Vector3d& output, double phase) {
  const auto ratio = [&](double angle, double half) {
    return TurnAbout(output, OutputPin(input, shaft, output, phase, angle - half),
                     OutputPin(input, shaft, output, phase, angle + half)) /
           (2.0 * half);
  };
  constexpr int kSteps = 4000;
  constexpr double kHalf = 2e-3;  // [rad] error of the extrapolated ratio 1e-12
  double least = 1e9, greatest = 0.0, sum = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = 2.0 * M_PI * i / kSteps;
    const double r = (4.0 * ratio(angle, 0.5 * kHalf) - ratio(angle, kHalf)) / 3.0;
    least = std::min(least, r), greatest = std::max(greatest, r), sum += r;
  }
  return (greatest - least) / (sum / kSteps);
}

Eigen::Vector3d InPlane(double degrees) {
  return {-std::cos(degrees * kDegree), 0.0, std::sin(degrees * kDegree)};
}

// The turn itself must be right for one joint: ratio extremes 1/cos and cos of the angle.
TEST(SpeedRipple, TurnOfOneJointHasTheKnownExtremes) {
  for (double degrees : {3.0, 10.0, 30.0}) {
    const double beta = degrees * kDegree;
    const double turn = RippleOfATurn(InPlane(degrees), InPlane(0.0), InPlane(0.0), 0.0);
    EXPECT_NEAR(turn, 1.0 / std::cos(beta) - std::cos(beta), kTurnTol);
  }
}

struct Shafts {
  Eigen::Vector3d input, shaft, output;
  double phase;
};

std::vector<Shafts> Layouts() {
  const auto unit = [](double x, double y, double z) {
    return Eigen::Vector3d(x, y, z).normalized();
  };
  return {{InPlane(5), InPlane(0), InPlane(6), 0.0},
          {InPlane(5), InPlane(0), InPlane(-8), 0.0},
          {InPlane(12), InPlane(0), InPlane(12), 0.5 * M_PI},
          {InPlane(4), InPlane(0), InPlane(9), 0.4},
          {unit(-1, 0.1, 0.05), unit(-1, 0, 0), unit(-1, 0.02, -0.15), 0.0},
          {unit(-1, 0.1, 0.05), unit(-1, 0, 0), unit(-1, 0.02, -0.15), -0.7},
          {unit(-1, 0, 0.2), unit(-1, 0.1, 0), unit(-1, 0.3, 0.1), 1.1}};
}

TEST(SpeedRipple, IsThatOfATurnOfTheYokes) {
  for (const Shafts& s : Layouts()) {
    EXPECT_NEAR(SpeedRipple(s.input, s.shaft, s.output, s.phase, true, true),
                RippleOfATurn(s.input, s.shaft, s.output, s.phase), kTurnTol)
        << s.input.transpose() << " | " << s.output.transpose() << " | " << s.phase;
  }
}

TEST(SpeedRipple, EqualAnglesCancelAsAZAndAsAW) {
  for (double degrees : {1.0, 7.0, 25.0}) {
    EXPECT_NEAR(SpeedRipple(InPlane(degrees), InPlane(0), InPlane(degrees), 0.0, true, true), 0.0,
                1e-7);
    EXPECT_NEAR(SpeedRipple(InPlane(degrees), InPlane(0), InPlane(-degrees), 0.0, true, true), 0.0,
                1e-7);
  }
}

// Input and output in planes at right angles cancel when the yokes are turned by as much.
TEST(SpeedRipple, YokesTurnedAlongWithThePlanesCancel) {
  const double beta = 10.0 * kDegree;
  const Eigen::Vector3d shaft(-1.0, 0.0, 0.0);
  const Eigen::Vector3d input(-std::cos(beta), 0.0, std::sin(beta));
  for (double plane : {0.3, -0.8, 0.5 * M_PI}) {
    const Eigen::Vector3d output = Eigen::AngleAxisd(plane, shaft) * input;
    EXPECT_NEAR(SpeedRipple(input, shaft, output, plane, true, true), 0.0, 1e-7);
    EXPECT_GT(SpeedRipple(input, shaft, output, 0.0, true, true), 1e-3);
  }
}

TEST(SpeedRipple, DoubleJointsAddNone) {
  const double single = 1.0 / std::cos(6 * kDegree) - std::cos(6 * kDegree);
  EXPECT_NEAR(SpeedRipple(InPlane(9), InPlane(0), InPlane(6), 0.0, false, true), single, kTol);
  EXPECT_NEAR(SpeedRipple(InPlane(6), InPlane(0), InPlane(9), 0.3, true, false), single, kTol);
  EXPECT_NEAR(SpeedRipple(InPlane(9), InPlane(0), InPlane(6), 0.0, false, false), 0.0, kTol);
}

TEST(SpeedRipple, InLineShaftsRunEvenly) {
  EXPECT_NEAR(SpeedRipple(InPlane(0), InPlane(0), InPlane(0), 0.0, true, true), 0.0, kTol);
}

TEST(Driveshaft, LengthAndAnglesInTheMeasuredStance) {
  const Vehicle van = sample::HarbourVan();
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  const DriveshaftState state =
      EvaluateDriveshaft(van.driveshafts[0], van.axles[kRear], frame, frame.X_CA);
  // Joints at (-1130, 470) and (-2230, 395): the shaft falls rearward by atan(75/1100). The output
  // yoke hangs 3 deg down (pointing rearward), the pinion's stands 3 deg up (pointing forward).
  const double fall = std::atan2(75.0, 1100.0);
  EXPECT_NEAR(state.length, std::hypot(1.100, 0.075), kTol);
  EXPECT_NEAR(state.output_angle, fall - 3.0 * kDegree, kTol);
  EXPECT_NEAR(state.axle_angle, fall - 3.0 * kDegree, kTol);
  EXPECT_NEAR(state.ripple, 0.0, 1e-7);
}

// Housing turned nose up by w: the pinion's yoke, ahead of the centre, goes up; its angle too.
TEST(Driveshaft, FollowsTheHousing) {
  const Vehicle van = sample::HarbourVan();
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  Pose pose = frame.measured;
  pose.pitch = 2.0 * kDegree;
  const DriveshaftState state =
      EvaluateDriveshaft(van.driveshafts[0], van.axles[kRear], frame, Transform(pose));
  const Eigen::Rotation2Dd turn(pose.pitch);
  const Eigen::Vector2d yoke =
      Eigen::Vector2d(-2.540, 0.363) + turn * Eigen::Vector2d(0.310, 0.032);
  const Eigen::Vector2d along = Eigen::Vector2d(-1.130, 0.470) - yoke;
  const double shaft = std::atan2(along.y(), along.x());
  EXPECT_NEAR(state.length, along.norm(), kTol);
  EXPECT_NEAR(state.axle_angle, std::abs(shaft - 5.0 * kDegree), kTol);
  EXPECT_NEAR(state.output_angle, shaft - 3.0 * kDegree, kTol);
  EXPECT_GT(state.ripple, 1e-4);
}

// A front axle's pinion lies behind its wheels and its shaft runs forward: all signs turn round.
TEST(Driveshaft, FrontShaftIsTheRearOneSeenFromTheOtherSide) {
  Vehicle van = sample::HarbourVan();
  Axle axle = van.axles[kRear];
  Driveshaft shaft = van.driveshafts[0];
  const auto turn = [](Eigen::Vector3d& p) { p.x() = -p.x(); };
  const AxleFrame rear = PrepareAxle(axle);
  Pose nose_up = rear.measured;
  nose_up.pitch = 1.0 * kDegree;
  const DriveshaftState behind = EvaluateDriveshaft(shaft, axle, rear, Transform(nose_up));
  turn(axle.p_CW_l), turn(axle.p_CW_r), turn(axle.pinion->p_CY), turn(shaft.p_CO);
  axle.links.clear();
  const AxleFrame front = PrepareAxle(axle);
  Pose nose_down = front.measured;
  nose_down.pitch = -1.0 * kDegree;
  const DriveshaftState ahead = EvaluateDriveshaft(shaft, axle, front, Transform(nose_down));
  EXPECT_NEAR(ahead.length, behind.length, kTol);
  EXPECT_NEAR(ahead.output_angle, behind.output_angle, kTol);
  EXPECT_NEAR(ahead.axle_angle, behind.axle_angle, kTol);
  EXPECT_NEAR(ahead.ripple, behind.ripple, kTol);
}

TEST(Driveshaft, WantsAPinion) {
  const Vehicle van = sample::HarbourVan();
  const AxleFrame frame = PrepareAxle(van.axles[kFront]);
  try {
    (void)EvaluateDriveshaft(van.driveshafts[0], van.axles[kFront], frame, frame.X_CA);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"driveshafts", "rear", "axle"}));
    EXPECT_STREQ(error.what(), "the front axle has no pinion for this shaft to drive");
  }
}

TEST(Driveshaft, WantsTwoPoints) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].p_CO = van.axles[kRear].pinion->p_CY;
  // The identity leaves rounding alone: the same point, exactly.
  Axle axle = van.axles[kRear];
  const AxleFrame frame = PrepareAxle(axle);
  const Eigen::Vector3d there = frame.X_CA * OnHousing(frame, axle.pinion->p_CY);
  van.driveshafts[0].p_CO = there;
  EXPECT_THROW((void)EvaluateDriveshaft(van.driveshafts[0], axle, frame, frame.X_CA), ModelError);
}

}  // namespace
}  // namespace linkwright
