// SPDX-License-Identifier: MIT
#include "solver/rest/contact_line.h"

#include <cmath>

namespace linkwright {
namespace {

RestPoint UpOf(const RestState& state) {
  RestFunction a = RestConstant(state.slope.x()), b = RestConstant(state.slope.y());
  a.gradient[kSlopeX] = 1.0;
  b.gradient[kSlopeY] = 1.0;
  return {a, b, sqrt(RestConstant(1.0) - a * a - b * b)};
}

// With s = n . u the direction down in the plane square to u is -(n - s u) / sqrt(1 - s^2).
RestPoint ContactOf(const RestState& state, size_t axle, const RestPoint& up, double radius) {
  const HousingMotion& motion = state.motion[axle];
  const RestPoint lateral = AlongAxle(TaylorPoint{motion.R[1], motion.R[4], motion.R[7]}, axle);
  const RestFunction s = Dot(up, lateral);
  const RestFunction reach = radius * Inverse(sqrt(RestConstant(1.0) - s * s));
  return AlongAxle(motion.p, axle) - reach * (up - s * lateral);
}

}  // namespace

ContactLine FindContactLine(const RestState& state, const std::array<double, 2>& radius) {
  ContactLine line;
  line.up = UpOf(state);
  for (size_t axle = 0; axle < 2; ++axle) {
    line.contact[axle] = ContactOf(state, axle, line.up, radius[axle]);
  }
  const RestPoint apart = line.contact[0] - line.contact[1];
  const RestPoint on_floor = apart - Dot(apart, line.up) * line.up;
  line.length = sqrt(Dot(on_floor, on_floor));
  line.along = Inverse(line.length) * on_floor;
  line.left = Cross(line.up, line.along);
  return line;
}

std::array<double, 2> ContactRadii(const RestState& state) {
  std::array<double, 2> radius{};
  for (size_t axle = 0; axle < 2; ++axle) {
    const HousingMotion& motion = state.motion[axle];
    const Eigen::Vector3d lateral(motion.R[1].v, motion.R[4].v, motion.R[7].v);
    const double s = UpInChassis(state).dot(lateral);
    radius[axle] =
        HeightOfAxlePoint(state, axle, Eigen::Vector3d::Zero()).value / std::sqrt(1.0 - s * s);
  }
  return radius;
}

RestPoint BodyPoint(const Eigen::Vector3d& p_C) {
  return {RestConstant(p_C.x()), RestConstant(p_C.y()), RestConstant(p_C.z())};
}

RestPoint AxlePoint(const RestState& state, size_t axle, const Eigen::Vector3d& p_AQ) {
  return AlongAxle(MotionOf(state.motion[axle], p_AQ), axle);
}

}  // namespace linkwright
