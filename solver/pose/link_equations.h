// SPDX-License-Identifier: MIT
// What the links ask of a housing: residuals, their Jacobian, and the equations whose root is the
// pose. docs/theory.md (3) to (5).
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/numeric/dual.h"
#include "solver/numeric/taylor.h"
#include "solver/pose/axle_frame.h"
#include "solver/pose/rotation.h"

namespace linkwright {

// Columns of every Jacobian below: the four unknowns of a pose.
enum Unknown { kX, kY, kSteer, kPitch };

// The four unknowns of a pose, and a pose with others in their place.
[[nodiscard]] inline Eigen::Vector4d UnknownsOf(const Pose& pose) {
  return {pose.x, pose.y, pose.steer, pose.pitch};
}
[[nodiscard]] inline Pose WithUnknowns(const Pose& pose, const Eigen::Vector4d& q) {
  return {q[kX], q[kY], q[kSteer], q[kPitch], pose.z, pose.roll};
}

// Residual of one link, |p + R a - b| - length [m], or of a crank or an arm, for any scalar T.
//   p   housing centre in C [m];  R   R_CA
template <typename T>
T LinkResidual(const FrameLink& link, const Vector3<T>& p, const Rotation<T>& R) {
  if (link.crank) return CrankResidual(*link.crank, p, R);
  if (link.arm) return EyeMoved(*link.arm, p, R)[link.arm_way];
  return Norm(Rotate(R, link.p_AQ) + p - link.p_CP) - link.length;
}

// Of every link: what it is too long by.
template <typename T>
std::vector<T> StretchesOf(const AxleFrame& frame, const Vector3<T>& p, const Rotation<T>& R) {
  std::vector<T> stretch;
  stretch.reserve(frame.links.size());
  for (const FrameLink& link : frame.links) stretch.push_back(LinkResidual(link, p, R));
  return stretch;
}

// The same from a housing's six coordinates: x, y [m], steer, pitch [rad], z [m], roll [rad], each
// by itself.
template <typename T>
std::vector<T> StretchesAt(const AxleFrame& frame, const std::array<T, 6>& q) {
  return StretchesOf(frame, Vector3<T>{q[0], q[1], q[4]}, HousingRotation(q[2], q[5], q[3]));
}
[[nodiscard]] inline std::array<double, 6> CoordinatesOf(const Pose& pose) {
  return {pose.x, pose.y, pose.steer, pose.pitch, pose.z, pose.roll};
}

// Residuals (n) and their Jacobian by the four unknowns (n x 4) [m, m/m, m/rad].
// jacobian may be null. Column-major, as ceres::TinySolver wants it.
void LinkResiduals(const std::vector<FrameLink>& links, const Pose& pose, double* residuals,
                   double* jacobian);

// The Jacobian alone (n x 4).
[[nodiscard]] Eigen::Matrix<double, Eigen::Dynamic, 4> LinkJacobian(const AxleFrame& frame,
                                                                    const Pose& pose);

// Rate of the stiffest link [N/m].
[[nodiscard]] double GreatestRate(const AxleFrame& frame);

// The equations F(unknowns; z, roll) = 0 that a pose satisfies: the residuals themselves for four
// links, the gradient of the strain energy over the greatest rate for more.
//   F         value and derivatives by z and roll of each, unknowns as the Taylors in `q` have them
//   slope     dF/d unknowns (4 x 4)
template <typename T>
struct PoseEquations {
  std::array<T, 4> F;
  Eigen::Matrix4d slope;
};
[[nodiscard]] PoseEquations<Taylor> EvaluateEquations(const AxleFrame& frame,
                                                      const std::array<Taylor, 4>& q,
                                                      const Taylor& z, const Taylor& roll);

// The same at a pose, values only: what a solve needs, at a sixth of the work.
[[nodiscard]] PoseEquations<double> EvaluateEquations(const AxleFrame& frame, const Pose& pose);

}  // namespace linkwright
