// SPDX-License-Identifier: MIT
#include "io/write/limits_tables.h"

#include <algorithm>

namespace linkwright {
namespace {

using enum Dimension;

constexpr std::array kWays{"bump", "droop"};
constexpr std::array kCrossings{"crossed +", "crossed -"};

const char* EndWord(TravelEnd end) {
  switch (end) {
    case TravelEnd::kDamperClosed:
      return "closed";
    case TravelEnd::kDamperOpen:
      return "open";
    case TravelEnd::kCoilBound:
      return "bound";
    case TravelEnd::kStopSolid:
      return "solid";
    case TravelEnd::kLinksStraight:
      return "lined up";
    case TravelEnd::kDragLinkOutOfReach:
      return "out of reach";
    case TravelEnd::kStrapTaut:
      return "taut";
    case TravelEnd::kCoilUnseated:
      return "unseated";
    case TravelEnd::kJointAtLimit:
      return "at its limit";
    case TravelEnd::kShaftBottomed:
      return "bottomed";
    case TravelEnd::kShaftParted:
      return "parted";
    case TravelEnd::kTireOnLip:
      return "at the lip";
    case TravelEnd::kTireOnPanel:
      return "at the panel";
  }
  return "";
}

// What runs out toward this end: what is opening up on the way is left out.
bool Shrinks(const RunOut& run_out) {
  if (run_out.at) return true;
  return run_out.at_rest && run_out.left && *run_out.left < *run_out.at_rest;
}

// The next thing of another kind: a twin on the other side tells nothing new.
const RunOut* NextAfter(const AxleLimit& limit) {
  if (!limit.ended_by) return nullptr;
  for (size_t i = *limit.ended_by + 1; i < limit.run_outs.size(); ++i) {
    const RunOut& next = limit.run_outs[i];
    if (next.at && !next.event && next.end != limit.run_outs[*limit.ended_by].end) return &next;
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
       "travel at which the next thing of another kind would have ended it"},
      {"next", "next", kNumber, "", "which that is"},
      {"wanted", "wanted", kLength, "", "travel the parts below are for; + bump"}};
  for (size_t axle = 0; axle < 2; ++axle) {
    for (size_t i = 0; i < 2; ++i) {
      const AxleLimit& limit = limits.bounce[axle][i];
      const RunOut* next = NextAfter(limit);
      const auto& wanted = i == 0 ? advice.wanted[axle].bump : advice.wanted[axle].droop;
      table.rows.push_back({vehicle.axles[axle].name + " " + kWays[i],
                            CellIf(limit.ended_by.has_value(), limit.parameter), EnderOf(limit),
                            ToCell(next ? next->at : std::nullopt),
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
        {std::string(kCrossings[i]), CellIf(ends, crossed.angle),
         ends ? vehicle.axles[*crossed.first].name + " " + NameOf(limit.run_outs[*limit.ended_by])
              : std::string("nothing in the file"),
         CellIf(ends, crossed.wheel_travel[0]), CellIf(ends, crossed.wheel_travel[1]),
         CellIf(ends, crossed.diagonal_travel)});
  }
  return table;
}

DataTable RunOutTable(const AxleLimit& limit, bool crossed, UnitSystem units) {
  const bool joints = std::any_of(limit.run_outs.begin(), limit.run_outs.end(),
                                  [](const RunOut& each) { return IsAngle(each.end); });
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"what", "what runs out", kNumber, "",
                    "member and how it ends; (passed) where it ends no travel"},
                   {"left", "left there", kLength, "",
                    "along the member where the travel ends; below 0: past its end"},
                   {"wheel_travel", "would end at", kLength, "",
                    "wheel travel at which it would end it alone; crossed, of the wheel that "
                    "rises; empty where it lasts as far as the links follow"}};
  if (crossed) {
    table.columns.push_back(
        {"cross", "would end at", kAngle, "", "cross angle at which it would end it alone"});
  }
  if (joints) {
    table.columns.push_back(
        {"left_angle", "joint has left", kAngle, "", "where the travel ends, of a joint"});
  }
  for (const RunOut& run_out : limit.run_outs) {
    if (!Shrinks(run_out)) continue;
    const bool angle = IsAngle(run_out.end);
    std::vector<Cell> row{NameOf(run_out) + (run_out.event ? " (passed)" : ""),
                          ToCell(angle ? std::nullopt : run_out.left),
                          ToCell(run_out.wheel_travel)};
    if (crossed) row.push_back(ToCell(run_out.at));
    if (joints) row.push_back(ToCell(angle ? run_out.left : std::nullopt));
    table.rows.push_back(std::move(row));
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
      {"least", "least", kLength, "", "over every place of the axle, one wheel alone and crossed"},
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
                          ToCell(each.stroke_short), ToCell(each.tab_move)};
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
      {"solid_height", "height solid", kLength, "", "seat to seat at the wanted bump"},
      {"height_now", "height now", kLength, "", "free, in the file"},
      {"height", "height wanted", kLength, "",
       "free, so that it is solid at the wanted bump; empty without a curve"},
      {"spacer", "taller by", kLength, "", "wanted less now; below 0: cut that off"}};
  for (const StopAdvice& each : advice.stops) {
    table.rows.push_back(
        {vehicle.axles[each.axle].name + " " + each.member, each.gap_at_rest, each.solid,
         each.height_now, ToCell(each.height),
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
         ToCell(each.length_now), each.length});
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
       "left before solid where it is shortest; empty where no solid length is given"}};
  for (const CoilAdvice& each : advice.coils) {
    table.rows.push_back({vehicle.axles[each.axle].name + " " + each.member, each.length_at_droop,
                          each.preload, each.preload_force, each.length_at_bump, ToCell(each.gap)});
  }
  return table;
}

}  // namespace

std::string NameOf(const RunOut& run_out) {
  const std::string member =
      run_out.end == TravelEnd::kLinksStraight ? "links (" + run_out.member + ")" : run_out.member;
  return member + " " + EndWord(run_out.end);
}

std::vector<NamedTable> LimitsTables(const Vehicle& vehicle, const LimitsReport& limits,
                                     const PartsAdvice& advice, UnitSystem units) {
  std::vector<NamedTable> tables{{"travel", TravelTable(vehicle, limits, advice, units)},
                                 {"crossed", CrossedTable(vehicle, limits, units)}};
  const auto add = [&](const std::string& name, DataTable table) {
    if (!table.rows.empty()) tables.push_back({name, std::move(table)});
  };
  for (size_t axle = 0; axle < 2; ++axle) {
    for (size_t i = 0; i < 2; ++i) {
      add(vehicle.axles[axle].name + " " + kWays[i],
          RunOutTable(limits.bounce[axle][i], false, units));
    }
  }
  for (size_t i = 0; i < 2; ++i) {
    for (size_t axle = 0; axle < 2; ++axle) {
      add(vehicle.axles[axle].name + " " + kCrossings[i],
          RunOutTable(limits.crossed[i].axles[axle], true, units));
    }
  }
  add("dampers", DamperTable(vehicle, advice, units));
  add("tabs", TabTable(vehicle, advice, units));
  add("stops", StopTable(vehicle, advice, units));
  add("straps", StrapTable(vehicle, advice, units));
  add("coils", CoilTable(vehicle, advice, units));
  return tables;
}

}  // namespace linkwright
