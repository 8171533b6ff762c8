// SPDX-License-Identifier: MIT
#include "solver/rest/contact_line.h"

namespace linkwright {
namespace {

RestPoint UpOf(const RestState& state) {
  RestFunction a = RestConstant(state.slope.x()), b = RestConstant(state.slope.y());
  a.gradient[kSlopeX] = 1.0;
  b.gradient[kSlopeY] = 1.0;
  return {a, b, sqrt(RestConstant(1.0) - a * a - b * b)};
}

// Down from the housing's centre, in the plane square to its lateral axis u: by its height h over
// the cosine of the lean. With s = n . u, the direction is (n - s u) and its rise 1 - s^2.
RestPoint ContactOf(const RestState& state, size_t axle, const RestPoint& up) {
  const HousingMotion& motion = state.motion[axle];
  const RestPoint lateral = AlongAxle(TaylorPoint{motion.R[1], motion.R[4], motion.R[7]}, axle);
  const RestFunction height = HeightOfAxlePoint(state, axle, Eigen::Vector3d::Zero());
  const RestFunction s = Dot(up, lateral);
  const RestFunction reach = height * Inverse(RestConstant(1.0) - s * s);
  return AlongAxle(motion.p, axle) - reach * (up - s * lateral);
}

}  // namespace

ContactLine FindContactLine(const RestState& state) {
  ContactLine line;
  line.up = UpOf(state);
  for (size_t axle = 0; axle < 2; ++axle) line.contact[axle] = ContactOf(state, axle, line.up);
  const RestPoint along = line.contact[0] - line.contact[1];
  line.length = sqrt(Dot(along, along));
  line.along = Inverse(line.length) * along;
  line.left = Cross(line.up, line.along);
  return line;
}

RestFunction LeftOf(const ContactLine& line, const RestPoint& p_C) {
  return Dot(line.left, p_C - line.contact[1]);
}

RestPoint BodyPoint(const Eigen::Vector3d& p_C) {
  return {RestConstant(p_C.x()), RestConstant(p_C.y()), RestConstant(p_C.z())};
}

RestPoint AxlePoint(const RestState& state, size_t axle, const Eigen::Vector3d& p_AQ) {
  return AlongAxle(MotionOf(state.motion[axle], p_AQ), axle);
}

}  // namespace linkwright
