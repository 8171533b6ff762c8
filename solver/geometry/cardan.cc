// SPDX-License-Identifier: MIT
#include "solver/geometry/cardan.h"

#include <Eigen/Geometry>
#include <cmath>

#include "solver/numeric/decompositions.h"

namespace linkwright {
namespace {

using Basis = Eigen::Matrix<double, 3, 2>;

// Two unit vectors across a shaft, right-handed with it.
Basis Across(const Eigen::Vector3d& along) {
  Basis basis;
  basis.col(0) = along.unitOrthogonal();
  basis.col(1) = along.cross(basis.col(0));
  return basis;
}

// Of one joint: a cross carries the pin y of the driving yoke over into d x y, square to y and to
// the driven shaft d; a constant-velocity joint into y swung along with the shaft.
Eigen::Matrix3d CarryOver(const Eigen::Vector3d& from, const Eigen::Vector3d& to, JointKind kind) {
  if (kind == JointKind::kDouble) {
    return ShortestTurn(from, to).toRotationMatrix();
  }
  Eigen::Matrix3d cross;
  cross << 0.0, -to.z(), to.y(), to.z(), 0.0, -to.x(), -to.y(), to.x(), 0.0;
  return cross;
}

// Sum and difference of the singular values of a 2 x 2 matrix with a positive determinant, each
// without loss of digits.
struct Singular {
  double sum, difference;
};

Singular SingularOf(const Eigen::Matrix2d& m) {
  return {.sum = std::hypot(m(0, 0) + m(1, 1), m(0, 1) - m(1, 0)),
          .difference = std::hypot(m(0, 0) - m(1, 1), m(0, 1) + m(1, 0))};
}

// The map from the first shaft's basis into space, onto the driving yoke's pin of joint `joints`:
// its own phase turned in.
Basis PinsInSpace(const JointChain& chain, size_t joints) {
  Basis pins = Across(chain.along.front());
  for (size_t i = 0; i < joints; ++i) {
    pins = CarryOver(chain.along[i], chain.along[i + 1], chain.joints[i]) * pins;
    if (i + 2 < chain.along.size()) {
      pins = Eigen::AngleAxisd(chain.phase[i], chain.along[i + 1]).toRotationMatrix() * pins;
    }
  }
  return pins;
}

}  // namespace

Eigen::Matrix2d TurnMap(const JointChain& chain, size_t joints) {
  return Across(chain.along[joints]).transpose() * PinsInSpace(chain, joints);
}

// With y the first shaft's pin, a unit vector at angle p: the driven pin stands at the direction of
// M y, and turns by det M / |M y|^2 per unit of p. The extremes are those of |M y|: the singular
// values. The mean over a turn is 1.
double RippleOf(const Eigen::Matrix2d& turn_map) {
  const Singular s = SingularOf(turn_map);
  return s.sum * s.difference / turn_map.determinant();
}

double NetAngle(const Eigen::Matrix2d& turn_map) {
  const Singular s = SingularOf(turn_map);
  return 2.0 * std::atan(std::sqrt(s.difference / s.sum));  // cos = least over greatest
}

Eigen::Matrix2d BackMap(const JointChain& chain, size_t joints) {
  return TurnMap(chain, joints) * TurnMap(chain, chain.joints.size()).inverse();
}

// The acceleration of one cross, cos b sin^2 b sin 2p / (1 - sin^2 b cos^2 p)^2 per square of the
// driving speed, is greatest where cos 2p = u below.
double PeakAcceleration(double angle) {
  const double s2 = std::sin(angle) * std::sin(angle);
  const double even = 2.0 - s2;
  const double u = 4.0 * s2 / (even + std::sqrt(even * even + 8.0 * s2 * s2));
  const double spread = even - s2 * u;
  return 4.0 * std::cos(angle) * s2 * std::sqrt(1.0 - u * u) / (spread * spread);
}

JointParts PartsOf(const Eigen::Vector3d& before, const Eigen::Vector3d& after) {
  const auto rise = [](const Eigen::Vector3d& d) { return std::atan2(d.z(), std::abs(d.x())); };
  const auto aside = [](const Eigen::Vector3d& d) { return std::atan2(d.y(), std::abs(d.x())); };
  return {.side = rise(after) - rise(before),
          .plan = aside(after) - aside(before),
          .angle = AngleBetween(before, after)};
}

double AngleBetween(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return std::atan2(a.cross(b).norm(), a.dot(b));
}

}  // namespace linkwright
