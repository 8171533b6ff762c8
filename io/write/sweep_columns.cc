// SPDX-License-Identifier: MIT
#include "io/write/sweep_columns.h"

#include "io/write/sweep_axle_columns.h"

namespace linkwright {
namespace {

using enum Dimension;
using Columns = TableOf<SweepRow>;

constexpr const char* kWhole = "Whole vehicle";

void AddWheelbase(Columns& to) {
  to.push_back({"wheelbase", "wheelbase", kLength,
                "front less rear wheel-centre x along the floor, mean of left and right",
                &SweepRow::wheelbase, kWhole});
  to.push_back({"wheelbase_change", "wheelbase change", kLength,
                "wheelbase against the row at 0; + it grows", &SweepRow::wheelbase_change, kWhole});
}

void AddRollAxis(Columns& to, bool has_mass) {
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

// Of the vehicle's axles, quantity by quantity; `vehicle` null here and below: every column there
// can be, for the output reference.
void AddAxles(Columns& to, const Vehicle* vehicle, bool has_mass,
              const std::vector<AxleColumn>& columns) {
  constexpr std::array kNames{"front", "rear"};
  for (const AxleColumn& each : columns) {
    const TableOf<AxleRow> column{each.column};
    if (vehicle == nullptr && !each.only) {
      AddPart(
          to, column, [](auto& row) { return row.axles[0]; }, "", "A_");
      continue;
    }
    for (const size_t i : kBothAxles) {
      if (each.only.value_or(i) != i) continue;
      if (vehicle != nullptr && !each.there({vehicle->axles[i], has_mass})) continue;
      const std::string name = vehicle == nullptr ? kNames[i] : vehicle->axles[i].name;
      AddPart(
          to, column, [i](auto& row) -> auto& { return row.axles[i]; },
          AxleGroup(name, each.column.group), name + "_");
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

void AddShafts(Columns& to, const Vehicle* vehicle) {
  if (vehicle == nullptr) {
    AddPart(to, ShaftColumns(false, true), [](auto& row) { return row.driveshafts[0]; });
    return;
  }
  const std::vector<Driveshaft>& shafts = vehicle->driveshafts;
  for (size_t s = 0; s < shafts.size(); ++s) {
    const Axle& axle = vehicle->axles[static_cast<size_t>(shafts[s].axle)];
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
void AddSteer(Columns& to, const Vehicle* vehicle) {
  const auto steers = [&](size_t i) {
    return vehicle == nullptr ? i == kFront : vehicle->axles[i].steering.has_value();
  };
  for (const size_t i : kBothAxles) {
    if (!steers(i)) continue;
    to.push_back({i == kRear && steers(kFront) ? "rear_steer" : "steer", "steer", kAngle,
                  "heading of the road wheel on the drag link's side with the steering wheel held, "
                  "axle steer included, less its value in the row at 0; + left",
                  [i](auto& row) { return row.axles[i].steer; }, kWhole});
  }
}

Columns Collect(const Vehicle* vehicle, bool has_mass) {
  Columns to{{"travel", "travel", kLength,
              "both wheels of every axle up against the body by this much from the stance, along "
              "the chassis z axis; + bump",
              &SweepRow::travel}};
  AddWheelbase(to);
  AddAxles(to, vehicle, has_mass, AxleColumnsBeforeRollAxis());
  AddRollAxis(to, has_mass);
  AddAxles(to, vehicle, has_mass, AxleColumnsAfterRollAxis());
  AddShafts(to, vehicle);
  AddSteer(to, vehicle);
  AddAxles(to, vehicle, has_mass, OpeningColumns());
  return to;
}

}  // namespace

DataTable SweepTable(const Vehicle& vehicle, const Sweep& sweep, UnitSystem units) {
  return ToTable(Collect(&vehicle, sweep.stance.has_value()), sweep.rows, units);
}

std::vector<Column> AllSweepColumns() { return ColumnsOf(Collect(nullptr, true)); }

}  // namespace linkwright
