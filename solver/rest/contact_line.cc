// SPDX-License-Identifier: MIT
#include "solver/rest/contact_line.h"

namespace linkwright {
namespace {

RestNumber Unknown(RestUnknown which, double value) {
  RestNumber number{value, {}};
  number.d[which] = 1.0;
  return number;
}

RestVector3 UpOf(const RestState& state) {
  const RestNumber a = Unknown(kSlopeX, state.slope.x()), b = Unknown(kSlopeY, state.slope.y());
  return {a, b, sqrt(-(a * a + b * b) + 1.0)};
}

// With s = n . u the direction down in the plane square to u is -(n - s u) / sqrt(1 - s^2), and the
// floor is h / sqrt(1 - s^2) away along it, h the height of the housing's centre.
RestVector3 ContactOf(const RestState& state, size_t axle, const RestVector3& up,
                      ContactPoint point) {
  const HousingMotion& motion = state.motion[axle];
  const RestVector3 centre = FirstOrder(motion.p, axle);
  const RestVector3 lateral = FirstOrder(LateralAxis(motion.R), axle);
  const RestNumber s = Dot(up, lateral);
  const RestNumber steepness = sqrt(-(s * s) + 1.0);
  RestNumber radius = (Unknown(kHeave, state.heave) + Dot(up, centre)) / steepness;
  if (point == ContactPoint::kOfHousing) radius.d.fill(0.0);
  return centre - (radius / steepness) * (up - s * lateral);
}

}  // namespace

RestVector3 OnFloor(const RestVector3& a, const RestVector3& up) { return a - Dot(a, up) * up; }

ContactLine FindContactLine(const RestState& state, ContactPoint point) {
  ContactLine line;
  line.up = UpOf(state);
  for (size_t axle = 0; axle < 2; ++axle) {
    line.contact[axle] = ContactOf(state, axle, line.up, point);
  }
  const RestVector3 on_floor = OnFloor(line.contact[0] - line.contact[1], line.up);
  line.length = Norm(on_floor);
  line.along = (RestNumber{1.0, {}} / line.length) * on_floor;
  line.left = Cross(line.up, line.along);
  return line;
}

}  // namespace linkwright
