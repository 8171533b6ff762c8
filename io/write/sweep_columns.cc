// SPDX-License-Identifier: MIT
#include "io/write/sweep_columns.h"

#include <array>
#include <functional>
#include <string_view>

#include "io/write/sweep_axle_columns.h"

namespace linkwright {
namespace {

using enum Dimension;
using Value = std::optional<double>;

// A column of the whole vehicle.
struct VehicleColumn {
  const char* name;
  const char* head;
  Dimension dimension;
  const char* definition;
  bool needs_mass;
  Value (*value)(const SweepRow&);
};

constexpr std::array kVehicleColumns{
    VehicleColumn{"wheelbase", "wheelbase", kLength,
                  "front less rear wheel-centre x along the floor, mean of left and right", false,
                  [](const SweepRow& r) -> Value { return r.wheelbase; }},
    VehicleColumn{"wheelbase_change", "wheelbase change", kLength,
                  "wheelbase against the row at 0; + it grows", false,
                  [](const SweepRow& r) -> Value { return r.wheelbase_change; }},
};

constexpr std::array kRollAxisColumns{
    VehicleColumn{"roll_axis_height", "roll axis height", kLength,
                  "height of the line through both roll centres above the floor, under the sprung "
                  "centre of mass",
                  true, [](const SweepRow& r) { return r.roll_axis_height; }},
    VehicleColumn{"roll_axis_slope", "roll axis slope", kAngle,
                  "slope of that line against the floor; + rises toward the front", false,
                  [](const SweepRow& r) -> Value { return r.roll_axis_slope; }},
};

struct ShaftColumn {
  const char* name;
  const char* head;
  Dimension dimension;
  const char* definition;
  // axle_ahead: the driven axle's joint is the one nearer the front.
  double (*value)(const DriveshaftState&, bool axle_ahead);
};

constexpr std::array kShaftColumns{
    ShaftColumn{"driveshaft_length", "shaft length", kLength, "between the joint centres",
                [](const DriveshaftState& s, bool) { return s.length; }},
    ShaftColumn{"driveshaft_front_joint", "front joint", kAngle,
                "angle of the joint nearer the front of the vehicle",
                [](const DriveshaftState& s, bool axle_ahead) {
                  return axle_ahead ? s.axle_angle : s.output_angle;
                }},
    ShaftColumn{"driveshaft_rear_joint", "rear joint", kAngle, "angle of the other joint",
                [](const DriveshaftState& s, bool axle_ahead) {
                  return axle_ahead ? s.output_angle : s.axle_angle;
                }},
    ShaftColumn{"driveshaft_speed_ripple", "speed ripple", kPercent,
                "greatest less least of the pinion's speed over a turn at steady output speed, of "
                "its mean",
                [](const DriveshaftState& s, bool) { return s.ripple; }},
};

constexpr const char* kCenterJointDefinition =
    "angle of the joint at the centre bearing, where there is one";
constexpr const char* kTravelDefinition =
    "both wheels of every axle up against the body by this much from the stance, along the chassis "
    "z axis; + bump";
constexpr const char* kSteerDefinition =
    "heading of the road wheel on the drag link's side with the steering wheel held, axle steer "
    "included, less its value in the row at 0; + left";

std::string Capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

// Collects columns and, beside each, how a row fills it.
struct Collector {
  const Vehicle& vehicle;
  bool geometry_only;
  DataTable table;
  std::vector<std::function<Cell(const SweepRow&)>> fill;

  void Add(Column column, std::function<Cell(const SweepRow&)> value) {
    table.columns.push_back(std::move(column));
    fill.push_back(std::move(value));
  }
};

template <size_t N>
void AddVehicleColumns(Collector& to, const std::array<VehicleColumn, N>& columns) {
  for (const VehicleColumn& column : columns) {
    if (column.needs_mass && to.geometry_only) continue;
    to.Add({column.name, column.head, column.dimension, "Whole vehicle", column.definition},
           [value = column.value](const SweepRow& row) { return ToCell(value(row)); });
  }
}

// Front, then rear; but what drive does is named for the rear axle first.
std::array<size_t, 2> OrderOf(const AxleColumn& column) {
  if (std::string_view(column.rear) == "anti_squat") return {kRear, kFront};
  return {kFront, kRear};
}

void AddAxleColumns(Collector& to, const std::vector<AxleColumn>& columns) {
  for (const AxleColumn& column : columns) {
    if (column.needs_mass && to.geometry_only) continue;
    for (const size_t i : OrderOf(column)) {
      const Axle& axle = to.vehicle.axles[i];
      if (!column.applies(axle)) continue;
      const char* name = i == kFront ? column.front : column.rear;
      const char* head = i == kFront ? column.head_front : column.head_rear;
      to.Add(
          {axle.name + "_" + name, head, column.dimension,
           Capital(axle.name) + " axle: " + PartName(column.part), column.definition},
          [value = column.value, i](const SweepRow& row) { return ToCell(value(row.axles[i])); });
    }
  }
}

void AddShaftColumns(Collector& to) {
  const std::vector<Driveshaft>& shafts = to.vehicle.driveshafts;
  for (size_t s = 0; s < shafts.size(); ++s) {
    const Axle& axle = to.vehicle.axles[static_cast<size_t>(shafts[s].axle)];
    const bool axle_ahead = axle.pinion && axle.pinion->p_CY.x() > shafts[s].p_CO.x();
    const std::string prefix = shafts.size() > 1 ? shafts[s].name + "_" : "";
    const std::string group = shafts.size() > 1 ? "Driveshaft " + shafts[s].name : "Driveshaft";
    for (const ShaftColumn& column : kShaftColumns) {
      to.Add({prefix + column.name, column.head, column.dimension, group, column.definition},
             [value = column.value, s, axle_ahead](const SweepRow& row) {
               return Cell(value(row.driveshafts[s], axle_ahead));
             });
    }
    if (!shafts[s].center_bearing) continue;
    to.Add(
        {prefix + "driveshaft_center_joint", "centre joint", kAngle, group, kCenterJointDefinition},
        [s](const SweepRow& row) { return ToCell(row.driveshafts[s].center_angle); });
  }
}

// One drag link in most vehicles; where the rear axle steers too, its column carries the axle's
// name.
void AddSteerColumns(Collector& to) {
  const std::array<Axle, 2>& axles = to.vehicle.axles;
  const bool both = axles[0].steering && axles[1].steering;
  for (size_t i = 0; i < 2; ++i) {
    if (!axles[i].steering) continue;
    const std::string prefix = both && i == kRear ? "rear_" : "";
    to.Add({prefix + "steer", "steer", kAngle, "Whole vehicle", kSteerDefinition},
           [i](const SweepRow& row) { return ToCell(row.axles[i].steer); });
  }
}

}  // namespace

DataTable SweepTable(const Vehicle& vehicle, const Sweep& sweep, UnitSystem units) {
  Collector to{.vehicle = vehicle, .geometry_only = !sweep.stance, .table = {}, .fill = {}};
  to.table.units = units;
  to.Add({"travel", "travel", kLength, "", kTravelDefinition},
         [](const SweepRow& row) { return Cell(row.travel); });
  AddVehicleColumns(to, kVehicleColumns);
  AddAxleColumns(to, AxleColumnsBeforeRollAxis());
  AddVehicleColumns(to, kRollAxisColumns);
  AddAxleColumns(to, AxleColumnsAfterRollAxis());
  AddShaftColumns(to);
  AddSteerColumns(to);
  AddAxleColumns(to, OpeningColumns());
  for (const SweepRow& row : sweep.rows) {
    std::vector<Cell> cells;
    for (const auto& fill : to.fill) cells.push_back(fill(row));
    to.table.rows.push_back(std::move(cells));
  }
  return to.table;
}

std::vector<Column> AllSweepColumns() {
  std::vector<Column> all{{"travel", "travel", kLength, "", kTravelDefinition}};
  const auto add_vehicle = [&](const auto& columns) {
    for (const VehicleColumn& c : columns) {
      all.push_back({c.name, c.head, c.dimension, "", c.definition});
    }
  };
  const auto add_axle = [&](const auto& columns) {
    for (const AxleColumn& c : columns) {
      if (std::string_view(c.front) == c.rear) {
        all.push_back({std::string("A_") + c.front, c.head_front, c.dimension, "", c.definition});
        continue;
      }
      for (const size_t i : OrderOf(c)) {
        all.push_back(
            {i == kFront ? std::string("front_") + c.front : std::string("rear_") + c.rear,
             i == kFront ? c.head_front : c.head_rear, c.dimension, "", c.definition});
      }
    }
  };
  add_vehicle(kVehicleColumns);
  add_axle(AxleColumnsBeforeRollAxis());
  add_vehicle(kRollAxisColumns);
  add_axle(AxleColumnsAfterRollAxis());
  for (const ShaftColumn& c : kShaftColumns) {
    all.push_back({c.name, c.head, c.dimension, "", c.definition});
  }
  all.push_back({"driveshaft_center_joint", "centre joint", kAngle, "", kCenterJointDefinition});
  all.push_back({"steer", "steer", kAngle, "", kSteerDefinition});
  add_axle(OpeningColumns());
  return all;
}

}  // namespace linkwright
