// SPDX-License-Identifier: MIT
#include "io/write/driveline_tables.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "io/write/table_of.h"

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

double OutputJoint(const ShaftPlace& place) { return place.joints.front().angle; }
double PinionJoint(const ShaftPlace& place) { return place.joints.back().angle; }

double GreatestAngle(const ShaftReport& report, size_t joint) {
  double greatest = 0.0;
  for (const ShaftPlace& place : AllPlaces(report)) {
    greatest = std::max(greatest, place.joints[joint].angle);
  }
  return greatest;
}

Cell AngleAt(const ShaftPlace* place, size_t joint) {
  return Within(place, [&](const ShaftPlace& there) { return there.joints[joint].angle; });
}

const char* KindOf(const Driveshaft& shaft, size_t joint, size_t joints) {
  JointKind kind = joint == 0 ? shaft.output_joint : shaft.axle_joint;
  if (joint > 0 && joint + 1 < joints) kind = shaft.center_bearing->joint;
  return kind == JointKind::kSingle ? "single" : "double";
}

// The rows are the joints, output first.
TableOf<size_t> JointColumns(const Driveshaft& shaft, const ShaftReport& report) {
  const std::vector<ShaftPlace>& travel = report.travel;
  const auto at_rest = [&](size_t j) -> const JointParts& { return AtRest(report).joints[j]; };
  const auto count = [&] { return AtRest(report).joints.size(); };
  return {{"joint", "joint", kNumber, "output, centre bearing or pinion",
           [=](auto j) { return JointName(j, count()); }},
          {"kind", "kind", kNumber, "single or double",
           [=, &shaft](auto j) { return KindOf(shaft, j, count()); }},
          {"side", "side, rest", kAngle,
           "seen from the side, at rest: + the shaft after it, toward the axle, rises more",
           [=](auto j) { return at_rest(j).side; }},
          {"plan", "plan, rest", kAngle,
           "seen from above, at rest: + the shaft after it points more to the left",
           [=](auto j) { return at_rest(j).plan; }},
          {"rest", "in space, rest", kAngle, "working angle at rest, both parts together",
           [=](auto j) { return at_rest(j).angle; }},
          {"full_droop", "full droop", kAngle, "working angle at full droop",
           [&](auto j) { return AngleAt(Find(travel, Kind::kFullDroop), j); }},
          {"full_bump", "full bump", kAngle, "working angle at full bump",
           [&](auto j) { return AngleAt(Find(travel, Kind::kFullBump), j); }},
          {"greatest", "greatest", kAngle,
           "greatest working angle over travel, crossed and one wheel alone",
           [&](auto j) { return GreatestAngle(report, j); }}};
}

TableOf<ShaftPlace> PlaceColumns(bool center_bearing, UnitSystem units) {
  TableOf<ShaftPlace> columns{
      {"place", "place", kNumber,
       "rest, an end of travel, or a travel of both wheels from rest; + bump",
       [units](auto& place) { return PlaceName(place, units); }},
      {"length", "length", kLength,
       "between joint centres; of a two-piece shaft, of the piece at the axle",
       &ShaftPlace::length},
      {"plunge", "plunge", kLength, "length against the measured stance; + longer",
       &ShaftPlace::plunge},
      {"to_bottom", "left to bottom", kLength,
       "of the slip joint before it bottoms; below 0: it has", &ShaftPlace::to_bottom},
      {"to_part", "left to part", kLength, "of its stroke before it comes apart; below 0: it has",
       &ShaftPlace::to_part},
      {"output_joint", "output joint", kAngle, "working angle in space", OutputJoint}};
  if (center_bearing) {
    columns.push_back({"center_joint", "centre joint", kAngle,
                       "working angle at the centre bearing, where there is one",
                       [](auto& place) { return place.joints[1].angle; }});
  }
  columns.push_back(
      {"pinion_joint", "pinion joint", kAngle, "working angle in space", PinionJoint});
  columns.push_back({"net_angle", "net angle", kAngle,
                     "of the one single joint that would run as unevenly as all of them together",
                     &ShaftPlace::net_angle});
  columns.push_back({"speed_ripple", "speed ripple", kPercent,
                     "greatest less least of the pinion's speed over a turn, of its mean",
                     &ShaftPlace::ripple});
  return columns;
}

TableOf<ShaftPlace> SpeedColumns(std::optional<double> speed, UnitSystem units) {
  return {
      {"place", "place", kNumber, "as in the table over travel",
       [units](auto& place) { return PlaceName(place, units); }},
      {"speed", "speed", kShaftSpeed, "of the output, steady", [speed](auto&) { return speed; }},
      {"torsional", "torsional", kAcceleration,
       "greatest angular acceleration of the pinion over a turn", &ShaftPlace::torsional},
      {"inertial", "inertial", kAcceleration,
       "greatest angular acceleration of a piece of the shaft, driving or coasting",
       &ShaftPlace::inertial}};
}

DataTable SpeedTable(const ShaftReport& report, UnitSystem units) {
  std::vector<ShaftPlace> places;
  for (const Kind kind : {Kind::kFullDroop, Kind::kRest, Kind::kFullBump}) {
    if (const ShaftPlace* place = Find(report.travel, kind)) places.push_back(*place);
  }
  return ToTable(SpeedColumns(report.speed, units), places, units);
}

// Of a shaft at another place than those over travel.
TableOf<ShaftPlace> ThereColumns(const char* joint, const char* net_angle, const char* length) {
  return {{"output_joint", "output joint", kAngle, joint, OutputJoint},
          {"pinion_joint", "pinion joint", kAngle, joint, PinionJoint},
          {"net_angle", "net angle", kAngle, net_angle, &ShaftPlace::net_angle},
          {"length", "shaft length", kLength, length, &ShaftPlace::length}};
}

TableOf<LinkCure> TurnColumns() {
  TableOf<LinkCure> columns{
      {"link", "link", kNumber, "by its name; both of a pair are turned alike",
       [](auto& cure) { return cure.links.name; }},
      {"longer", "longer by", kLength, "+ longer, - shorter", &LinkCure::by},
      {"turns", "turns", kNumber, "of its adjuster; empty where the file gives no thread",
       [](auto& cure) {
         return Within(cure.links.thread, [&](double thread) { return cure.by / thread; });
       }},
      {"pinion_up", "pinion turns", kAngle, "yoke end up +, at the new rest", &LinkCure::pinion},
      {"axle_ahead", "axle moves", kLength, "housing centre at the new rest; + forward",
       &LinkCure::moved}};
  AddPart(columns,
          ThereColumns("working angle at the new rest", "at the new rest", "at the new rest"),
          &LinkCure::after);
  return columns;
}

struct UnderTorque {
  std::string name;
  double pinion_up;
  Pose free, now;  // of the housing
  ShaftPlace place;
};

TableOf<UnderTorque> TorqueColumns() {
  TableOf<UnderTorque> columns{
      {"place", "place", kNumber,
       "at rest, or under the torque; each wheel with its own load at rest, and half of what the "
       "acceleration moves onto the axle",
       &UnderTorque::name},
      {"pinion_up", "pinion turns", kAngle, "against the rest without torque; yoke end up +",
       &UnderTorque::pinion_up},
      {"axle_ahead", "axle forward", kLength, "housing centre against the same; + forward",
       [](auto& row) { return row.now.x - row.free.x; }},
      {"axle_up", "axle up", kLength, "against the body; + bump",
       [](auto& row) { return row.now.z - row.free.z; }},
      {"axle_steer", "axle steer", kAngle,
       "of the housing against the rest without torque; + turned left",
       [](auto& row) { return row.now.steer - row.free.steer; }}};
  AddPart(columns, ThereColumns("working angle", "as over travel", "of the piece that slides"),
          &UnderTorque::place);
  return columns;
}

DataTable TorqueTable(const ShaftReport& report, UnitSystem units) {
  const WindUp& wind = *report.wind_up;
  const std::vector<UnderTorque> rows{{"rest", 0.0, wind.free, wind.free, AtRest(report)},
                                      {"under torque", report.pinion_up.value_or(0.0), wind.free,
                                       wind.wound, *report.under_torque}};
  return ToTable(TorqueColumns(), rows, units);
}

struct Lengths {
  double rest, least, most;
};

Lengths LengthsOf(const ShaftReport& report) {
  const double rest = AtRest(report).length;
  Lengths all{rest, rest, rest};
  for (const ShaftPlace& place : AllPlaces(report)) {
    all.least = std::min(all.least, place.length);
    all.most = std::max(all.most, place.length);
  }
  return all;
}

// What the one who makes the shaft must know.
TableOf<ShaftReport> OrderColumns(const Driveshaft& shaft) {
  return {{"shaft", "shaft", kNumber, "its name in the file", [&](auto&) { return shaft.name; }},
          {"front_piece", "front piece", kLength,
           "of a two-piece shaft: output joint to the joint at its bearing",
           &ShaftReport::front_length},
          {"length_at_rest", "length at rest", kLength, "between joint centres, at rest",
           [](auto& r) { return LengthsOf(r).rest; }},
          {"least_length", "least length", kLength, "over travel, crossed and one wheel alone",
           [](auto& r) { return LengthsOf(r).least; }},
          {"most_length", "most length", kLength, "the same",
           [](auto& r) { return LengthsOf(r).most; }},
          {"stroke", "stroke used", kLength, "most less least",
           [](auto& r) { return LengthsOf(r).most - LengthsOf(r).least; }},
          {"slip", "slip given", kLength, "whole stroke of the slip joint in the file",
           [&](auto&) { return shaft.slip; }},
          {"compress", "room to shorten", kLength,
           "rest less least: what must be left to bottom at rest",
           [](auto& r) { return LengthsOf(r).rest - LengthsOf(r).least; }},
          {"extend", "room to lengthen", kLength,
           "most less rest: what must be engaged beyond its need at rest",
           [](auto& r) { return LengthsOf(r).most - LengthsOf(r).rest; }},
          {"output_joint", "output joint, greatest", kAngle,
           "over travel, crossed and one wheel alone", [](auto& r) { return GreatestAngle(r, 0); }},
          {"pinion_joint", "pinion joint, greatest", kAngle, "the same",
           [](auto& r) { return GreatestAngle(r, AtRest(r).joints.size() - 1); }}};
}

}  // namespace

std::vector<NamedTable> DrivelineTables(const Vehicle& vehicle,
                                        const std::vector<ShaftReport>& reports, UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const ShaftReport& report : reports) {
    const Driveshaft& shaft = vehicle.driveshafts[report.shaft];
    const auto add = [&](const char* what, DataTable table) {
      tables.push_back({shaft.name + what, std::move(table)});
    };
    add(" slopes", SlopeTable(shaft, report, units));
    const size_t joints = AtRest(report).joints.size();
    add(" joints", ToTable(JointColumns(shaft, report), Indices(joints), units));
    add(" travel", ToTable(PlaceColumns(joints > 2, units), AllPlaces(report), units));
    if (report.speed) add(" speed", SpeedTable(report, units));
    if (!report.cures.empty()) add(" turn", ToTable(TurnColumns(), report.cures, units));
    if (report.under_torque) add(" torque", TorqueTable(report, units));
    add(" order", ToTable(OrderColumns(shaft), std::span(&report, 1), units));
  }
  return tables;
}

std::vector<NamedTable> AllDrivelineTables() {
  const UnitSystem units = UnitSystem::kMetric;
  const Driveshaft shaft{};
  const ShaftReport report{};
  return {{"slopes", SlopeTable(shaft, report, units)},
          {"joints", ToTable(JointColumns(shaft, report))},
          {"travel", ToTable(PlaceColumns(true, units))},
          {"speed", ToTable(SpeedColumns({}, units))},
          {"turn", ToTable(TurnColumns())},
          {"torque", ToTable(TorqueColumns())},
          {"order", ToTable(OrderColumns(shaft))}};
}

}  // namespace linkwright
