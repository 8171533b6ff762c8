// SPDX-License-Identifier: MIT
#include "io/write/steering_tables.h"

#include <cmath>

namespace linkwright {
namespace {

using enum Dimension;

constexpr const char* kHeld =
    "of the road wheel on the drag link's side, steering wheel held, "
    "against rest; + left";
constexpr const char* kToe =
    "change of both wheels' toe that the tie rod makes of it; + toe-in; 0 without a tie rod";

std::vector<Column> TravelColumns() {
  return {
      {"travel", "travel", kLength, "", "both wheels of every axle, from rest; + bump"},
      {"steer", "steer", kAngle, "", kHeld},
      {"steer_rate", "steer per travel", kAngleRate, "", "its exact slope there; + left in bump"},
      {"toe_in", "toe-in change", kAngle, "", kToe},
      {"axle_steer", "axle steer", kAngle, "",
       "the housing's part of it, against the rest; + left"},
      {"lateral_shift", "lateral shift", kLength, "", "housing centre; + left"},
      {"caster", "caster", kAngle, "", "to the floor; + the top leans back"},
      {"caster_change", "caster change", kAngle, "", "against rest"}};
}

DataTable TravelTable(const SteeredAxle& steered, UnitSystem units) {
  DataTable table{.units = units, .columns = TravelColumns(), .rows = {}};
  const AxleRow& rest = steered.travel.rows[steered.rest].axles[steered.axle];
  for (const SweepRow& row : steered.travel.rows) {
    const AxleRow& axle = row.axles[steered.axle];
    Cell change;
    if (axle.caster && rest.caster) change = *axle.caster - *rest.caster;
    table.rows.push_back({row.travel, Cell(axle.steer), Cell(axle.steer_rate), Cell(axle.toe_in),
                          axle.axle_steer - rest.axle_steer, axle.lateral_shift, Cell(axle.caster),
                          change});
  }
  return table;
}

std::vector<Column> RollColumns() {
  return {{"body_roll", "body roll", kAngle, "", "on level ground; left side up +"},
          {"steer", "steer", kAngle, "", kHeld},
          {"steer_per_roll", "steer per roll", kAngleRatio, "",
           "its exact slope by body roll; + into the bend: oversteer in front"},
          {"toe_in", "toe-in change", kAngle, "", kToe},
          {"axle_steer", "axle steer", kAngle, "",
           "the housing's part of it, against the rest; + left"},
          {"lateral_shift", "lateral shift", kLength, "", "housing centre; + left"}};
}

DataTable RollTable(const SteeredAxle& steered, UnitSystem units) {
  DataTable table{.units = units, .columns = RollColumns(), .rows = {}};
  double rest_steer = 0.0;
  for (const MotionRow& row : steered.roll.rows) {
    if (row.parameter == 0.0) rest_steer = row.axles[steered.axle].axle_steer;
  }
  for (const MotionRow& row : steered.roll.rows) {
    const MotionAxleRow& axle = row.axles[steered.axle];
    // The housing rolls against the chassis by as much as the body's left side goes up, reversed.
    Cell per_roll;
    if (axle.steer_per_roll) {
      per_roll = -*axle.steer_per_roll * std::cos(row.parameter) / std::cos(axle.housing_roll);
    }
    table.rows.push_back({row.parameter, Cell(axle.steer), per_roll, Cell(axle.toe_in),
                          axle.axle_steer - rest_steer, axle.lateral_shift});
  }
  return table;
}

std::vector<Column> LockColumns() {
  return {{"left", "left wheel", kAngle, "", "steer at rest; + left"},
          {"right", "right wheel", kAngle, "", "steer at rest; + left"},
          {"difference", "inner less outer", kAngle, "", "what the tie rod gives"},
          {"ackermann", "Ackermann wants", kAngle, "",
           "the difference at which both spindles point at one place of the rear axle's line"},
          {"toe_out", "toe-out error", kAngle, "",
           "given less wanted; - the front tyres scrub toe-in"}};
}

DataTable LockTable(const SteeredAxle& steered, UnitSystem units) {
  DataTable table{.units = units, .columns = LockColumns(), .rows = {}};
  for (const HandRow& row : steered.lock) {
    Cell error;
    if (row.wanted) error = row.difference - *row.wanted;
    table.rows.push_back({row.left, row.right, row.difference, Cell(row.wanted), error});
  }
  return table;
}

std::vector<Column> LineColumns() {
  return {{"line", "line", kNumber, "", "drag link, track bar, or the difference"},
          {"slope", "slope", kAngle, "", "from in front, at rest; + rises toward the left"},
          {"length", "length", kLength, "", "joint to joint"},
          {"length_share", "of the drag link", kPercent, "", "length against the drag link's"},
          {"apart", "between them", kAngle, "", "angle between both lines in space"}};
}

DataTable LineTable(const BarMatch& match, UnitSystem units) {
  DataTable table{.units = units, .columns = LineColumns(), .rows = {}};
  table.rows.push_back(
      {std::string("drag link"), match.drag_slope, match.drag_length, 1.0, Cell()});
  table.rows.push_back({match.bar, match.bar_slope, match.bar_length,
                        match.bar_length / match.drag_length, match.apart});
  table.rows.push_back({std::string("difference"), match.bar_slope - match.drag_slope,
                        match.bar_length - match.drag_length,
                        match.bar_length / match.drag_length - 1.0, match.apart});
  return table;
}

std::string MoveName(BarMoveKind kind) {
  switch (kind) {
    case BarMoveKind::kAsIs:
      return "frame end, as it is";
    case BarMoveKind::kFrameEndToMatch:
      return "frame end, to match";
    case BarMoveKind::kAxleEndToMatch:
      return "axle end, to match";
    case BarMoveKind::kFrameEndNoSteer:
      break;
  }
  return "frame end, no steer at rest";
}

std::vector<Column> MoveColumns() {
  return {{"move", "track bar", kNumber, "",
           "which end goes where; to match: parallel to the drag link and as long, from in front"},
          {"x", "x", kLength, "", "of that end, chassis axes, as it would be when measured"},
          {"y", "y", kLength, "", "the same"},
          {"z", "z", kLength, "", "the same"},
          {"moved_y", "moved left", kLength, "", "from where that end is"},
          {"moved_z", "moved up", kLength, "", "the same"},
          {"length", "bar length", kLength, "", "so that the axle rests where it did"},
          {"steer_rate", "steer per travel", kAngleRate, "", "at rest, steering wheel held"},
          {"steer_most", "greatest steer", kAngle, "", "over the travel, either way"},
          {"lateral_most", "greatest shift", kLength, "", "of the axle sideways over the travel"}};
}

DataTable MoveTable(const std::vector<BarMove>& moves, UnitSystem units) {
  DataTable table{.units = units, .columns = MoveColumns(), .rows = {}};
  for (const BarMove& move : moves) {
    table.rows.push_back({MoveName(move.kind), move.p_C.x(), move.p_C.y(), move.p_C.z(),
                          move.by.y(), move.by.z(), move.length, move.steer_rate, move.steer_most,
                          move.lateral_most});
  }
  return table;
}

std::vector<Column> SidewaysColumns() {
  return {{"axle", "axle", kNumber, "", "front or rear"},
          {"offset", "off centre", kLength, "", "housing centre at rest; + left"},
          {"bar", "link", kNumber, "", "the one that lies across"},
          {"longer", "longer by", kLength, "",
           "+ longer, - shorter, so that the axle is centred at rest"},
          {"turns", "turns", kNumber, "", "of its adjuster; empty where the file gives no thread"},
          {"drag_link_longer", "drag link longer by", kLength, "",
           "so that the wheels then point as measured with the steering wheel held"}};
}

DataTable SidewaysTable(const Vehicle& vehicle, const SteeringReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = SidewaysColumns(), .rows = {}};
  for (const SidewaysCure& cure : report.sideways) {
    Cell turns;
    if (cure.by && cure.bar->thread) turns = *cure.by / *cure.bar->thread;
    table.rows.push_back({vehicle.axles[cure.axle].name, cure.offset,
                          cure.bar ? Cell(cure.bar->name) : Cell(std::string("none")),
                          Cell(cure.by), turns, Cell(cure.drag_link_by)});
  }
  return table;
}

}  // namespace

std::vector<NamedTable> SteeringTables(const Vehicle& vehicle, const SteeringReport& report,
                                       UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const SteeredAxle& steered : report.axles) {
    const std::string name = vehicle.axles[steered.axle].name;
    tables.push_back({name + " travel", TravelTable(steered, units)});
    tables.push_back({name + " roll", RollTable(steered, units)});
    if (steered.tie_rod) tables.push_back({name + " lock to lock", LockTable(steered, units)});
    if (!steered.match) continue;
    tables.push_back({name + " lines", LineTable(*steered.match, units)});
    tables.push_back({name + " track bar moved", MoveTable(steered.moves, units)});
  }
  tables.push_back({"sideways", SidewaysTable(vehicle, report, units)});
  return tables;
}

std::vector<NamedTable> AllSteeringTables() {
  const auto table = [](const char* name, std::vector<Column> columns) {
    return NamedTable{name,
                      {.units = UnitSystem::kMetric, .columns = std::move(columns), .rows = {}}};
  };
  return {table("travel", TravelColumns()),        table("roll", RollColumns()),
          table("lock to lock", LockColumns()),    table("lines", LineColumns()),
          table("track bar moved", MoveColumns()), table("sideways", SidewaysColumns())};
}

}  // namespace linkwright
