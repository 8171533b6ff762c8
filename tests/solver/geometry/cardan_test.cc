// SPDX-License-Identifier: MIT
// Rows of joints against yokes followed pin by pin; accelerations against a turn in small steps.
#include "solver/geometry/cardan.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <complex>

#include "solver/geometry/driveshaft.h"
#include "solver/numeric/decompositions.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kTol = 1e-12;     // [-, rad] rounding, times 1e4
constexpr double kEven = 1e-12;    // [-] ripple of a row that cancels: rounding of its matrix
constexpr double kTurnTol = 2e-6;  // [-] a turn in 20000 steps, differenced over 1e-3 rad

Eigen::Vector3d Unit(double x, double y, double z) { return Eigen::Vector3d(x, y, z).normalized(); }

Eigen::Vector3d InPlane(double degrees) {
  return {-std::cos(degrees * kDegree), 0.0, std::sin(degrees * kDegree)};
}

constexpr JointKind kSingle = JointKind::kSingle;
constexpr JointKind kDouble = JointKind::kDouble;

// Three joints, nothing in one plane, both pieces twisted.
JointChain ThreeJoints() {
  return {.along = {Unit(-1, 0.05, -0.08), Unit(-1, -0.02, 0.03), Unit(-1, 0.06, -0.15),
                    Unit(-1, 0.0, 0.05)},
          .joints = {kSingle, kSingle, kSingle},
          .phase = {0.3, -0.9, 0.0}};
}

// Where the last yoke's pin stands when the first one's is at `angle`: each cross holds its two
// pins square to one another and each to its own shaft.
Eigen::Vector3d LastPin(const JointChain& chain, double angle) {
  Eigen::Vector3d pin = Eigen::AngleAxisd(angle, chain.along[0]) * chain.along[0].unitOrthogonal();
  for (size_t i = 0; i < chain.joints.size(); ++i) {
    pin = chain.along[i + 1].cross(pin).normalized();
    pin = Eigen::AngleAxisd(chain.phase[i], chain.along[i + 1]) * pin;
  }
  return pin;
}

double SpeedAt(const JointChain& chain, double angle) {
  constexpr double kHalf = 1e-4;  // [rad] differences good to 1e-8
  const Eigen::Vector3d before = LastPin(chain, angle - kHalf),
                        after = LastPin(chain, angle + kHalf);
  return std::atan2(chain.along.back().dot(before.cross(after)), before.dot(after)) / (2.0 * kHalf);
}

TEST(TurnMap, ThreeJointsRunAsTheirYokesDo) {
  const JointChain chain = ThreeJoints();
  double least = 10.0, greatest = 0.0, sum = 0.0;
  constexpr int kSteps = 20000;
  for (int i = 0; i < kSteps; ++i) {
    const double speed = SpeedAt(chain, 2.0 * M_PI * i / kSteps);
    least = std::min(least, speed), greatest = std::max(greatest, speed), sum += speed;
  }
  EXPECT_NEAR(sum / kSteps, 1.0, kTurnTol);
  EXPECT_NEAR(RippleOf(TurnMap(chain, 3)), greatest - least, kTurnTol);
  EXPECT_NEAR(std::cos(NetAngle(TurnMap(chain, 3))), std::sqrt(least / greatest), kTurnTol);
}

TEST(NetAngle, OfOneJointIsItsAngle) {
  for (const double degrees : {0.0, 0.01, 3.0, 40.0}) {
    const JointChain chain{
        .along = {InPlane(degrees), InPlane(0)}, .joints = {kSingle}, .phase = {0.0}};
    EXPECT_NEAR(NetAngle(TurnMap(chain, 1)), degrees * kDegree, 1e-8);  // [rad] root of rounding
  }
}

TEST(NetAngle, OfConstantVelocityJointsIsNone) {
  const JointChain chain{.along = {Unit(-1, 0.1, 0.2), Unit(-1, 0, 0), Unit(-1, 0.3, 0)},
                         .joints = {kDouble, kDouble},
                         .phase = {0.4, 0.0}};
  EXPECT_NEAR(RippleOf(TurnMap(chain, 2)), 0.0, kTol);
}

TEST(BackMap, IsTheRowReadFromTheOtherEnd) {
  const JointChain chain = ThreeJoints();
  JointChain back{.along = {}, .joints = chain.joints, .phase = {}};
  for (auto it = chain.along.rbegin(); it != chain.along.rend(); ++it) back.along.push_back(-*it);
  // Seen from the other end a piece's far yoke is behind the near one, about a turned axis: as much
  // ahead as before.
  back.phase = {chain.phase[1], chain.phase[0], 0.0};
  for (const size_t passed : {size_t{1}, size_t{2}}) {
    EXPECT_NEAR(NetAngle(BackMap(chain, passed)), NetAngle(TurnMap(back, 3 - passed)), 1e-9);
  }
}

// The two directions of the last shaft, its joint a single one, in which the chain runs evenly,
// whatever the other joints and phases: docs/theory.md (62).
std::array<Eigen::Vector3d, 2> CancellingDirections(const JointChain& chain) {
  const size_t before = chain.along.size() - 2;
  const Eigen::Vector3d& shaft = chain.along[before];
  const Eigen::Matrix2d map = TurnMap(chain, before);
  const double angle = NetAngle(map);
  const Eigen::Vector3d one = shaft.unitOrthogonal();  // the basis that the map is in
  const Eigen::Vector2d lean = SingularValuesOf(map).U.col(0);
  const Eigen::Vector3d lean_C = lean.x() * one + lean.y() * shaft.cross(one);
  return {std::cos(angle) * shaft + std::sin(angle) * lean_C,
          std::cos(angle) * shaft - std::sin(angle) * lean_C};
}

TEST(CancellingDirections, RunEvenlyWhateverCameBefore) {
  JointChain chain = ThreeJoints();
  for (const double phase : {0.0, 0.7, -1.2}) {
    chain.phase[1] = phase;
    const double before = NetAngle(TurnMap(chain, 2));
    for (const Eigen::Vector3d& d : CancellingDirections(chain)) {
      JointChain aimed = chain;
      aimed.along.back() = d;
      EXPECT_NEAR(RippleOf(TurnMap(aimed, 3)), 0.0, kEven);
      EXPECT_NEAR(AngleBetween(aimed.along[2], d), before, kTol);
    }
  }
}

TEST(CancellingDirections, AreParallelToTheOutputOrCrossItEqually) {
  const JointChain chain{.along = {InPlane(5), InPlane(0), InPlane(1)},
                         .joints = {kSingle, kSingle},
                         .phase = {0.0, 0.0}};
  const auto directions = CancellingDirections(chain);
  const double up = std::max(directions[0].z(), directions[1].z());
  const double down = std::min(directions[0].z(), directions[1].z());
  EXPECT_NEAR(up, std::sin(5 * kDegree), kTol);
  EXPECT_NEAR(down, -std::sin(5 * kDegree), kTol);
}

TEST(PeakAcceleration, IsTheGreatestOverATurn) {
  for (const double degrees : {0.5, 7.0, 20.0, 44.0}) {
    const double c = std::cos(degrees * kDegree), s2 = 1.0 - c * c;
    double greatest = 0.0;
    for (double p = 0.0; p < M_PI; p += 1e-5) {
      const double under = 1.0 - s2 * std::cos(p) * std::cos(p);
      greatest = std::max(greatest, c * s2 * std::abs(std::sin(2.0 * p)) / (under * under));
    }
    EXPECT_NEAR(PeakAcceleration(degrees * kDegree), greatest, 1e-9);  // step squared
  }
  EXPECT_EQ(PeakAcceleration(0.0), 0.0);
}

// Of the last shaft by the steps of its yokes' speed, and of a piece with the last shaft steady:
// the same row turned from the other end.
TEST(PeakAcceleration, OfARowIsThatOfItsYokes) {
  const JointChain chain = ThreeJoints();
  constexpr double kHalf = 1e-3;  // [rad] second differences good to 1e-6
  const auto greatest = [&](const JointChain& turned) {
    double most = 0.0;
    for (double p = 0.0; p < M_PI; p += 1e-3) {
      most = std::max(
          most, std::abs(SpeedAt(turned, p + kHalf) - SpeedAt(turned, p - kHalf)) / (2.0 * kHalf));
    }
    return most;
  };
  constexpr double kAccelerationTol = 1e-6;  // [-] as above; a peak is met to its step squared
  EXPECT_NEAR(PeakAcceleration(NetAngle(TurnMap(chain, 3))), greatest(chain), kAccelerationTol);
  JointChain pieces = chain;
  pieces.along.pop_back(), pieces.joints.pop_back();
  EXPECT_NEAR(PeakAcceleration(NetAngle(TurnMap(chain, 2))), greatest(pieces), kAccelerationTol);
}

// At either end of a shaft: two crosses that share the angle evenly, their inner yokes in one
// plane.
TEST(TurnMap, ADoubleJointIsTwoCrossesAtHalfItsAngle) {
  const Eigen::Vector3d output = Unit(-1, 0.1, 0.05), shaft = Unit(-1, -0.05, -0.1),
                        pinion = Unit(-1, 0.02, 0.04);
  const Eigen::Vector3d half = (output + shaft).normalized(), last = (shaft + pinion).normalized();
  const JointChain front{
      .along = {output, shaft, pinion}, .joints = {kDouble, kSingle}, .phase = {0.4, 0.0}};
  const JointChain front_crosses{.along = {output, half, shaft, pinion},
                                 .joints = {kSingle, kSingle, kSingle},
                                 .phase = {0.0, 0.4, 0.0}};
  EXPECT_NEAR(RippleOf(TurnMap(front, 2)), RippleOf(TurnMap(front_crosses, 3)), kTol);
  const JointChain rear{
      .along = {output, shaft, pinion}, .joints = {kSingle, kDouble}, .phase = {0.4, 0.0}};
  const JointChain rear_crosses{.along = {output, shaft, last, pinion},
                                .joints = {kSingle, kSingle, kSingle},
                                .phase = {0.4, 0.0, 0.0}};
  EXPECT_NEAR(RippleOf(TurnMap(rear, 2)), RippleOf(TurnMap(rear_crosses, 3)), kTol);
  EXPECT_NEAR(NetAngle(TurnMap(rear, 2)), AngleBetween(output, shaft), 1e-9);
}

TEST(PartsOf, SideAndPlanHaveTheirSigns) {
  const JointParts parts = PartsOf({-1, 0, 0}, Unit(-1, 0.02, -0.05));
  EXPECT_NEAR(parts.side, std::atan(-0.05), kTol);
  EXPECT_NEAR(parts.plan, std::atan(0.02), kTol);
  EXPECT_NEAR(std::cos(parts.angle), 1.0 / std::sqrt(1.0 + 0.02 * 0.02 + 0.05 * 0.05), kTol);
}

// Housing pitched off: one of the aims cancels, exactly where everything is in one plane, and it is
// the turn that brings the pinion onto one of the cancelling directions.
TEST(PinionAims, OneOfThemCancels) {
  const Vehicle van = sample::HarbourVan();
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  for (const double degrees : {-1.0, 0.4, 2.0}) {
    Pose pose = frame.measured;
    pose.pitch = degrees * kDegree;
    const Eigen::Isometry3d X_CA = Transform(pose);
    const DriveshaftLine line = LineOf(van.driveshafts[0], van.axles[kRear], frame, X_CA);
    const Eigen::Vector3d nose_up = -X_CA.linear().col(1);  // the yoke stands ahead
    for (const Eigen::Vector3d& d : CancellingDirections(line.chain)) {
      const Eigen::Vector3d& b = line.chain.along.back();
      const double turn = std::atan2(nose_up.dot(b.cross(d)), b.dot(d));
      double nearest = 1.0;
      for (const PinionAim& aim : PinionAims(line, X_CA.linear().col(1))) {
        EXPECT_NEAR(aim.net_angle, NetAngleTurned(line, X_CA.linear().col(1), aim.turn), kTol);
        nearest = std::min(nearest, std::abs(aim.turn - turn));
        EXPECT_LT(aim.net_angle, 1e-4);  // steep at 0: a turn found to 1e-9 rad
      }
      EXPECT_LT(nearest, 1e-8);
    }
  }
}

// Two joints at small angles are two vectors, side and plan; net^2 = |v1^2 - v2^2| as complex
// numbers. With v1 = p + i q and the plan part of the second given, its least over the side part.
TEST(PinionAims, AreThoseOfTheJointVectors) {
  constexpr double kSmall = 1e-3;  // [rad] vectors add up to parts in a million
  for (const double plan : {-1.0, -0.8, 0.3, 0.9}) {
    const std::complex<double> v1(1.7, 1.0);
    const auto net = [&](double side) {
      return kSmall * std::sqrt(std::abs(v1 * v1 - std::pow(std::complex(side, plan), 2)));
    };
    double least = 1e9;
    for (int i = -40000; i <= 40000; ++i) least = std::min(least, net(1e-4 * i));
    const auto direction = [&](double side, double aside) {
      return Eigen::Vector3d(-1.0, std::tan(kSmall * aside), std::tan(kSmall * side)).normalized();
    };
    const DriveshaftLine line{
        .chain = {.along = {direction(-v1.real(), -v1.imag()), {-1, 0, 0}, direction(0.0, plan)},
                  .joints = {kSingle, kSingle},
                  .phase = {0.0, 0.0}},
        .length = {1.0},
        .yoke_ahead = true};
    double found = 1e9;
    for (const PinionAim& aim : PinionAims(line, Eigen::Vector3d::UnitY())) {
      found = std::min(found, aim.net_angle);
    }
    EXPECT_NEAR(found, least, 0.02 * kSmall) << plan;
  }
}

// A front axle's yoke is behind: nose up lowers it.
TEST(PinionAims, YokeBehindTurnsTheOtherWay) {
  const Vehicle van = sample::HarbourVan();
  const Axle& axle = van.axles[kRear];
  Axle turned = axle;
  Driveshaft shaft = van.driveshafts[0];
  const auto flip = [](Eigen::Vector3d& p) { p.x() = -p.x(); };
  flip(turned.p_CW_l), flip(turned.p_CW_r), flip(turned.pinion->p_CY), flip(shaft.p_CO);
  turned.links.clear();
  const auto aims = [](const Axle& a, const Driveshaft& s, double pitch) {
    const AxleFrame frame = PrepareAxle(a);
    Pose pose = frame.measured;
    pose.pitch = pitch;
    const Eigen::Isometry3d X_CA = Transform(pose);
    return PinionAims(LineOf(s, a, frame, X_CA), X_CA.linear().col(1));
  };
  const auto ahead = aims(axle, van.driveshafts[0], 0.01), behind = aims(turned, shaft, -0.01);
  ASSERT_EQ(ahead.size(), 2U);
  ASSERT_EQ(behind.size(), 2U);
  for (size_t i = 0; i < 2; ++i) EXPECT_NEAR(ahead[i].turn, behind[i].turn, 1e-8);
}

TEST(PinionAims, ADoubleJointAtThePinionHasNone) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].axle_joint = kDouble;
  const AxleFrame frame = PrepareAxle(van.axles[kRear]);
  const DriveshaftLine line = LineOf(van.driveshafts[0], van.axles[kRear], frame, frame.X_CA);
  EXPECT_TRUE(PinionAims(line, Eigen::Vector3d::UnitY()).empty());
}

}  // namespace
}  // namespace linkwright
