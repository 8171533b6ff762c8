// SPDX-License-Identifier: MIT
#include "io/write/sweep_axle_columns.h"

namespace linkwright {
namespace {

using enum Dimension;
using Value = std::optional<double>;

bool Always(const Axle&) { return true; }
bool HasPinion(const Axle& axle) { return axle.pinion.has_value(); }
bool HasKingpin(const Axle& axle) { return axle.kingpin.has_value(); }
bool HasDriveShare(const Axle& axle) { return axle.drive_share.has_value(); }
bool HasBrakeShare(const Axle& axle) { return axle.brake_share.has_value(); }
bool HasSprings(const Axle& axle) { return !axle.springs.empty(); }
bool HasOpening(const Axle& axle) { return axle.opening.has_value(); }

constexpr AxleColumn Same(const char* name, const char* head, Dimension dimension, AxlePart part,
                          const char* definition, bool needs_mass, bool (*applies)(const Axle&),
                          Value (*value)(const AxleRow&)) {
  return {name, name, head, head, dimension, part, definition, needs_mass, applies, value};
}

}  // namespace

const char* PartName(AxlePart part) {
  switch (part) {
    case AxlePart::kPosition:
      return "where the wheels go";
    case AxlePart::kViews:
      return "side and front view";
    case AxlePart::kRide:
      break;
  }
  return "coils and ride";
}

const std::vector<AxleColumn>& AxleColumnsBeforeRollAxis() {
  static const std::vector<AxleColumn> columns{
      Same("wheelbase_change", "wheelbase change", kLength, AxlePart::kPosition,
           "change of this axle's housing-centre x in chassis axes against the row at 0; + "
           "lengthens "
           "the wheelbase",
           false, Always, [](const AxleRow& r) -> Value { return r.wheelbase_change; }),
      Same("lateral_shift", "lateral shift", kLength, AxlePart::kPosition,
           "housing centre y against the row at 0; + left", false, Always,
           [](const AxleRow& r) -> Value { return r.lateral_shift; }),
      Same("axle_steer", "axle steer", kAngle, AxlePart::kPosition,
           "heading of the housing's lateral axis in chassis axes, not against the rest; + turned "
           "left",
           false, Always, [](const AxleRow& r) -> Value { return r.axle_steer; }),
      Same(
          "housing_pitch", "housing pitch", kAngle, AxlePart::kPosition,
          "elevation of the housing's forward axis over the chassis xy plane, against the measured "
          "stance; + nose up",
          false, Always, [](const AxleRow& r) -> Value { return r.housing_pitch; }),
      Same("pinion_angle", "pinion angle", kAngle, AxlePart::kPosition,
           "angle of the pinion shaft to the floor; + yoke end up", false, HasPinion,
           [](const AxleRow& r) { return r.pinion_angle; }),
      Same("caster", "caster", kAngle, AxlePart::kPosition,
           "lean of the kingpin to the floor; + top rearward", false, HasKingpin,
           [](const AxleRow& r) { return r.caster; }),
      Same("instant_center_ahead", "instant ctr ahead", kLength, AxlePart::kViews,
           "side-view instant centre of the housing in bounce: ahead of the housing centre along "
           "the "
           "floor; empty where the housing does not rotate",
           false, Always,
           [](const AxleRow& r) -> Value {
             return r.instant_center ? Value(r.instant_center->ahead) : std::nullopt;
           }),
      Same("instant_center_height", "instant ctr height", kLength, AxlePart::kViews,
           "the same point's height above the floor", false, Always,
           [](const AxleRow& r) -> Value {
             return r.instant_center ? Value(r.instant_center->height) : std::nullopt;
           }),
      AxleColumn{"anti_lift_drive", "anti_squat", "anti-lift, drive", "anti-squat", kPercent,
                 AxlePart::kViews,
                 "how far the links oppose what drive torque does to this axle's end of the body "
                 "(rear: squat, front: lift), this axle's share of drive; 100 cancels it",
                 true, HasDriveShare, [](const AxleRow& r) { return r.anti_drive; }},
      AxleColumn{
          "anti_dive", "anti_lift_brake", "anti-dive", "anti-lift, braking", kPercent,
          AxlePart::kViews,
          "how far the links oppose what braking does to this axle's end of the body (front: "
          "dive, rear: lift), brakes on the housing, this axle's share; 100 cancels it",
          true, HasBrakeShare, [](const AxleRow& r) { return r.anti_brake; }},
      Same("roll_center_height", "roll centre height", kLength, AxlePart::kViews,
           "height above the floor of the point, on the perpendicular through the housing centre, "
           "that antisymmetric travel leaves where it is sideways",
           false, Always, [](const AxleRow& r) -> Value { return r.roll_center_height; }),
  };
  return columns;
}

const std::vector<AxleColumn>& AxleColumnsAfterRollAxis() {
  static const std::vector<AxleColumn> columns{
      Same("roll_steer", "roll steer", kAngleRatio, AxlePart::kViews,
           "axle steer (left +) per degree of body roll (left side up +); + is understeer at the "
           "rear, oversteer at the front",
           false, Always, [](const AxleRow& r) -> Value { return r.roll_steer; }),
      Same("spring_length", "coil length", kLength, AxlePart::kRide,
           "mean length of the axle's coils, seat to seat", false, HasSprings,
           [](const AxleRow& r) { return r.spring_length; }),
      Same("spring_force", "coil force", kForce, AxlePart::kRide, "mean force of the axle's coils",
           true, HasSprings, [](const AxleRow& r) { return r.spring_force; }),
      Same("wheel_rate", "wheel rate", kRate, AxlePart::kRide,
           "per wheel in bounce: half the second derivative of the energy in coils and stops by "
           "travel",
           true, Always, [](const AxleRow& r) { return r.wheel_rate; }),
      Same("ride_rate", "ride rate", kRate, AxlePart::kRide, "wheel rate with the tyre in series",
           true, Always, [](const AxleRow& r) { return r.ride_rate; }),
      Same(
          "ride_frequency", "ride frequency", kFrequency, AxlePart::kRide,
          "frequency of the sprung mass this axle carries at rest under the load, on its ride rate",
          true, Always, [](const AxleRow& r) { return r.ride_frequency; }),
      Same("rest_frequency", "rest frequency", kFrequency, AxlePart::kRide,
           "the same with the mass that would rest at this travel: as if the body's weight changed "
           "until it sat here; empty where coils and stops would have to pull",
           true, Always, [](const AxleRow& r) { return r.rest_frequency; }),
      Same("link_strain_force", "link strain force", kForce, AxlePart::kRide,
           "greatest force in a link from links fighting one another; 0 for four links", true,
           Always, [](const AxleRow& r) { return r.link_strain_force; }),
  };
  return columns;
}

const std::vector<AxleColumn>& OpeningColumns() {
  static const std::vector<AxleColumn> columns{
      Same("opening_ahead", "ahead of opening", kLength, AxlePart::kPosition,
           "mean wheel centre ahead of the centre of its opening, chassis axes", false, HasOpening,
           [](const AxleRow& r) { return r.opening_ahead; }),
      Same("opening_up", "above opening", kLength, AxlePart::kPosition,
           "mean wheel centre above the centre of its opening, chassis axes", false, HasOpening,
           [](const AxleRow& r) { return r.opening_up; }),
  };
  return columns;
}

}  // namespace linkwright
