// SPDX-License-Identifier: MIT
#include "io/write/settle_columns.h"

#include <array>
#include <functional>

namespace linkwright {
namespace {

using enum Dimension;
using Value = std::optional<double>;
using Fill = std::function<Value(const StanceReport&)>;

struct SettleColumn {
  Column column;
  Fill value;
};

constexpr std::array kWheels{"front_left", "front_right", "rear_left", "rear_right"};
constexpr std::array kWheelHeads{"front left", "front right", "rear left", "rear right"};
constexpr std::array kAxles{"front", "rear"};

void AddWhole(std::vector<SettleColumn>& to) {
  const char* group = "Weight and attitude";
  to.push_back({{"total_mass", "total mass", kMass, group, "of the whole vehicle with the load"},
                [](const StanceReport& r) { return r.total_mass; }});
  to.push_back({{"cg_x", "centre of mass x", kLength, group,
                 "of the whole vehicle, chassis axes, unsprung masses where they stand; + forward "
                 "of the datum"},
                [](const StanceReport& r) { return r.cg_C.x(); }});
  to.push_back({{"cg_y", "centre of mass y", kLength, group, "the same, + left"},
                [](const StanceReport& r) { return r.cg_C.y(); }});
  to.push_back({{"cg_height", "centre of mass height", kLength, group, "above the floor"},
                [](const StanceReport& r) { return r.cg_height; }});
  to.push_back({{"rake", "rake", kAngle, group, "elevation of the chassis x axis; + nose up"},
                [](const StanceReport& r) { return r.rake; }});
  to.push_back(
      {{"roll", "body roll", kAngle, group, "elevation of the chassis y axis; + left side up"},
       [](const StanceReport& r) { return r.roll; }});
}

void AddHeights(std::vector<SettleColumn>& to) {
  for (size_t i = 0; i < 2; ++i) {
    to.push_back({{std::string("body_rise_") + kAxles[i], std::string("body rise, ") + kAxles[i],
                   kLength, "Where the body and wheels stand",
                   "rise above the floor of the chassis point that coincided with the housing "
                   "centre in the measured stance; + higher than measured"},
                  [i](const StanceReport& r) { return r.axles[i].body_rise; }});
  }
  for (size_t w = 0; w < 4; ++w) {
    to.push_back({{std::string("travel_") + kWheels[w], std::string("travel, ") + kWheelHeads[w],
                   kLength, "Where the body and wheels stand",
                   "of the wheel against the measured stance, along the chassis z axis; + bump"},
                  [w](const StanceReport& r) { return r.travel[w]; }});
  }
}

void AddLoads(std::vector<SettleColumn>& to) {
  for (size_t w = 0; w < 4; ++w) {
    to.push_back(
        {{std::string("wheel_load_") + kWheels[w], std::string("wheel load, ") + kWheelHeads[w],
          kForce, "Wheel loads", "vertical force of the floor on the tyre"},
         [w](const StanceReport& r) { return r.wheel_load[w]; }});
  }
}

void AddPlaces(std::vector<SettleColumn>& to, const std::function<bool(size_t)>& has_opening) {
  const char* group = "Wheelbase and openings";
  to.push_back({{"wheelbase_left", "wheelbase, left", kLength, group,
                 "between the left wheel centres, horizontal, along the chassis heading"},
                [](const StanceReport& r) { return r.wheelbase_left; }});
  to.push_back({{"wheelbase_right", "wheelbase, right", kLength, group, "the same on the right"},
                [](const StanceReport& r) { return r.wheelbase_right; }});
  for (size_t i = 0; i < 2; ++i) {
    const std::string axle = kAxles[i];
    if (!has_opening(i)) continue;
    to.push_back({{axle + "_opening_ahead", axle + " wheel ahead of opening", kLength, group,
                   "mean wheel centre ahead of the centre of its opening, chassis axes"},
                  [i](const StanceReport& r) { return r.axles[i].opening_ahead; }});
  }
  for (size_t i = 0; i < 2; ++i) {
    const std::string axle = kAxles[i];
    if (!has_opening(i)) continue;
    to.push_back({{axle + "_opening_up", axle + " wheel above opening", kLength, group,
                   "mean wheel centre above the centre of its opening, chassis axes"},
                  [i](const StanceReport& r) { return r.axles[i].opening_up; }});
  }
}

void AddRide(std::vector<SettleColumn>& to) {
  const char* group = "Ride and roll";
  for (size_t i = 0; i < 2; ++i) {
    const std::string axle = kAxles[i];
    to.push_back({{axle + "_ride_frequency", axle + " ride frequency", kFrequency, group,
                   "sprung mass this axle carries on its ride rate, each wheel at its own travel"},
                  [i](const StanceReport& r) { return r.axles[i].ride_frequency; }});
  }
  to.push_back(
      {{"bounce", "bounce", kFrequency, group,
        "the body's mode with the greater vertical motion of its centre per unit of pitch"},
       [](const StanceReport& r) -> Value {
         return r.modes ? Value(r.modes->bounce) : std::nullopt;
       }});
  to.push_back({{"pitch", "pitch", kFrequency, group, "the body's other mode in side view"},
                [](const StanceReport& r) -> Value {
                  return r.modes ? Value(r.modes->pitch) : std::nullopt;
                }});
  for (size_t i = 0; i < 2; ++i) {
    const std::string axle = kAxles[i];
    to.push_back({{axle + "_roll_stiffness", axle + " roll stiffness", kRollRate, group,
                   "of coils, stops, anti-roll bar and link strain at rest, per degree of housing "
                   "roll against the body; tyres not in it"},
                  [i](const StanceReport& r) { return r.axles[i].roll_stiffness; }});
  }
  to.push_back({{"roll_gradient", "roll gradient", kRollGradient, group,
                 "body roll per g of cornering, tyres in series; below 0 where the "
                 "sprung centre of mass lies below the roll axis; empty where the weight overturns "
                 "it"},
                [](const StanceReport& r) { return r.roll_gradient; }});
}

void AddMark(std::vector<SettleColumn>& to, const std::string& name, size_t m) {
  to.push_back(
      {{"height " + name, name, kLength, "Heights above the floor", "of the mark above the floor"},
       [m](const StanceReport& r) { return r.mark_heights[m]; }});
}

std::vector<SettleColumn> CollectColumns(const std::function<bool(size_t)>& has_opening) {
  std::vector<SettleColumn> columns;
  AddWhole(columns);
  AddHeights(columns);
  AddLoads(columns);
  AddPlaces(columns, has_opening);
  AddRide(columns);
  return columns;
}

const Column kLoadColumn{"load", "load", kNumber, "", "name of the load"};

}  // namespace

DataTable SettleTable(const Vehicle& vehicle, const std::vector<SettledLoad>& loads,
                      UnitSystem units) {
  std::vector<SettleColumn> columns =
      CollectColumns([&](size_t i) { return vehicle.axles[i].opening.has_value(); });
  for (size_t m = 0; m < vehicle.marks.size(); ++m) AddMark(columns, vehicle.marks[m].name, m);
  DataTable table{.units = units, .columns = {kLoadColumn}, .rows = {}};
  for (const SettleColumn& column : columns) table.columns.push_back(column.column);
  for (const SettledLoad& settled : loads) {
    std::vector<Cell> row{settled.load};
    for (const SettleColumn& column : columns) row.push_back(ToCell(column.value(settled.report)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::vector<Column> AllSettleColumns() {
  std::vector<SettleColumn> columns = CollectColumns([](size_t) { return true; });
  AddMark(columns, "NAME", 0);
  std::vector<Column> all{kLoadColumn};
  for (const SettleColumn& column : columns) all.push_back(column.column);
  return all;
}

}  // namespace linkwright
