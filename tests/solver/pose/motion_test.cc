// SPDX-License-Identifier: MIT
// Derivatives of a pose against differences of solved poses. The test's own poses come from
// SolvePose at displaced heights and rolls, so nothing here differentiates anything twice in the
// same way.
#include "solver/pose/motion.h"

#include <gtest/gtest.h>

#include "solver/pose/link_equations.h"
#include "solver/pose/solve.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;
using check::SecondDifference;

constexpr double kStep = 4e-3;       // [m, rad] differences below good to 1e-12 and 1e-9
constexpr double kFirstTol = 1e-9;   // [m/m, m/rad, rad/m, rad/rad]
constexpr double kSecondTol = 1e-6;  // [1/m, ...] curvatures here are 1 to 20
constexpr double kForceTol = 1e-3;   // [N, N/m, N/rad] 5 MN/m times 1e-12 m, times 1e2

// Axles with four links, and with five whose residuals are not zero away from the measured stance.
std::vector<Axle> Axles() {
  return {sample::TriangulatedRear(), sample::ThreeLinkTrackBar(), sample::FourArmsTrackBar(4e5),
          sample::FourArmsTrackBar(5e6), sample::HarbourVan().axles[0]};
}

HousingMotion MotionAt(const AxleFrame& frame, double z, double roll) {
  const HousingMotion measured = EvaluateMotion(frame, frame.measured);
  const PoseSolution solution = MovePose(frame, measured, z, roll);
  EXPECT_EQ(solution.status, SolveStatus::kConverged);
  return EvaluateMotion(frame, solution.pose);
}

Pose PoseNear(const AxleFrame& frame, const Pose& from, double dz, double droll) {
  Pose guess = from;
  guess.z += dz, guess.roll += droll;
  const PoseSolution solution = SolvePose(frame, guess);
  EXPECT_EQ(solution.status, SolveStatus::kConverged);
  return solution.pose;
}

// 70 mm of bump and 4 deg of roll from the measured stance.
HousingMotion OffStance(const AxleFrame& frame) {
  return MotionAt(frame, frame.measured.z + 0.07, frame.measured.roll + 0.07);
}

Eigen::Vector4d AlongQ(const HousingMotion& motion, double Taylor::*derivative) {
  return {motion.q[kX].*derivative, motion.q[kY].*derivative, motion.q[kSteer].*derivative,
          motion.q[kPitch].*derivative};
}

TEST(EvaluateMotion, FirstDerivativesAreDifferencesOfSolvedPoses) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = OffStance(frame);
    const auto by_z = [&](double s) { return check::FourOf(PoseNear(frame, motion.pose, s, 0.0)); };
    const auto by_r = [&](double s) { return check::FourOf(PoseNear(frame, motion.pose, 0.0, s)); };
    EXPECT_TRUE(Near(AlongQ(motion, &Taylor::z), FirstDifference(by_z, kStep), kFirstTol));
    EXPECT_TRUE(Near(AlongQ(motion, &Taylor::r), FirstDifference(by_r, kStep), kFirstTol));
  }
}

TEST(EvaluateMotion, SecondDerivativesAreSecondDifferencesOfSolvedPoses) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = OffStance(frame);
    const auto by_z = [&](double s) { return check::FourOf(PoseNear(frame, motion.pose, s, 0.0)); };
    const auto by_r = [&](double s) { return check::FourOf(PoseNear(frame, motion.pose, 0.0, s)); };
    const auto by_both = [&](double s) {
      return FirstDifference(
          [&](double t) { return check::FourOf(PoseNear(frame, motion.pose, s, t)); }, kStep);
    };
    EXPECT_TRUE(Near(AlongQ(motion, &Taylor::zz), SecondDifference(by_z, kStep), kSecondTol));
    EXPECT_TRUE(Near(AlongQ(motion, &Taylor::rr), SecondDifference(by_r, kStep), kSecondTol));
    EXPECT_TRUE(Near(AlongQ(motion, &Taylor::zr), FirstDifference(by_both, kStep), kSecondTol));
  }
}

TEST(EvaluateMotion, CarriedPointsMoveAsTheyAreCarried) {
  const Eigen::Vector3d p_AQ(0.1, -0.4, 0.2);
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = OffStance(frame);
    const TaylorPoint point = MotionOf(motion, p_AQ);
    const auto by_z = [&](double s) -> Eigen::Vector3d {
      return Transform(PoseNear(frame, motion.pose, s, 0.0)) * p_AQ;
    };
    const auto by_r = [&](double s) -> Eigen::Vector3d {
      return Transform(PoseNear(frame, motion.pose, 0.0, s)) * p_AQ;
    };
    const auto all = [&](double Taylor::*d) {
      return Eigen::Vector3d(point[0].*d, point[1].*d, point[2].*d);
    };
    EXPECT_TRUE(Near(all(&Taylor::z), FirstDifference(by_z, kStep), kFirstTol));
    EXPECT_TRUE(Near(all(&Taylor::r), FirstDifference(by_r, kStep), kFirstTol));
    EXPECT_TRUE(Near(all(&Taylor::zz), SecondDifference(by_z, kStep), kSecondTol));
    EXPECT_TRUE(Near(all(&Taylor::rr), SecondDifference(by_r, kStep), kSecondTol));
  }
}

TEST(EvaluateMotion, DistanceIsTheLengthBetweenItsEnds) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  const HousingMotion motion = OffStance(frame);
  const Eigen::Vector3d p_CP(0.02, 0.4, 0.7), p_AQ(0.0, 0.42, 0.06);
  const auto by_z = [&](double s) {
    const Pose pose = PoseNear(frame, motion.pose, s, 0.0);
    return Eigen::Matrix<double, 1, 1>((Transform(pose) * p_AQ - p_CP).norm());
  };
  const Taylor distance = DistanceTo(motion, p_CP, p_AQ);
  EXPECT_NEAR(distance.v, by_z(0.0)[0], 1e-14);
  EXPECT_NEAR(distance.z, FirstDifference(by_z, kStep)[0], kFirstTol);
  EXPECT_NEAR(distance.zz, SecondDifference(by_z, kStep)[0], kSecondTol);
}

// Angular velocity from the finite rotation between two solved poses.
Eigen::Vector3d TurnBetween(const Pose& from, const Pose& to) {
  const Eigen::AngleAxisd turn(
      Eigen::Matrix3d(Transform(to).linear() * Transform(from).linear().transpose()));
  return turn.angle() * turn.axis();
}

TEST(EvaluateMotion, TurnsAreTheRotationBetweenPoses) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = OffStance(frame);
    const auto by_z = [&](double s) {
      return TurnBetween(motion.pose, PoseNear(frame, motion.pose, s, 0.0));
    };
    const auto by_r = [&](double s) {
      return TurnBetween(motion.pose, PoseNear(frame, motion.pose, 0.0, s));
    };
    EXPECT_TRUE(Near(TurnPerHeight(motion), FirstDifference(by_z, kStep), kFirstTol));
    EXPECT_TRUE(Near(TurnPerRoll(motion), FirstDifference(by_r, kStep), kFirstTol));
  }
}

TEST(EvaluateMotion, HousingPitchIsElevationOfItsForwardAxis) {
  Axle axle = sample::ThreeLinkTrackBar();
  axle.p_CW_r +=
      Eigen::Vector3d(0.004, 0.0, 0.003);  // crooked, so that A's x axis was not chassis x
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = OffStance(frame);
  const auto by_z = [&](double s) {
    const Pose pose = PoseNear(frame, motion.pose, s, 0.0);
    const Eigen::Matrix3d since_measured =
        Transform(pose).linear() * frame.X_CA.linear().transpose();
    const Eigen::Vector3d forward = since_measured.col(0);
    return Eigen::Matrix<double, 1, 1>(
        std::atan2(forward.z(), std::hypot(forward.x(), forward.y())));
  };
  EXPECT_NEAR(HousingPitch(frame, motion).v, by_z(0.0)[0], 1e-14);
  EXPECT_NEAR(HousingPitch(frame, motion).z, FirstDifference(by_z, kStep)[0], kFirstTol);
}

TEST(EvaluateMotion, FourLinksStoreNothing) {
  const HousingMotion motion = OffStance(PrepareAxle(sample::TriangulatedRear()));
  EXPECT_TRUE(motion.link_forces.empty());
  EXPECT_TRUE(Near(check::SixOf(motion.strain), Eigen::Matrix<double, 6, 1>::Zero(), 0.0));
}

// At a minimum over the unknowns, dE/dz is the partial derivative alone: sum of link force times
// how the link stretches with the unknowns held.
TEST(EvaluateMotion, StrainSlopeIsThatWithTheUnknownsHeld) {
  for (double rate : {4e5, 5e6}) {
    const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(rate));
    const HousingMotion motion = OffStance(frame);
    ASSERT_EQ(motion.link_forces.size(), 5u);
    double by_z = 0.0;
    for (size_t i = 0; i < 5; ++i) {
      const FrameLink& link = frame.links[i];
      const Eigen::Vector3d d = Transform(motion.pose) * link.p_AQ - link.p_CP;
      by_z += motion.link_forces[i] * d.z() / d.norm();
    }
    ASSERT_GT(std::abs(by_z), 1.0) << "no strain to speak of: the test would prove nothing";
    EXPECT_NEAR(motion.strain.z, by_z, kForceTol);
  }
}

TEST(EvaluateMotion, StrainDerivativesAreDifferencesOfStrain) {
  for (double rate : {4e5, 5e6}) {
    const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(rate));
    const HousingMotion motion = OffStance(frame);
    const auto strain = [&](double dz, double droll) {
      const Pose pose = PoseNear(frame, motion.pose, dz, droll);
      double sum = 0.0;
      for (const FrameLink& link : frame.links) {
        const double r = (Transform(pose) * link.p_AQ - link.p_CP).norm() - link.length;
        sum += 0.5 * link.rate * r * r;
      }
      return Eigen::Matrix<double, 1, 1>(sum);
    };
    const auto by_z = [&](double s) { return strain(s, 0.0); };
    const auto by_r = [&](double s) { return strain(0.0, s); };
    EXPECT_NEAR(motion.strain.v, strain(0.0, 0.0)[0], 1e-9);  // [J]
    EXPECT_NEAR(motion.strain.z, FirstDifference(by_z, kStep)[0], kForceTol);
    EXPECT_NEAR(motion.strain.r, FirstDifference(by_r, kStep)[0], kForceTol);
    // [N/m] 1e-4 of an energy of 100 J differenced over 4 mm squared: 1e-14 * 1e2 / 1.6e-5, times
    // 1e3
    EXPECT_NEAR(motion.strain.zz, SecondDifference(by_z, kStep)[0], 0.1);
    EXPECT_NEAR(motion.strain.rr, SecondDifference(by_r, kStep)[0], 0.1);
  }
}

// Over-constraint forces hold one another: nothing is left along any of the four unknowns.
TEST(EvaluateMotion, OverConstraintForcesBalanceAlongTheUnknowns) {
  const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(4e5));
  const HousingMotion motion = OffStance(frame);
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  double greatest = 0.0;
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  for (size_t i = 0; i < 5; ++i) {
    const FrameLink& link = frame.links[i];
    const Eigen::Vector3d arm = X_CA.linear() * link.p_AQ;
    const Eigen::Vector3d f = motion.link_forces[i] * (X_CA * link.p_AQ - link.p_CP).normalized();
    force += f;
    moment += arm.cross(f);
    greatest = std::max(greatest, std::abs(motion.link_forces[i]));
  }
  ASSERT_GT(greatest, 100.0);
  EXPECT_NEAR(force.x(), 0.0, kForceTol);
  EXPECT_NEAR(force.y(), 0.0, kForceTol);
  EXPECT_NEAR(moment.z(), 0.0, kForceTol);                        // steer
  EXPECT_NEAR(moment.dot(X_CA.linear().col(1)), 0.0, kForceTol);  // pitch
}

// The prediction errs by the third order: an eighth of the error at half the step.
TEST(Predict, ErrsByTheThirdOrder) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  const HousingMotion motion = OffStance(frame);
  const auto error = [&](double s) {
    const Pose predicted = Predict(motion, motion.pose.z + s, motion.pose.roll + s);
    const Pose solved = PoseNear(frame, motion.pose, s, s);
    return (check::FourOf(predicted) - check::FourOf(solved)).norm();
  };
  const double whole = error(0.02), half = error(0.01);
  ASSERT_GT(half, 1e-9);
  EXPECT_NEAR(whole / half, 8.0, 1.0);  // [-] fourth-order terms are a few per cent at 20 mm
}

// A mirror image moves as the mirror image: y, steer and roll change sign, the rest does not.
TEST(EvaluateMotion, MirrorImageMovesAsTheMirrorImage) {
  Vehicle vehicle = sample::LevelTruck();
  vehicle.axles[1] = sample::FourArmsTrackBar(4e5);
  const AxleFrame one = PrepareAxle(vehicle.axles[1]);
  const AxleFrame other = PrepareAxle(sample::MirrorImage(vehicle).axles[1]);
  const HousingMotion left = MotionAt(one, one.measured.z + 0.06, 0.05);
  const HousingMotion right = MotionAt(other, other.measured.z + 0.06, -0.05);
  const Eigen::Vector4d sign(1.0, -1.0, -1.0, 1.0);
  EXPECT_TRUE(Near(check::FourOf(right.pose), sign.cwiseProduct(check::FourOf(left.pose)), 1e-12));
  EXPECT_TRUE(Near(AlongQ(right, &Taylor::z), sign.cwiseProduct(AlongQ(left, &Taylor::z)), 1e-10));
  EXPECT_TRUE(Near(AlongQ(right, &Taylor::r), -sign.cwiseProduct(AlongQ(left, &Taylor::r)), 1e-10));
}

// A symmetrical axle in bounce goes neither sideways nor round.
TEST(EvaluateMotion, SymmetricalAxleBouncesStraight) {
  const AxleFrame frame = PrepareAxle(sample::TriangulatedRear());
  const HousingMotion motion = MotionAt(frame, frame.measured.z + 0.1, 0.0);
  EXPECT_NEAR(motion.pose.y, 0.0, 1e-13);
  EXPECT_NEAR(motion.pose.steer, 0.0, 1e-13);
  EXPECT_NEAR(motion.q[kY].z, 0.0, 1e-12);
  EXPECT_NEAR(motion.q[kSteer].z, 0.0, 1e-12);
}

}  // namespace
}  // namespace linkwright
