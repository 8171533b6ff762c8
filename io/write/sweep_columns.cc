// SPDX-License-Identifier: MIT
#include "io/write/sweep_columns.h"

#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;
using SweepColumns = TableOf<SweepRow>;

constexpr const char* kWhole = "Whole vehicle";

// What columns there are depends on.
struct AxleInSweep {
  const Axle& axle;
  bool has_mass;  // not geometry only
};

struct AxleColumn {
  ColumnOf<AxleRow> column;  // its name as it follows the axle's own
  bool (*there)(const AxleInSweep&) = [](const AxleInSweep&) { return true; };
  std::optional<size_t> only = {};  // the one axle that has it
};

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

std::vector<AxleColumn> PositionColumns() {
  return {{{"wheelbase_change", "wheelbase change", kLength,
            "change of this axle's housing-centre x in chassis axes against the row at 0; + "
            "lengthens the wheelbase",
            &AxleRow::wheelbase_change}},
          {{"lateral_shift", "lateral shift", kLength,
            "housing centre y against the row at 0; + left", &AxleRow::lateral_shift}},
          {{"axle_steer", "axle steer", kAngle,
            "heading of the housing's lateral axis in chassis axes, not against the rest; + turned "
            "left",
            &AxleRow::axle_steer}},
          {{"housing_pitch", "housing pitch", kAngle,
            "elevation of the housing's forward axis over the chassis xy plane, against the "
            "measured stance; + nose up",
            &AxleRow::housing_pitch}},
          {{"pinion_angle", "pinion angle", kAngle,
            "angle of the pinion shaft to the floor; + yoke end up", &AxleRow::pinion_angle},
           HasPinion},
          {{"caster", "caster", kAngle, "lean of the kingpin to the floor; + top rearward",
            &AxleRow::caster},
           HasKingpin}};
}

std::vector<AxleColumn> ViewColumns() {
  return {{{"instant_center_ahead", "instant ctr ahead", kLength,
            "side-view instant centre of the housing in bounce: ahead of the housing centre along "
            "the floor; empty where the housing does not rotate",
            [](auto& r) { return Within(r.instant_center, &InstantCenter::ahead); }}},
          {{"instant_center_height", "instant ctr height", kLength,
            "the same point's height above the floor",
            [](auto& r) { return Within(r.instant_center, &InstantCenter::height); }}},
          {{"anti_squat", "anti-squat", kPercent, kAntiDrive, &AxleRow::anti_drive},
           HasDriveShare,
           kRear},
          {{"anti_lift_drive", "anti-lift, drive", kPercent, kAntiDrive, &AxleRow::anti_drive},
           HasDriveShare,
           kFront},
          {{"anti_dive", "anti-dive", kPercent, kAntiBrake, &AxleRow::anti_brake},
           HasBrakeShare,
           kFront},
          {{"anti_lift_brake", "anti-lift, braking", kPercent, kAntiBrake, &AxleRow::anti_brake},
           HasBrakeShare,
           kRear},
          {{"roll_center_height", "roll centre height", kLength,
            "height above the floor of the point, on the perpendicular through the housing centre, "
            "that antisymmetric travel leaves where it is sideways",
            &AxleRow::roll_center_height}}};
}

std::vector<AxleColumn> RollSteerColumns() {
  return {{{"roll_steer", "roll steer", kAngleRatio,
            "axle steer (left +) per degree of body roll (left side up +); + is understeer at the "
            "rear, oversteer at the front",
            &AxleRow::roll_steer}}};
}

std::vector<AxleColumn> RideColumns() {
  return {
      {{"spring_length", "coil length", kLength, "mean length of the axle's coils, seat to seat",
        &AxleRow::spring_length},
       HasSprings},
      {{"spring_force", "coil force", kForce, "mean force of the axle's coils",
        &AxleRow::spring_force},
       HasSpringsAndMass},
      {{"wheel_rate", "wheel rate", kRate,
        "per wheel in bounce: half the second derivative of the energy in coils and stops by "
        "travel",
        &AxleRow::wheel_rate},
       HasMass},
      {{"ride_rate", "ride rate", kRate, "wheel rate with the tyre in series", &AxleRow::ride_rate},
       HasMass},
      {{"ride_frequency", "ride frequency", kFrequency,
        "frequency of the sprung mass this axle carries at rest under the load, on its ride rate",
        &AxleRow::ride_frequency},
       HasMass},
      {{"rest_frequency", "rest frequency", kFrequency,
        "the same with the mass that would rest at this travel: as if the body's weight changed "
        "until it sat here; empty where coils and stops would have to pull",
        &AxleRow::rest_frequency},
       HasMass},
      {{"link_strain_force", "link strain force", kForce,
        "greatest force in a link from links fighting one another; 0 for four links",
        &AxleRow::link_strain_force},
       HasMass}};
}

std::vector<AxleColumn> OpeningColumns() {
  return {
      {{"opening_ahead", "ahead of opening", kLength,
        "mean wheel centre ahead of the centre of its opening, chassis axes",
        &AxleRow::opening_ahead},
       HasOpening},
      {{"opening_up", "above opening", kLength,
        "mean wheel centre above the centre of its opening, chassis axes", &AxleRow::opening_up},
       HasOpening}};
}

void AddWheelbase(SweepColumns& to) {
  to.push_back({"wheelbase", "wheelbase", kLength,
                "front less rear wheel-centre x along the floor, mean of left and right",
                &SweepRow::wheelbase, kWhole});
  to.push_back({"wheelbase_change", "wheelbase change", kLength,
                "wheelbase against the row at 0; + it grows", &SweepRow::wheelbase_change, kWhole});
}

void AddRollAxis(SweepColumns& to, bool has_mass) {
  if (has_mass) {
    to.push_back({"roll_axis_height", "roll axis height", kLength,
                  "height of the line through both roll centres above the floor, under the sprung "
                  "centre of mass",
                  &SweepRow::roll_axis_height, kWhole});
  }
  to.push_back({"roll_axis_slope", "roll axis slope", kAngle,
                "slope of that line against the floor; + rises toward the front",
                &SweepRow::roll_axis_slope, kWhole});
}

// Of the vehicle's axles, quantity by quantity.
//   only   this axle's alone; absent: both axles'
//   part   of its axle: which printed table they stand in
void AddAxles(SweepColumns& to, const Vehicle& vehicle, const std::optional<size_t>& only,
              bool has_mass, const char* part, const std::vector<AxleColumn>& columns) {
  for (const AxleColumn& each : columns) {
    for (const size_t i : AxlesOf(vehicle)) {
      const Axle& axle = vehicle.axles[i];
      if (only.value_or(i) != i || each.only.value_or(i) != i) continue;
      if (!each.there({axle, has_mass})) continue;
      AddPart(
          to, TableOf<AxleRow>{each.column}, [i](auto& row) -> auto& { return row.axles[i]; },
          AxleGroup(axle.name, part), axle.name + "_");
    }
  }
}

//   axle_ahead   the driven axle's joint is the one nearer the front
TableOf<DriveshaftState> ShaftColumns(bool axle_ahead, bool center_bearing) {
  const auto output = &DriveshaftState::output_angle, pinion = &DriveshaftState::axle_angle;
  TableOf<DriveshaftState> columns{
      {"driveshaft_length", "shaft length", kLength, "between the joint centres",
       &DriveshaftState::length},
      {"driveshaft_front_joint", "front joint", kAngle,
       "angle of the joint nearer the front of the vehicle", axle_ahead ? pinion : output},
      {"driveshaft_rear_joint", "rear joint", kAngle, "angle of the other joint",
       axle_ahead ? output : pinion},
      {"driveshaft_speed_ripple", "speed ripple", kPercent,
       "greatest less least of the pinion's speed over a turn at steady output speed, of its mean",
       &DriveshaftState::ripple}};
  if (center_bearing) {
    columns.push_back({"driveshaft_center_joint", "centre joint", kAngle,
                       "angle of the joint at the centre bearing, where there is one",
                       &DriveshaftState::center_angle});
  }
  return columns;
}

void AddShafts(SweepColumns& to, const Vehicle& vehicle, const std::optional<size_t>& only) {
  const std::vector<Driveshaft>& shafts = vehicle.driveshafts;
  for (size_t s = 0; s < shafts.size(); ++s) {
    const auto index = static_cast<size_t>(shafts[s].axle);
    if (only.value_or(index) != index) continue;
    const Axle& axle = vehicle.axles[index];
    const bool axle_ahead = axle.pinion && axle.pinion->p_CY.x() > shafts[s].p_CO.x();
    AddPart(
        to, ShaftColumns(axle_ahead, shafts[s].center_bearing.has_value()),
        [s](auto& row) -> auto& { return row.driveshafts[s]; },
        shafts.size() > 1 ? "Driveshaft " + shafts[s].name : "Driveshaft",
        shafts.size() > 1 ? shafts[s].name + "_" : "");
  }
}

// One drag link in most vehicles; where the rear axle steers too, its column carries the axle's
// name.
void AddSteer(SweepColumns& to, const Vehicle& vehicle, const std::optional<size_t>& only) {
  for (const size_t i : AxlesOf(vehicle)) {
    if (!vehicle.axles[i].steering || only.value_or(i) != i) continue;
    to.push_back({i == kRear && vehicle.axles[kFront].steering ? "rear_steer" : "steer", "steer",
                  kAngle,
                  "heading of the road wheel on the drag link's side with the steering wheel held, "
                  "axle steer included, less its value in the row at 0; + left",
                  [i](auto& row) { return Within(row.axles[i], &AxleRow::steer); }, kWhole});
  }
}

SweepColumns Collect(const Vehicle& vehicle, bool has_mass, const std::optional<size_t>& only) {
  SweepColumns to{{"travel", "travel", kLength,
                   "both wheels of every axle up against the body by this much from the stance, "
                   "along the chassis z axis; + bump",
                   &SweepRow::travel}};
  const auto add_axles = [&](const char* part, const std::vector<AxleColumn>& columns) {
    AddAxles(to, vehicle, only, has_mass, part, columns);
  };
  if (!only) AddWheelbase(to);
  add_axles("where the wheels go", PositionColumns());
  add_axles("side and front view", ViewColumns());
  if (!only) AddRollAxis(to, has_mass);
  add_axles("side and front view", RollSteerColumns());
  add_axles("coils and ride", RideColumns());
  AddShafts(to, vehicle, only);
  AddSteer(to, vehicle, only);
  add_axles("where the wheels go", OpeningColumns());
  return to;
}

}  // namespace

DataTable SweepTable(const Vehicle& vehicle, const Sweep& sweep, UnitSystem units) {
  return ToTable(Collect(vehicle, sweep.stance.has_value(), sweep.axle), sweep.rows, units);
}

}  // namespace linkwright
