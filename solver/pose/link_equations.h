// SPDX-License-Identifier: MIT
// What the links ask of a housing: residuals, their Jacobian, and the equations whose root is the
// pose. docs/theory.md (3) to (5).
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/pose/axle_frame.h"
#include "solver/pose/rotation.h"
#include "solver/pose/taylor.h"

namespace linkwright {

// Columns of every Jacobian below: the four unknowns of a pose.
enum Unknown { kX, kY, kSteer, kPitch };

// Residual of one link, |p + R a - b| - length [m], or of a crank or an arm, for any scalar T.
//   p   housing centre in C [m];  R   R_CA
template <typename T>
T LinkResidual(const FrameLink& link, const std::array<T, 3>& p, const Rotation<T>& R) {
  using std::sqrt;
  if (link.crank) return CrankResidual(*link.crank, p, R);
  if (link.arm) return EyeMoved(*link.arm, p, R)[link.arm_way];
  std::array<T, 3> d = Rotate(R, link.p_AQ);
  for (size_t i = 0; i < 3; ++i) d[i] = d[i] + p[i] - link.p_CP[static_cast<int>(i)];
  return sqrt(Dot(d, d)) - link.length;
}

// Residuals (n) and their Jacobian by the four unknowns (n x 4) [m, m/m, m/rad].
// jacobian may be null. Column-major, as ceres::TinySolver wants it.
void LinkResiduals(const std::vector<FrameLink>& links, const Pose& pose, double* residuals,
                   double* jacobian);

// Stretch of each link per unit of x, y [m/m], steer, pitch [m/rad], z [m/m] and roll [m/rad], each
// by itself.
[[nodiscard]] std::vector<Eigen::Matrix<double, 6, 1>> StretchPerCoordinate(const AxleFrame& frame,
                                                                            const Pose& pose);

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
