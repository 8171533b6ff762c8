// SPDX-License-Identifier: MIT
#include "solver/geometry/driveshaft.h"

#include <algorithm>
#include <cmath>

#include "solver/model/error.h"

namespace linkwright {
namespace {

double AngleBetween(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return std::atan2(a.cross(b).norm(), a.dot(b));
}

// Direction of a shaft end from its body toward its yoke: ahead (+1) or behind (-1), raised by
// angle.
Eigen::Vector3d YokeDirection(double toward, double angle) {
  return {toward * std::cos(angle), 0.0, std::sin(angle)};
}

// The speed ratio of a joint and its inverse are quadratic in the direction of the shaft's yoke:
// c' (I - sin^2(beta) k k') c / cos(beta). This is the matrix without the 1/cos(beta); k is the
// unit vector in the plane across the shaft where the ratio is least.
Eigen::Matrix2d YokeForm(double beta, const Eigen::Vector2d& k) {
  const double s = std::sin(beta);
  return Eigen::Matrix2d::Identity() - s * s * k * k.transpose();
}

}  // namespace

// With y the direction of the shaft's input-side yoke pin across the shaft and m the normal of a
// joint's plane: shaft speed over input = y'(I - s1^2 t1 t1')y / c1 with t1 = shaft x m1 (the pin
// of a driven yoke), output over shaft = c2 / y'(I - s2^2 ...)y with the yoke turned by the phase.
// Their product's extremes over a turn are the eigenvalues of one form against the other.
double SpeedRipple(const Eigen::Vector3d& input, const Eigen::Vector3d& shaft,
                   const Eigen::Vector3d& output, double phase, bool first, bool second) {
  Eigen::Vector3d any = input.cross(shaft);
  if (!(any.norm() > 1e-12)) any = shaft.unitOrthogonal();
  const Eigen::Vector3d a1 = any.normalized(), a2 = shaft.cross(a1);
  const double beta1 = first ? AngleBetween(input, shaft) : 0.0;
  const double beta2 = second ? AngleBetween(shaft, output) : 0.0;

  // Across the shaft in the basis (a1, a2); the driven pin stands square to the driving one.
  const Eigen::Matrix2d drive = YokeForm(beta1, {0.0, 1.0});
  Eigen::Matrix2d take = Eigen::Matrix2d::Identity();
  Eigen::Vector3d m2 = shaft.cross(output);
  if (m2.norm() > 1e-12) {
    m2.normalize();
    const Eigen::Vector3d t2 = shaft.cross(m2);
    const Eigen::Rotation2Dd back(-phase);
    take = YokeForm(beta2, back * Eigen::Vector2d(t2.dot(a1), t2.dot(a2)));
  }
  const double scale = std::cos(beta2) / std::cos(beta1);
  const Eigen::Matrix2d ratio = take.inverse() * drive;
  const double half_gap = 0.5 * (ratio(0, 0) - ratio(1, 1));
  const double spread = std::sqrt(std::max(0.0, half_gap * half_gap + ratio(0, 1) * ratio(1, 0)));
  return 2.0 * scale * spread;  // the mean ratio over a turn at steady output speed is 1
}

DriveshaftState EvaluateDriveshaft(const Driveshaft& shaft, const Axle& axle,
                                   const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  if (!axle.pinion) {
    throw ModelError({"driveshafts", shaft.name, "axle"},
                     "the " + axle.name + " axle has no pinion for this shaft to drive");
  }
  const Pinion& pinion = *axle.pinion;
  const Eigen::Vector3d p_CY = X_CA * OnHousing(frame, pinion.p_CY);
  const Eigen::Vector3d p_OY_C = p_CY - shaft.p_CO;
  const double length = p_OY_C.norm();
  if (!(length > 0.0)) {
    throw ModelError({"driveshafts", shaft.name, "output"},
                     "both joints of the shaft are at one point");
  }
  const Eigen::Vector3d along = p_OY_C / length;
  const double toward_axle = pinion.p_CY.x() > shaft.p_CO.x() ? 1.0 : -1.0;
  const double yoke_side = pinion.p_CY.x() > frame.measured.x ? 1.0 : -1.0;
  const Eigen::Vector3d input = YokeDirection(toward_axle, shaft.output_angle);
  const Eigen::Vector3d pinion_in_A =
      frame.X_CA.linear().transpose() * YokeDirection(yoke_side, pinion.angle);
  const Eigen::Vector3d output = -(X_CA.linear() * pinion_in_A);
  const bool first = shaft.output_joint == JointKind::kSingle;
  const bool second = shaft.axle_joint == JointKind::kSingle;
  return {.length = length,
          .output_angle = AngleBetween(input, along),
          .axle_angle = AngleBetween(along, output),
          .ripple = SpeedRipple(input, along, output, shaft.phase, first, second)};
}

}  // namespace linkwright
