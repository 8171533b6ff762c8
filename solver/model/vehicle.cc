// SPDX-License-Identifier: MIT
#include "solver/model/vehicle.h"

namespace linkwright {

std::string DisplayName(const MemberName& name) {
  switch (name.side) {
    case Side::kLeft:
      return name.key + " left";
    case Side::kRight:
      return name.key + " right";
    case Side::kMiddle:
      break;
  }
  return name.key;
}

double LengthOf(const Link& link) { return link.length.value_or(MeasuredLength(link.span)); }

double LengthOf(const TieRod& rod) { return rod.length.value_or((rod.p_CL - rod.p_CR).norm()); }

double DragLinkLength(const Steering& steering) {
  return steering.drag_link_length.value_or(MeasuredLength(steering.drag_link));
}

double MeasuredLength(const Span& span) { return (span.p_CQ - span.p_CP).norm(); }

std::span<const size_t> AxlesOf(const Vehicle& vehicle) {
  static constexpr std::array<size_t, 2> kBoth{kFront, kRear};
  const std::span<const size_t> both(kBoth);
  return vehicle.only_axle ? both.subspan(*vehicle.only_axle, 1) : both;
}

bool IsThere(const Vehicle& vehicle, size_t axle) {
  return vehicle.only_axle.value_or(axle) == axle;
}

std::string WheelName(const Vehicle& vehicle, size_t wheel) {
  return vehicle.axles[wheel / 2].name + (wheel % 2 == 0 ? " left" : " right");
}

double FreeRadius(const Tire& tire, size_t side) {
  return side == 1 && tire.right_radius ? *tire.right_radius : tire.radius.value();
}

}  // namespace linkwright
