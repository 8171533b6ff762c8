// SPDX-License-Identifier: MIT
#include "io/write/driveline_tables.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

using enum Dimension;
using Kind = ShaftPlaceKind;

std::string PlaceName(const ShaftPlace& place, UnitSystem units) {
  switch (place.kind) {
    case Kind::kFullDroop:
      return "full droop";
    case Kind::kRest:
      return "rest";
    case Kind::kFullBump:
      return "full bump";
    case Kind::kRolledRightUp:
      return "crossed, right wheel up";
    case Kind::kRolledLeftUp:
      return "crossed, left wheel up";
    case Kind::kLeftDrooped:
      return "left wheel down alone";
    case Kind::kLeftBumped:
      return "left wheel up alone";
    case Kind::kRightDrooped:
      return "right wheel down alone";
    case Kind::kRightBumped:
      return "right wheel up alone";
    case Kind::kUnderTorque:
      return "under torque";
    case Kind::kTravel:
      break;
  }
  const double shown = std::round(1e7 * place.travel) / 1e7;  // [m] a row's travel, rounding off
  return (shown > 0.0 ? "+" : "") + FormatValue(shown, kLength, units);
}

const ShaftPlace* Find(const std::vector<ShaftPlace>& places, Kind kind) {
  const auto found = std::find_if(places.begin(), places.end(),
                                  [kind](const ShaftPlace& place) { return place.kind == kind; });
  return found == places.end() ? nullptr : &*found;
}

std::vector<Column> JointColumns() {
  return {{"joint", "joint", kNumber, "", "output, centre bearing or pinion"},
          {"kind", "kind", kNumber, "", "single or double"},
          {"side", "side, rest", kAngle, "",
           "seen from the side, at rest: + the shaft after it, toward the axle, rises more"},
          {"plan", "plan, rest", kAngle, "",
           "seen from above, at rest: + the shaft after it points more to the left"},
          {"rest", "in space, rest", kAngle, "", "working angle at rest, both parts together"},
          {"full_droop", "full droop", kAngle, "", "working angle at full droop"},
          {"full_bump", "full bump", kAngle, "", "working angle at full bump"},
          {"greatest", "greatest", kAngle, "",
           "greatest working angle over travel, crossed and one wheel alone"}};
}

DataTable JointTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = JointColumns(), .rows = {}};
  const ShaftPlace& rest = AtRest(report);
  const size_t n = rest.joints.size();
  const ShaftPlace* droop = Find(report.travel, Kind::kFullDroop);
  const ShaftPlace* bump = Find(report.travel, Kind::kFullBump);
  for (size_t j = 0; j < n; ++j) {
    JointKind kind = j == 0 ? shaft.output_joint : shaft.axle_joint;
    if (j > 0 && j + 1 < n) kind = shaft.center_bearing->joint;
    double greatest = 0.0;
    for (const ShaftPlace& place : AllPlaces(report)) {
      greatest = std::max(greatest, place.joints[j].angle);
    }
    table.rows.push_back({JointName(j, n),
                          std::string(kind == JointKind::kSingle ? "single" : "double"),
                          rest.joints[j].side, rest.joints[j].plan, rest.joints[j].angle,
                          droop ? Cell(droop->joints[j].angle) : Cell(),
                          bump ? Cell(bump->joints[j].angle) : Cell(), greatest});
  }
  return table;
}

std::vector<Column> PlaceColumns(bool centre) {
  std::vector<Column> columns{
      {"place", "place", kNumber, "",
       "rest, an end of travel, or a travel of both wheels from rest; + bump"},
      {"length", "length", kLength, "",
       "between joint centres; of a two-piece shaft, of the piece at the axle"},
      {"plunge", "plunge", kLength, "", "length against the measured stance; + longer"},
      {"to_bottom", "left to bottom", kLength, "",
       "of the slip joint before it bottoms; below 0: it has"},
      {"to_part", "left to part", kLength, "",
       "of its stroke before it comes apart; below 0: it has"},
      {"output_joint", "output joint", kAngle, "", "working angle in space"}};
  if (centre) {
    columns.push_back({"center_joint", "centre joint", kAngle, "",
                       "working angle at the centre bearing, where there is one"});
  }
  columns.push_back({"pinion_joint", "pinion joint", kAngle, "", "working angle in space"});
  columns.push_back({"net_angle", "net angle", kAngle, "",
                     "of the one single joint that would run as unevenly as all of them together"});
  columns.push_back({"speed_ripple", "speed ripple", kPercent, "",
                     "greatest less least of the pinion's speed over a turn, of its mean"});
  return columns;
}

std::vector<Cell> PlaceRow(const ShaftPlace& place, UnitSystem units) {
  std::vector<Cell> row{PlaceName(place, units), place.length, place.plunge, Cell(place.to_bottom),
                        Cell(place.to_part)};
  for (const JointParts& joint : place.joints) row.emplace_back(joint.angle);
  row.emplace_back(place.net_angle);
  row.emplace_back(place.ripple);
  return row;
}

DataTable TravelTable(const ShaftReport& report, UnitSystem units) {
  DataTable table{
      .units = units, .columns = PlaceColumns(AtRest(report).joints.size() > 2), .rows = {}};
  for (const ShaftPlace& place : AllPlaces(report)) table.rows.push_back(PlaceRow(place, units));
  return table;
}

std::vector<Column> SpeedColumns() {
  return {{"place", "place", kNumber, "", "as in the table over travel"},
          {"speed", "speed", kShaftSpeed, "", "of the output, steady"},
          {"torsional", "torsional", kAcceleration, "",
           "greatest angular acceleration of the pinion over a turn"},
          {"inertial", "inertial", kAcceleration, "",
           "greatest angular acceleration of a piece of the shaft, driving or coasting"}};
}

DataTable SpeedTable(const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = SpeedColumns(), .rows = {}};
  for (const Kind kind : {Kind::kFullDroop, Kind::kRest, Kind::kFullBump}) {
    const ShaftPlace* place = Find(report.travel, kind);
    if (place == nullptr) continue;
    table.rows.push_back({PlaceName(*place, units), Cell(report.speed), Cell(place->torsional),
                          Cell(place->inertial)});
  }
  return table;
}

std::vector<Column> TurnColumns() {
  return {{"link", "link", kNumber, "", "by its name; both of a pair are turned alike"},
          {"longer", "longer by", kLength, "", "+ longer, - shorter"},
          {"turns", "turns", kNumber, "", "of its adjuster; empty where the file gives no thread"},
          {"pinion_up", "pinion turns", kAngle, "", "yoke end up +, at the new rest"},
          {"axle_ahead", "axle moves", kLength, "", "housing centre at the new rest; + forward"},
          {"output_joint", "output joint", kAngle, "", "working angle at the new rest"},
          {"pinion_joint", "pinion joint", kAngle, "", "working angle at the new rest"},
          {"net_angle", "net angle", kAngle, "", "at the new rest"},
          {"length", "shaft length", kLength, "", "at the new rest"}};
}

DataTable TurnTable(const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = TurnColumns(), .rows = {}};
  for (const LinkCure& cure : report.cures) {
    Cell turns;
    if (cure.links.thread) turns = cure.by / *cure.links.thread;
    table.rows.push_back({cure.links.name, cure.by, turns, cure.pinion, cure.moved,
                          cure.after.joints.front().angle, cure.after.joints.back().angle,
                          cure.after.net_angle, cure.after.length});
  }
  return table;
}

std::vector<Column> TorqueColumns() {
  return {
      {"place", "place", kNumber, "",
       "at rest, or under the torque; each wheel with its own load at rest, and half of what the "
       "acceleration moves onto the axle"},
      {"pinion_up", "pinion turns", kAngle, "", "against the rest without torque; yoke end up +"},
      {"axle_ahead", "axle forward", kLength, "", "housing centre against the same; + forward"},
      {"axle_up", "axle up", kLength, "", "against the body; + bump"},
      {"axle_steer", "axle steer", kAngle, "",
       "of the housing against the rest without torque; + turned left"},
      {"output_joint", "output joint", kAngle, "", "working angle"},
      {"pinion_joint", "pinion joint", kAngle, "", "working angle"},
      {"net_angle", "net angle", kAngle, "", "as over travel"},
      {"length", "shaft length", kLength, "", "of the piece that slides"}};
}

DataTable TorqueTable(const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = TorqueColumns(), .rows = {}};
  const ShaftPlace& rest = AtRest(report);
  const auto add = [&](const std::string& name, const ShaftPlace& place, double up, const Pose& a,
                       const Pose& b) {
    table.rows.push_back({name, up, b.x - a.x, b.z - a.z, b.steer - a.steer,
                          place.joints.front().angle, place.joints.back().angle, place.net_angle,
                          place.length});
  };
  const WindUp& wind = *report.wind_up;
  add("rest", rest, 0.0, wind.free, wind.free);
  add("under torque", *report.under_torque, report.pinion_up.value_or(0.0), wind.free, wind.wound);
  return table;
}

std::vector<Column> OrderColumns() {
  return {{"shaft", "shaft", kNumber, "", "its name in the file"},
          {"front_piece", "front piece", kLength, "",
           "of a two-piece shaft: output joint to the joint at its bearing"},
          {"length_at_rest", "length at rest", kLength, "", "between joint centres, at rest"},
          {"least_length", "least length", kLength, "", "over travel, crossed and one wheel alone"},
          {"most_length", "most length", kLength, "", "the same"},
          {"stroke", "stroke used", kLength, "", "most less least"},
          {"slip", "slip given", kLength, "", "whole stroke of the slip joint in the file"},
          {"compress", "room to shorten", kLength, "",
           "rest less least: what must be left to bottom at rest"},
          {"extend", "room to lengthen", kLength, "",
           "most less rest: what must be engaged beyond its need at rest"},
          {"output_joint", "output joint, greatest", kAngle, "",
           "over travel, crossed and one wheel alone"},
          {"pinion_joint", "pinion joint, greatest", kAngle, "", "the same"}};
}

DataTable OrderTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = OrderColumns(), .rows = {}};
  const ShaftPlace& rest = AtRest(report);
  double least = rest.length, most = rest.length, output = 0.0, pinion = 0.0;
  for (const ShaftPlace& place : AllPlaces(report)) {
    least = std::min(least, place.length);
    most = std::max(most, place.length);
    output = std::max(output, place.joints.front().angle);
    pinion = std::max(pinion, place.joints.back().angle);
  }
  table.rows.push_back({shaft.name, Cell(report.front_length), rest.length, least, most,
                        most - least, Cell(shaft.slip), rest.length - least, most - rest.length,
                        output, pinion});
  return table;
}

}  // namespace

std::string JointName(size_t joint, size_t joints) {
  if (joint == 0) return "output";
  return joint + 1 == joints ? "pinion" : "centre bearing";
}

std::vector<NamedTable> DrivelineTables(const Vehicle& vehicle,
                                        const std::vector<ShaftReport>& reports, UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const ShaftReport& report : reports) {
    const Driveshaft& shaft = vehicle.driveshafts[report.shaft];
    tables.push_back({shaft.name + " slopes", SlopeTable(shaft, report, units)});
    tables.push_back({shaft.name + " joints", JointTable(shaft, report, units)});
    tables.push_back({shaft.name + " travel", TravelTable(report, units)});
    if (report.speed) tables.push_back({shaft.name + " speed", SpeedTable(report, units)});
    if (!report.cures.empty()) tables.push_back({shaft.name + " turn", TurnTable(report, units)});
    if (report.under_torque) {
      tables.push_back({shaft.name + " torque", TorqueTable(report, units)});
    }
    tables.push_back({shaft.name + " order", OrderTable(shaft, report, units)});
  }
  return tables;
}

std::vector<NamedTable> AllDrivelineTables() {
  const auto table = [](const char* name, std::vector<Column> columns) {
    return NamedTable{name,
                      {.units = UnitSystem::kMetric, .columns = std::move(columns), .rows = {}}};
  };
  return {table("slopes", SlopeColumns()),     table("joints", JointColumns()),
          table("travel", PlaceColumns(true)), table("speed", SpeedColumns()),
          table("turn", TurnColumns()),        table("torque", TorqueColumns()),
          table("order", OrderColumns())};
}

}  // namespace linkwright
