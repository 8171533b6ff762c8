// SPDX-License-Identifier: MIT
#include "io/write/settle_columns.h"

#include <algorithm>

#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;
using SettleColumns = TableOf<StanceReport>;

// Some of the axles or wheels, by their index.
using Which = std::vector<std::pair<size_t, std::string>>;
const Which kAxles{{0, "front"}, {1, "rear"}};
const Which kWheels{{0, "front left"}, {1, "front right"}, {2, "rear left"}, {3, "rear right"}};

// One column for each of `which`, whose name stands where there is a star.
void AddEach(SettleColumns& to, const Which& which, const ColumnOf<StanceReport>& like,
             const std::function<Cell(const StanceReport&, size_t)>& value) {
  for (const auto& [i, name] : which) {
    ColumnOf<StanceReport>& column = to.emplace_back(like);
    column.value = [value, i = i](const StanceReport& r) { return value(r, i); };
    column.head.replace(column.head.find('*'), 1, name);
    column.name.replace(column.name.find('*'), 1, name);
    std::replace(column.name.begin(), column.name.end(), ' ', '_');
  }
}

SettleColumns Whole() {
  return {
      {"total_mass", "total mass", kMass, "of the whole vehicle with the load",
       &StanceReport::total_mass},
      {"cg_x", "centre of mass x", kLength,
       "of the whole vehicle, chassis axes, unsprung masses where they stand; + forward of the "
       "datum",
       [](auto& r) { return r.cg_C.x(); }},
      {"cg_y", "centre of mass y", kLength, "the same, + left", [](auto& r) { return r.cg_C.y(); }},
      {"cg_height", "centre of mass height", kLength, "above the floor", &StanceReport::cg_height},
      {"rake", "rake", kAngle, "elevation of the chassis x axis; + nose up", &StanceReport::rake},
      {"roll", "body roll", kAngle, "elevation of the chassis y axis; + left side up",
       &StanceReport::roll}};
}

SettleColumns Heights() {
  SettleColumns to;
  AddEach(to, kAxles,
          {"body_rise_*", "body rise, *", kLength,
           "rise above the floor of the chassis point that coincided with the housing centre in "
           "the measured stance; + higher than measured"},
          [](auto& r, auto i) { return r.axles[i].body_rise; });
  AddEach(to, kWheels,
          {"travel_*", "travel, *", kLength,
           "of the wheel against the measured stance, along the chassis z axis; + bump"},
          [](auto& r, auto w) { return r.travel[w]; });
  return to;
}

SettleColumns Loads() {
  SettleColumns to;
  AddEach(to, kWheels,
          {"wheel_load_*", "wheel load, *", kForce, "vertical force of the floor on the tyre"},
          [](auto& r, auto w) { return r.wheel_load[w]; });
  return to;
}

// With the axles that have an opening.
SettleColumns Places(const Which& with_opening) {
  SettleColumns to{{"wheelbase_left", "wheelbase, left", kLength,
                    "between the left wheel centres, horizontal, along the chassis heading",
                    &StanceReport::wheelbase_left},
                   {"wheelbase_right", "wheelbase, right", kLength, "the same on the right",
                    &StanceReport::wheelbase_right}};
  AddEach(to, with_opening,
          {"*_opening_ahead", "* wheel ahead of opening", kLength,
           "mean wheel centre ahead of the centre of its opening, chassis axes"},
          [](auto& r, auto i) { return r.axles[i].opening_ahead; });
  AddEach(to, with_opening,
          {"*_opening_up", "* wheel above opening", kLength,
           "mean wheel centre above the centre of its opening, chassis axes"},
          [](auto& r, auto i) { return r.axles[i].opening_up; });
  return to;
}

SettleColumns Ride() {
  SettleColumns to;
  AddEach(to, kAxles,
          {"*_ride_frequency", "* ride frequency", kFrequency,
           "sprung mass this axle carries on its ride rate, each wheel at its own travel"},
          [](auto& r, auto i) { return r.axles[i].ride_frequency; });
  to.push_back({"bounce", "bounce", kFrequency,
                "the body's mode with the greater vertical motion of its centre per unit of pitch",
                [](auto& r) { return Within(r.modes, &BodyModes::bounce); }});
  to.push_back({"pitch", "pitch", kFrequency, "the body's other mode in side view",
                [](auto& r) { return Within(r.modes, &BodyModes::pitch); }});
  AddEach(to, kAxles,
          {"*_roll_stiffness", "* roll stiffness", kRollRate,
           "of coils, stops, anti-roll bar and link strain at rest, per degree of housing roll "
           "against the body; tyres not in it"},
          [](auto& r, auto i) { return r.axles[i].roll_stiffness; });
  to.push_back({"roll_gradient", "roll gradient", kRollGradient,
                "body roll per g of cornering, tyres in series; below 0 where the sprung centre of "
                "mass lies below the roll axis; empty where the weight overturns it",
                &StanceReport::roll_gradient});
  return to;
}

SettleColumns Marks(const std::vector<std::string>& names) {
  SettleColumns to;
  for (size_t m = 0; m < names.size(); ++m) {
    to.push_back({"height " + names[m], names[m], kLength, "of the mark above the floor",
                  [m](auto& r) { return r.mark_heights[m]; }});
  }
  return to;
}

TableOf<SettledLoad> Collect(const Which& with_opening, const std::vector<std::string>& marks) {
  TableOf<SettledLoad> all{{"load", "load", kNumber, "name of the load", &SettledLoad::load}};
  const auto add = [&](const char* group, const SettleColumns& columns) {
    AddPart(all, columns, &SettledLoad::report, group);
  };
  add("Weight and attitude", Whole());
  add("Where the body and wheels stand", Heights());
  add("Wheel loads", Loads());
  add("Wheelbase and openings", Places(with_opening));
  add("Ride and roll", Ride());
  add("Heights above the floor", Marks(marks));
  return all;
}

}  // namespace

DataTable SettleTable(const Vehicle& vehicle, const std::vector<SettledLoad>& loads,
                      UnitSystem units) {
  Which with_opening = kAxles;
  std::erase_if(with_opening, [&](auto& axle) { return !vehicle.axles[axle.first].opening; });
  std::vector<std::string> marks;
  for (const Mark& mark : vehicle.marks) marks.push_back(mark.name);
  return ToTable(Collect(with_opening, marks), loads, units);
}

}  // namespace linkwright
