// SPDX-License-Identifier: MIT
#include "io/write/limits_tables.h"

#include <algorithm>

namespace linkwright {
namespace {

using enum Dimension;

// The next thing: a twin on the other side tells nothing new.
const RunOut* NextAfter(const AxleLimit& limit) {
  if (!limit.ended_by) return nullptr;
  for (size_t i = *limit.ended_by + 1; i < limit.run_outs.size(); ++i) {
    const RunOut& next = limit.run_outs[i];
    if (next.at && !next.event && !AreTwins(next, limit.run_outs[*limit.ended_by])) return &next;
  }
  return nullptr;
}

Cell EnderOf(const AxleLimit& limit) {
  if (!limit.ended_by) return std::string("nothing in the file");
  return NameOf(limit.run_outs[*limit.ended_by]);
}

DataTable TravelTable(const Vehicle& vehicle, const LimitsReport& limits, const PartsAdvice& advice,
                      UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"way", "axle and way", kNumber, "", "bump or droop of which axle"},
      {"travel", "travel", kLength, "",
       "where it ends, both wheels together from the stance, + bump; empty where nothing ends it"},
      {"ended_by", "ended by", kNumber, "", "the first thing that runs out"},
      {"next_at", "next at", kLength, "",
       "travel at which the next thing, not its twin on the other side, would have ended it"},
      {"next", "next", kNumber, "", "which that is"},
      {"wanted", "wanted", kLength, "", "travel the parts below are for; + bump"}};
  for (size_t axle = 0; axle < 2; ++axle) {
    for (size_t i = 0; i < 2; ++i) {
      const AxleLimit& limit = limits.bounce[axle][i];
      const RunOut* next = NextAfter(limit);
      const auto& wanted = i == 0 ? advice.wanted[axle].bump : advice.wanted[axle].droop;
      table.rows.push_back({vehicle.axles[axle].name + " " + NameOf(limit.motion),
                            CellIf(limit.ended_by.has_value(), limit.parameter), EnderOf(limit),
                            Cell(next ? next->at : std::nullopt),
                            next ? NameOf(*next) : std::string("-"),
                            CellIf(wanted.has_value(), wanted.value_or(0.0) * (i == 0 ? 1 : -1))});
    }
  }
  return table;
}

DataTable CrossedTable(const Vehicle& vehicle, const LimitsReport& limits, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"way", "way", kNumber, "",
       "crossed +: the front housing as in roll at +, front right and rear left wheel up"},
      {"cross", "cross", kAngle, "",
       "angle at which the first axle ends; empty where nothing in the file ends it"},
      {"ended_by", "ended by", kNumber, "", "axle and the thing that runs out first"},
      {"front_wheel_travel", "front wheel", kLength, "",
       "one front wheel up by this, the other down as far"},
      {"rear_wheel_travel", "rear wheel", kLength, "",
       "one rear wheel up by this, the other down as far"},
      {"diagonal_travel", "between diagonals", kLength, "",
       "mean travel of the front right and rear left wheel less that of the other two"}};
  for (size_t i = 0; i < 2; ++i) {
    const CrossedLimit& crossed = limits.crossed[i];
    const bool ends = crossed.first.has_value();
    const AxleLimit& limit = crossed.axles[crossed.first.value_or(0)];
    table.rows.push_back(
        {std::string(NameOf(limit.motion)), CellIf(ends, crossed.angle),
         ends ? vehicle.axles[*crossed.first].name + " " + NameOf(limit.run_outs[*limit.ended_by])
              : std::string("nothing in the file"),
         CellIf(ends, crossed.wheel_travel[0]), CellIf(ends, crossed.wheel_travel[1]),
         CellIf(ends, crossed.diagonal_travel)});
  }
  return table;
}

DataTable CrossedAloneTable(const Vehicle& vehicle, const LimitsReport& limits, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"way", "axle and way", kNumber, "", "each axle crossed by itself"},
      {"cross", "cross", kAngle, "",
       "angle at which it ends; empty where nothing in the file does"},
      {"wheel_travel", "wheel", kLength, "", "one wheel up by this, the other down as far"},
      {"ended_by", "ended by", kNumber, "", "the first thing that runs out"},
      {"next_cross", "next at", kAngle, "", "angle at which the next thing would have ended it"},
      {"next", "next", kNumber, "", "which that is"}};
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const CrossedLimit& crossed : limits.crossed) {
      const AxleLimit& limit = crossed.axles[axle];
      const RunOut* next = NextAfter(limit);
      const bool ends = limit.ended_by.has_value();
      table.rows.push_back({vehicle.axles[axle].name + " " + NameOf(limit.motion),
                            CellIf(ends, limit.parameter), CellIf(ends, limit.wheel_travel),
                            EnderOf(limit), Cell(next ? next->at : std::nullopt),
                            next ? NameOf(*next) : std::string("-")});
    }
  }
  return table;
}

DataTable InTheWayTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"what", "in the way", kNumber, "",
       "axle, way and what ends the travel before the stop and the strap advised below would; no "
       "damper, stop or strap mends it"},
      {"wanted", "wanted", kLength, "",
       "wheel travel wanted, + bump; crossed, as far as that stop and strap let a wheel rise"},
      {"at", "comes at", kLength, "", "wheel travel at which it comes"},
      {"short_by", "short by", kLength, "", "of what is wanted"}};
  for (const InTheWay& each : advice.in_the_way) {
    table.rows.push_back({vehicle.axles[each.axle].name + " " + NameOf(each.motion) + ": " +
                              NameOf(each.end, each.member),
                          each.wanted, each.at, each.short_by});
  }
  return table;
}

std::string TabWords(const DamperAdvice& damper) {
  switch (damper.fit) {
    case DamperFit::kFits:
      return "fits as it is";
    case DamperFit::kMoveTab:
      return "move its tab";
    case DamperFit::kStrokeShort:
      return "stroke too short";
    case DamperFit::kTabTooFar:
      return "no tab within reach";
    case DamperFit::kUnknown:
      break;
  }
  return "lengths not given";
}

DataTable DamperTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"damper", "damper", kNumber, "", "axle and name"},
      {"at_rest", "at rest", kLength, "", "eye to eye"},
      {"at_bump", "at bump", kLength, "", "eye to eye at the wanted bump, both wheels"},
      {"at_droop", "at droop", kLength, "", "eye to eye at the wanted droop, both wheels"},
      {"least", "least", kLength, "",
       "wherever the stops and straps below let the axle go, one wheel up and the other down"},
      {"greatest", "greatest", kLength, "", "the same"},
      {"closed", "order: closed", kLength, "", "eye to eye, no longer than this"},
      {"open", "order: open", kLength, "", "eye to eye, no shorter than this"},
      {"stroke", "order: stroke", kLength, "", "open less closed"}};
  for (const DamperAdvice& each : advice.dampers) {
    table.rows.push_back({vehicle.axles[each.axle].name + " " + each.member, each.at_rest,
                          each.at_bump, each.at_droop, each.least, each.greatest, each.closed,
                          each.open, each.open - each.closed});
  }
  return table;
}

DataTable TabTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"damper", "damper at hand", kNumber, "", "axle and name"},
      {"fit", "with it", kNumber, "", "whether the damper in the file does it"},
      {"stroke_short", "stroke short by", kLength, "", "where no place of its tab helps"},
      {"tab_move", "tab up by", kLength, "",
       "its chassis end along the damper, + away from the axle; both ends then have the same "
       "spare"},
      {"tab_x", "tab x", kLength, "", "where the chassis end goes, chassis axes"},
      {"tab_y", "tab y", kLength, "", "where the chassis end goes, chassis axes"},
      {"tab_z", "tab z", kLength, "", "where the chassis end goes, chassis axes"}};
  for (const DamperAdvice& each : advice.dampers) {
    std::vector<Cell> row{vehicle.axles[each.axle].name + " " + each.member, TabWords(each),
                          Cell(each.stroke_short), Cell(each.tab_move)};
    for (int k = 0; k < 3; ++k) {
      row.push_back(CellIf(each.p_CP.has_value(), each.p_CP ? (*each.p_CP)[k] : 0.0));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

DataTable StopTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"stop", "stop", kNumber, "", "axle and name"},
      {"gap_at_rest", "gap at rest", kLength, "", "before it touches; below 0: squeezed"},
      {"solid_height", "height solid", kLength, "",
       "seat to seat at the wanted bump; below 0: its pad would be past its seat"},
      {"height_now", "height now", kLength, "", "free, in the file"},
      {"height", "height wanted", kLength, "",
       "free, so that it is solid at the wanted bump; empty without a curve, or past its seat"},
      {"spacer", "taller by", kLength, "", "wanted less now; below 0: cut that off"}};
  for (const StopAdvice& each : advice.stops) {
    table.rows.push_back(
        {vehicle.axles[each.axle].name + " " + each.member, each.gap_at_rest, each.solid,
         each.height_now, Cell(each.height),
         CellIf(each.height.has_value(), each.height.value_or(0.0) - each.height_now)});
  }
  return table;
}

DataTable StrapTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"strap", "strap", kNumber, "",
       "axle and name; without straps, one between the damper's own ends"},
      {"length_now", "length now", kLength, "", "in the file"},
      {"length", "length wanted", kLength, "", "eye to eye, pulled taut, at the wanted droop"}};
  for (const StrapAdvice& each : advice.straps) {
    table.rows.push_back(
        {vehicle.axles[each.axle].name + (each.beside_damper ? " beside " : " ") + each.member,
         Cell(each.length_now), each.length});
  }
  return table;
}

DataTable CoilTable(const Vehicle& vehicle, const PartsAdvice& advice, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"coil", "coil", kNumber, "", "axle and name"},
      {"length_at_droop", "length at droop", kLength, "", "at the wanted droop, both wheels"},
      {"preload", "preload", kLength, "",
       "squeezed where it is longest, one wheel alone and crossed; below 0: off its seat by that"},
      {"preload_force", "preload force", kForce, "", "there"},
      {"length_at_bump", "length at bump", kLength, "", "at the wanted bump, both wheels"},
      {"gap", "gap", kLength, "",
       "left before solid where it is shortest: its solid length, or the last point of its curve "
       "where that comes first; empty where neither is given"}};
  for (const CoilAdvice& each : advice.coils) {
    table.rows.push_back({vehicle.axles[each.axle].name + " " + each.member, each.length_at_droop,
                          each.preload, each.preload_force, each.length_at_bump, Cell(each.gap)});
  }
  return table;
}

}  // namespace

std::vector<NamedTable> LimitsTables(const Vehicle& vehicle, const LimitsReport& limits,
                                     const PartsAdvice& advice, UnitSystem units) {
  std::vector<NamedTable> tables;
  const auto add = [&](const std::string& name, DataTable table) {
    if (!table.rows.empty()) tables.push_back({name, std::move(table)});
  };
  add("travel", TravelTable(vehicle, limits, advice, units));
  add("crossed", CrossedTable(vehicle, limits, units));
  add("crossed alone", CrossedAloneTable(vehicle, limits, units));
  add("in the way", InTheWayTable(vehicle, advice, units));
  for (size_t axle = 0; axle < 2; ++axle) {
    const std::string& name = vehicle.axles[axle].name;
    add(name + " margins", MarginTable(limits, axle, false, units));
    add(name + " joint margins", MarginTable(limits, axle, true, units));
    add(name + " ends", EndsTable(limits, axle, units));
  }
  add("dampers", DamperTable(vehicle, advice, units));
  add("tabs", TabTable(vehicle, advice, units));
  add("stops", StopTable(vehicle, advice, units));
  add("straps", StrapTable(vehicle, advice, units));
  add("coils", CoilTable(vehicle, advice, units));
  return tables;
}

}  // namespace linkwright
