// SPDX-License-Identifier: MIT
#include "io/write/sweep_axle_columns.h"

namespace linkwright {
namespace {

using enum Dimension;

// Which printed table of its axle a column stands in.
constexpr const char* kPosition = "where the wheels go";
constexpr const char* kViews = "side and front view";
constexpr const char* kRide = "coils and ride";

bool HasMass(const AxleInSweep& it) { return it.has_mass; }
bool HasPinion(const AxleInSweep& it) { return it.axle.pinion.has_value(); }
bool HasKingpin(const AxleInSweep& it) { return it.axle.kingpin.has_value(); }
bool HasDriveShare(const AxleInSweep& it) { return it.has_mass && it.axle.drive_share; }
bool HasBrakeShare(const AxleInSweep& it) { return it.has_mass && it.axle.brake_share; }
bool HasSprings(const AxleInSweep& it) { return !it.axle.springs.empty(); }
bool HasSpringsAndMass(const AxleInSweep& it) { return HasSprings(it) && it.has_mass; }
bool HasOpening(const AxleInSweep& it) { return it.axle.opening.has_value(); }

constexpr const char* kAntiDrive =
    "how far the links oppose what drive torque does to this axle's end of the body (rear: squat, "
    "front: lift), this axle's share of drive; 100 cancels it";
constexpr const char* kAntiBrake =
    "how far the links oppose what braking does to this axle's end of the body (front: dive, rear: "
    "lift), brakes on the housing, this axle's share; 100 cancels it";

}  // namespace

std::vector<AxleColumn> AxleColumnsBeforeRollAxis() {
  return {
      {{"wheelbase_change", "wheelbase change", kLength,
        "change of this axle's housing-centre x in chassis axes against the row at 0; + lengthens "
        "the wheelbase",
        &AxleRow::wheelbase_change, kPosition}},
      {{"lateral_shift", "lateral shift", kLength, "housing centre y against the row at 0; + left",
        &AxleRow::lateral_shift, kPosition}},
      {{"axle_steer", "axle steer", kAngle,
        "heading of the housing's lateral axis in chassis axes, not against the rest; + turned "
        "left",
        &AxleRow::axle_steer, kPosition}},
      {{"housing_pitch", "housing pitch", kAngle,
        "elevation of the housing's forward axis over the chassis xy plane, against the measured "
        "stance; + nose up",
        &AxleRow::housing_pitch, kPosition}},
      {{"pinion_angle", "pinion angle", kAngle,
        "angle of the pinion shaft to the floor; + yoke end up", &AxleRow::pinion_angle, kPosition},
       HasPinion},
      {{"caster", "caster", kAngle, "lean of the kingpin to the floor; + top rearward",
        &AxleRow::caster, kPosition},
       HasKingpin},
      {{"instant_center_ahead", "instant ctr ahead", kLength,
        "side-view instant centre of the housing in bounce: ahead of the housing centre along the "
        "floor; empty where the housing does not rotate",
        [](auto& r) { return Within(r.instant_center, &InstantCenter::ahead); }, kViews}},
      {{"instant_center_height", "instant ctr height", kLength,
        "the same point's height above the floor",
        [](auto& r) { return Within(r.instant_center, &InstantCenter::height); }, kViews}},
      {{"anti_squat", "anti-squat", kPercent, kAntiDrive, &AxleRow::anti_drive, kViews},
       HasDriveShare,
       kRear},
      {{"anti_lift_drive", "anti-lift, drive", kPercent, kAntiDrive, &AxleRow::anti_drive, kViews},
       HasDriveShare,
       kFront},
      {{"anti_dive", "anti-dive", kPercent, kAntiBrake, &AxleRow::anti_brake, kViews},
       HasBrakeShare,
       kFront},
      {{"anti_lift_brake", "anti-lift, braking", kPercent, kAntiBrake, &AxleRow::anti_brake,
        kViews},
       HasBrakeShare,
       kRear},
      {{"roll_center_height", "roll centre height", kLength,
        "height above the floor of the point, on the perpendicular through the housing centre, "
        "that antisymmetric travel leaves where it is sideways",
        &AxleRow::roll_center_height, kViews}},
  };
}

std::vector<AxleColumn> AxleColumnsAfterRollAxis() {
  return {
      {{"roll_steer", "roll steer", kAngleRatio,
        "axle steer (left +) per degree of body roll (left side up +); + is understeer at the "
        "rear, oversteer at the front",
        &AxleRow::roll_steer, kViews}},
      {{"spring_length", "coil length", kLength, "mean length of the axle's coils, seat to seat",
        &AxleRow::spring_length, kRide},
       HasSprings},
      {{"spring_force", "coil force", kForce, "mean force of the axle's coils",
        &AxleRow::spring_force, kRide},
       HasSpringsAndMass},
      {{"wheel_rate", "wheel rate", kRate,
        "per wheel in bounce: half the second derivative of the energy in coils and stops by "
        "travel",
        &AxleRow::wheel_rate, kRide},
       HasMass},
      {{"ride_rate", "ride rate", kRate, "wheel rate with the tyre in series", &AxleRow::ride_rate,
        kRide},
       HasMass},
      {{"ride_frequency", "ride frequency", kFrequency,
        "frequency of the sprung mass this axle carries at rest under the load, on its ride rate",
        &AxleRow::ride_frequency, kRide},
       HasMass},
      {{"rest_frequency", "rest frequency", kFrequency,
        "the same with the mass that would rest at this travel: as if the body's weight changed "
        "until it sat here; empty where coils and stops would have to pull",
        &AxleRow::rest_frequency, kRide},
       HasMass},
      {{"link_strain_force", "link strain force", kForce,
        "greatest force in a link from links fighting one another; 0 for four links",
        &AxleRow::link_strain_force, kRide},
       HasMass},
  };
}

std::vector<AxleColumn> OpeningColumns() {
  return {
      {{"opening_ahead", "ahead of opening", kLength,
        "mean wheel centre ahead of the centre of its opening, chassis axes",
        &AxleRow::opening_ahead, kPosition},
       HasOpening},
      {{"opening_up", "above opening", kLength,
        "mean wheel centre above the centre of its opening, chassis axes", &AxleRow::opening_up,
        kPosition},
       HasOpening},
  };
}

}  // namespace linkwright
