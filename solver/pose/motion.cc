// SPDX-License-Identifier: MIT
#include "solver/pose/motion.h"

#include <Eigen/LU>
#include <cmath>

#include "solver/pose/link_equations.h"

namespace linkwright {
namespace {

Taylor HeightVariable(double z) { return {.v = z, .z = 1.0}; }
Taylor RollVariable(double roll) { return {.v = roll, .r = 1.0}; }

// dq/ds = -slope^-1 dF/ds with the unknowns held; then d2q/ds2 = -slope^-1 d2F/ds2 with their first
// derivatives in and their second ones left out. docs/theory.md (5)
//   determinant   receives that of the slope
std::array<Taylor, 4> UnknownsAlong(const AxleFrame& frame, const Pose& pose, double& determinant) {
  std::array<Taylor, 4> q{Constant(pose.x), Constant(pose.y), Constant(pose.steer),
                          Constant(pose.pitch)};
  const Taylor z = HeightVariable(pose.z), roll = RollVariable(pose.roll);
  const PoseEquations<Taylor> held = EvaluateEquations(frame, q, z, roll);
  const Eigen::PartialPivLU<Eigen::Matrix4d> slope(held.slope);
  determinant = slope.determinant();
  Eigen::Matrix<double, 4, 2> first;
  for (int i = 0; i < 4; ++i) {
    const Taylor& F = held.F[static_cast<size_t>(i)];
    first.row(i) << F.z, F.r;
  }
  first = slope.solve(-first).eval();
  for (int i = 0; i < 4; ++i) {
    q[static_cast<size_t>(i)].z = first(i, 0);
    q[static_cast<size_t>(i)].r = first(i, 1);
  }
  const PoseEquations<Taylor> moving = EvaluateEquations(frame, q, z, roll);
  Eigen::Matrix<double, 4, 3> second;
  for (int i = 0; i < 4; ++i) {
    const Taylor& F = moving.F[static_cast<size_t>(i)];
    second.row(i) << F.zz, F.zr, F.rr;
  }
  second = slope.solve(-second).eval();
  for (int i = 0; i < 4; ++i) {
    Taylor& unknown = q[static_cast<size_t>(i)];
    unknown.zz = second(i, 0);
    unknown.zr = second(i, 1);
    unknown.rr = second(i, 2);
  }
  return q;
}

}  // namespace

HousingMotion EvaluateMotion(const AxleFrame& frame, const Pose& pose) {
  HousingMotion motion{};
  motion.pose = pose;
  motion.q = UnknownsAlong(frame, pose, motion.determinant);
  motion.p = {motion.q[kX], motion.q[kY], HeightVariable(pose.z)};
  motion.R = HousingRotation(motion.q[kSteer], RollVariable(pose.roll), motion.q[kPitch]);
  if (frame.links.size() <= 4) return motion;
  const LinkStrain<Taylor> strain = StrainOf(frame, StretchesOf(frame, motion.p, motion.R));
  for (const Taylor& tension : strain.tension) motion.link_forces.push_back(tension.v);
  motion.strain = strain.energy;
  return motion;
}

TaylorPoint MotionOf(const HousingMotion& motion, const Eigen::Vector3d& p_AQ) {
  return Rotate(motion.R, p_AQ) + motion.p;
}

Taylor DistanceTo(const HousingMotion& motion, const Eigen::Vector3d& p_CP,
                  const Eigen::Vector3d& p_AQ) {
  return Norm(MotionOf(motion, p_AQ) - p_CP);
}

Taylor LengthOf(const AxleFrame& frame, const HousingMotion& motion, const Span& span) {
  return DistanceTo(motion, span.p_CP, OnHousing(frame, span.p_CQ));
}

Taylor HousingPitch(const AxleFrame& frame, const HousingMotion& motion) {
  const Eigen::Vector3d forward = frame.X_CA.linear().transpose() * Eigen::Vector3d::UnitX();
  return asin(Rotate(motion.R, forward)[2]);
}

namespace {

// Steer turns about z of C, roll about the housing's level forward direction, pitch about -y of A.
Eigen::Vector3d Turn(const HousingMotion& motion, double steer, double roll, double pitch) {
  const double heading = motion.pose.steer;
  const Eigen::Vector3d forward(std::cos(heading), std::sin(heading), 0.0);
  return steer * Eigen::Vector3d::UnitZ() + roll * forward - pitch * ValueOf(LateralAxis(motion.R));
}

}  // namespace

Eigen::Vector3d CentreOf(const HousingMotion& motion) { return ValueOf(motion.p); }

Eigen::Vector3d TurnPerRoll(const HousingMotion& motion) {
  return Turn(motion, motion.q[kSteer].r, 1.0, motion.q[kPitch].r);
}

Eigen::Vector3d TurnPerHeight(const HousingMotion& motion) {
  return Turn(motion, motion.q[kSteer].z, 0.0, motion.q[kPitch].z);
}

Pose Predict(const HousingMotion& motion, double z, double roll) {
  const double dz = z - motion.pose.z, dr = roll - motion.pose.roll;
  const auto at = [&](const Taylor& t) {
    return t.v + t.z * dz + t.r * dr + 0.5 * (t.zz * dz * dz + t.rr * dr * dr) + t.zr * dz * dr;
  };
  return {.x = at(motion.q[kX]),
          .y = at(motion.q[kY]),
          .steer = at(motion.q[kSteer]),
          .pitch = at(motion.q[kPitch]),
          .z = z,
          .roll = roll};
}

}  // namespace linkwright
