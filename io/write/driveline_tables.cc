// SPDX-License-Identifier: MIT
#include "io/write/driveline_tables.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "io/write/name_in.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;
using Kind = ShaftPlaceKind;

std::string PlaceName(const ShaftPlace& place, UnitSystem units) {
  if (place.kind == Kind::kTravel) {
    const double shown = std::round(1e7 * place.travel) / 1e7;  // [m] a row's travel, rounding off
    return (shown > 0.0 ? "+" : "") + FormatValue(shown, kLength, units);
  }
  constexpr std::array kNames{"full droop",
                              "",  // kTravel
                              "rest",
                              "full bump",
                              "crossed, right wheel up",
                              "crossed, left wheel up",
                              "left wheel down alone",
                              "left wheel up alone",
                              "right wheel down alone",
                              "right wheel up alone",
                              "under torque"};
  return NameIn(kNames, place.kind);
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

// The rows are the joints, output first.
TableOf<size_t> JointColumns(const Driveshaft& shaft, const ShaftReport& report) {
  const std::vector<ShaftPlace>& travel = report.travel;
  const auto at_rest = [&](size_t j) -> const JointParts& { return AtRest(report).joints[j]; };
  const auto count = [&] { return AtRest(report).joints.size(); };
  return {{"joint", "joint", kNumber, "output, centre bearing or pinion",
           [=](auto j) { return JointName(j, count()); }},
          {"kind", "kind", kNumber, "single or double",
           [=, &shaft](auto j) {
             return KindOf(shaft, j, count()) == JointKind::kSingle ? "single" : "double";
           }},
          {"side", "at rest, side", kAngle,
           "seen from the side, at rest: + the shaft after it, toward the axle, rises more",
           [=](auto j) { return at_rest(j).side; }},
          {"plan", "at rest, above", kAngle,
           "seen from above, at rest: + the shaft after it points more to the left",
           [=](auto j) { return at_rest(j).plan; }},
          {"rest", "at rest, true", kAngle, "working angle at rest, both parts together",
           [=](auto j) { return at_rest(j).angle; }},
          {"full_droop", "at full droop", kAngle, "working angle at full droop",
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
  columns.push_back({"net_angle", "equivalent joint angle", kAngle,
                     "of the one single joint that would run as unevenly as all of them together",
                     &ShaftPlace::net_angle});
  columns.push_back({"speed_ripple", "speed ripple", kPercent,
                     "greatest less least of the pinion's speed over a turn, of its mean",
                     &ShaftPlace::ripple});
  return columns;
}

DataTable SpeedTable(const ShaftReport& report, UnitSystem units) {
  const TableOf<ShaftPlace> columns{
      {"place", "place", kNumber, "as in the table over travel",
       [units](auto& place) { return PlaceName(place, units); }},
      {"speed", "speed", kShaftSpeed, "of the output, steady", [&](auto&) { return report.speed; }},
      {"torsional", "torsional", kAcceleration,
       "greatest angular acceleration of the pinion over a turn", &ShaftPlace::torsional},
      {"inertial", "inertial", kAcceleration,
       "greatest angular acceleration of a piece of the shaft, driving or coasting",
       &ShaftPlace::inertial}};
  std::vector<ShaftPlace> places;
  for (const Kind kind : {Kind::kFullDroop, Kind::kRest, Kind::kFullBump}) {
    if (const ShaftPlace* place = Find(report.travel, kind)) places.push_back(*place);
  }
  return ToTable(columns, places, units);
}

// Of a shaft at another place than those over travel.
TableOf<ShaftPlace> ThereColumns(const char* joint, const char* net_angle, const char* length) {
  return {{"output_joint", "output joint", kAngle, joint, OutputJoint},
          {"pinion_joint", "pinion joint", kAngle, joint, PinionJoint},
          {"net_angle", "equivalent joint angle", kAngle, net_angle, &ShaftPlace::net_angle},
          {"length", "shaft length", kLength, length, &ShaftPlace::length}};
}

TableOf<LinkCure> TurnColumns() {
  TableOf<LinkCure> columns{
      {"link", "link", kNumber, "by its name; both of a pair are turned alike",
       [](auto& cure) { return cure.links.name; }},
      {"longer", "longer by", kLength, "+ longer, - shorter", &LinkCure::by},
      {"turns", "turns", kNumber, "of its adjuster; empty where the file gives no thread",
       [](auto& cure) { return TurnsOf(cure.links, cure.by); }},
      {"pinion_up", "pinion turns", kAngle, "yoke end up +, at the new rest", &LinkCure::pinion},
      {"axle_ahead", "axle moves", kLength, "housing centre at the new rest; + forward",
       &LinkCure::moved}};
  AddPart(columns,
          ThereColumns("working angle at the new rest", "at the new rest", "at the new rest"),
          &LinkCure::after);
  LeaveToFull(columns, {"output_joint", "pinion_joint"});
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

// The load that decides a length, where there are several.
std::string ShaftUnder(const std::string& under) { return under.empty() ? "any" : under; }

// What the one who makes the shafts must know.
TableOf<ShaftOrder> OrderColumns(const Vehicle& vehicle) {
  return {
      {"shaft", "shaft", kNumber, "its name in the file",
       [&](auto& order) { return vehicle.driveshafts[order.shaft].name; }},
      {"front_piece", "front piece", kLength,
       "of a two-piece shaft: output joint to the joint at its bearing", &ShaftOrder::front_length},
      {"length_at_rest", "length at rest", kLength, "between joint centres, at rest",
       &ShaftOrder::rest},
      {"least_length", "least length", kLength,
       "over travel, crossed and one wheel alone, under every load", &ShaftOrder::least},
      {"least_under", "load of least", kNumber,
       "the load that decides; 'any' where all come to the same, as far as a tape shows",
       [](auto& order) { return ShaftUnder(order.least_under); }},
      {"most_length", "most length", kLength, "as the least", &ShaftOrder::most},
      {"most_under", "load of most", kNumber, "as of the least",
       [](auto& order) { return ShaftUnder(order.most_under); }},
      {"stroke", "stroke used", kLength, "most less least",
       [](auto& order) { return order.most - order.least; }},
      {"slip", "slip given", kLength, "whole stroke of the slip joint in the file",
       [&](auto& order) { return vehicle.driveshafts[order.shaft].slip; }},
      {"compress", "room to shorten", kLength,
       "rest less least: what must be left to bottom at rest",
       [](auto& order) { return order.rest - order.least; }},
      {"extend", "room to lengthen", kLength,
       "most less rest: what must be engaged beyond its need at rest",
       [](auto& order) { return order.most - order.rest; }},
      {"to_bottom", "left to bottom", kLength,
       "of its slip, the least under any load; below 0: it bottoms", &ShaftOrder::to_bottom},
      {"to_part", "left to part", kLength,
       "of its slip, the least under any load; below 0: it parts", &ShaftOrder::to_part},
      {"output_joint", "output joint, greatest", kAngle,
       "over travel, crossed and one wheel alone, under every load",
       [](auto& order) { return order.greatest.front(); }},
      {"pinion_joint", "pinion joint, greatest", kAngle, "the same",
       [](auto& order) { return order.greatest.back(); }}};
}

std::string PartName(const Driveshaft& shaft, size_t part, size_t parts) {
  if (part == 0) return "output";
  if (part + 1 == parts) return "pinion";
  if (!shaft.center_bearing) return "shaft";
  return part == 1 ? "front piece" : "rear piece";
}

// The output's yoke end is the one toward the axle, the pinion's the one away from it.
Cell YokeUp(const std::vector<ShaftSlope>& slopes, size_t part, double ShaftSlope::*against) {
  const double falls = slopes[part].*against;
  return part + 1 == slopes.size() ? Cell(falls) : CellIf(part == 0, -falls);
}

void TellEnd(const NoteWriter& writer, const char* side, const std::optional<LimitHit>& end,
             double looked) {
  if (end) {
    writer.Say("full {} is at {}: {}", side, writer.Length(*end->at), Describe(end->limit));
    return;
  }
  writer.Say(
      "nothing in the file ends its axle's travel in {}: it is looked at to {}, and angles are "
      "greatest over that",
      side, writer.Length(looked));
}

void TellLinks(const NoteWriter& writer, const ShaftReport& report, bool off) {
  for (const LinkCure& cure : report.cures) {
    const std::optional<double> turns = TurnsOf(cure.links, cure.by);
    writer.Say(
        "turn {}{} {} by {}{}: equivalent joint angle {}{}", cure.links.name,
        cure.links.members.size() > 1 ? " (both alike)" : "",
        cure.by > 0.0 ? "out, longer" : "in, shorter", writer.Length(std::abs(cure.by)),
        turns ? fmt::format(", {} turns of its adjuster", ShowNumber(std::abs(*turns), 2)) : "",
        writer.Angle(cure.after.net_angle), off ? "" : ", where you like");
  }
  if (off && report.cures.empty() && report.no_cure.empty()) {
    writer.Say("no link of its axle lowers the equivalent joint angle by its length");
  }
  if (report.no_cure.empty()) return;
  writer.Say(
      "no length that a shop can make does it by {}: {} either way on a thread, {:.0f} % of its "
      "length where the file gives none (common practice)",
      fmt::join(report.no_cure, ", "), writer.Length(kMostByThread), 100.0 * kMostByShare);
}

void TellAim(const NoteWriter& writer, const Driveshaft& shaft, const ShaftReport& report) {
  const std::optional<PinionOrder>& aim = report.aim;
  const ShaftAims& aims = shaft.aims;
  const double now = AtRest(report).net_angle;
  if (!aim) {
    writer.Say(
        "the double joint at the pinion lets it stand as it likes; what is left uneven, {}, comes "
        "from the joints before it",
        writer.Angle(now));
    return;
  }
  const double low = shaft.pinion_low;
  if (Shows(*aim, low, now)) {
    TellLinks(writer, report, aims.pair_differ && std::abs(aim->turn) > *aims.pair_differ);
  } else if (low == 0.0) {
    writer.Say(
        "no turn of the pinion lowers its equivalent joint angle at rest, {}, by what a finder "
        "shows",
        writer.Angle(now));
  } else {
    writer.Say("the pinion stands {} {} of the least equivalent joint angle, as it should",
               writer.Angle(std::abs(low)), low > 0.0 ? "low" : "high");
  }
}

void TellPhase(const NoteWriter& writer, const Driveshaft& shaft, const ShaftReport& report) {
  const std::optional<PhaseAdvice>& best = report.phase;
  if (!best) return;
  const double net = AtRest(report).net_angle;
  const double phase = shaft.phase;
  if (net - best->net_angle < kFinder) {
    writer.Say("the phase of its yokes, {}, is as good as any at rest", writer.Angle(phase));
    return;
  }
  writer.Say(
      "with its yokes at a phase of {}, not {}, its equivalent joint angle at rest would be {}, "
      "not {}",
      writer.Angle(best->phase), writer.Angle(phase), writer.Angle(best->net_angle),
      writer.Angle(net));
}

// A driveline supplier's rule: a degree for each 5 in between joint centres where output and pinion
// are parallel, for each 10 in where their lines cross.
void TellLengthRule(const NoteWriter& writer, const ShaftReport& report) {
  constexpr double kPerDegree = 5.0 * 0.0254 / (std::numbers::pi / 180.0);  // [m/rad]
  const double most = AtRest(report).length / kPerDegree;
  writer.Say(
      "by its length a joint may work at {} at most with output and pinion parallel, at {} where "
      "their lines cross (a driveline supplier's rule: inches over 5, over 10)",
      writer.Angle(most), writer.Angle(0.5 * most));
}

void TellTorque(const NoteWriter& writer, const ShaftReport& report) {
  if (!report.under_torque) return;
  const std::string torque = writer.Amount(*report.torque, kTorque);
  const std::vector<double>& force = report.wind_up->link_force;
  const auto most = std::max_element(force.begin(), force.end(),
                                     [](double a, double b) { return std::abs(a) < std::abs(b); });
  const auto link = static_cast<size_t>(most - force.begin());
  writer.Say("under {} at the wheels the pinion's yoke end goes {} {}; {} then carries {} {}",
             torque, writer.Angle(std::abs(*report.pinion_up)),
             *report.pinion_up > 0.0 ? "up" : "down", report.wind_up->link_name[link],
             writer.Amount(std::abs(*most), kForce), *most > 0.0 ? "of pull" : "of push");
}

std::vector<ShaftOrder> OrdersOf(const std::vector<ShaftReport>& reports) {
  const ShaftsUnder one{.load = {}, .reports = reports};
  return OrderShafts(std::span(&one, 1));
}

DataTable SlopeTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  const std::vector<ShaftSlope>& slopes = report.slopes;
  const TableOf<size_t> columns{
      {"part", "part", kNumber, "output, the shaft or its pieces, pinion",
       [&](auto i) { return PartName(shaft, i, slopes.size()); }},
      {"falls_floor", "falls, floor", kAngle,
       "at rest, against the floor, + falls from the output toward the axle: what is called down "
       "of a shaft",
       [&](auto i) { return slopes[i].floor; }},
      {"falls_chassis", "falls, chassis", kAngle,
       "the same against the chassis' x axis, as output_angle and pinion.angle are",
       [&](auto i) { return slopes[i].chassis; }},
      {"yoke_up_floor", "yoke end up, floor", kAngle,
       "of output and pinion: their yoke end against the floor, up +",
       [&](auto i) { return YokeUp(slopes, i, &ShaftSlope::floor); }},
      {"yoke_up_chassis", "yoke end up, chassis", kAngle,
       "the same against the chassis: the sign of output_angle and pinion.angle",
       [&](auto i) { return YokeUp(slopes, i, &ShaftSlope::chassis); }}};
  return ToTable(columns, Indices(slopes.size()), units);
}

}  // namespace

std::vector<NamedTable> DrivelineTables(const Vehicle& vehicle,
                                        const std::vector<ShaftReport>& reports, UnitSystem units,
                                        const std::vector<ShaftOrder>& orders) {
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
  }
  TableOf<ShaftOrder> order = OrderColumns(vehicle);
  LeaveToFull(order, {"stroke", "slip", "compress", "extend", "output_joint", "pinion_joint"});
  const bool two_piece = std::any_of(reports.begin(), reports.end(),
                                     [](auto& report) { return report.front_length.has_value(); });
  if (!two_piece) LeaveToFull(order, {"front_piece"});
  const bool decided = std::any_of(orders.begin(), orders.end(), [](const ShaftOrder& each) {
    return !each.least_under.empty() || !each.most_under.empty();
  });
  if (!decided) LeaveToFull(order, {"least_under", "most_under"});
  tables.push_back({"order", ToTable(order, orders.empty() ? OrdersOf(reports) : orders, units)});
  return tables;
}

std::vector<std::string> DrivelineNotes(const Vehicle& vehicle,
                                        const std::vector<ShaftReport>& reports, UnitSystem units) {
  std::vector<std::string> notes;
  for (const ShaftReport& report : reports) {
    const Driveshaft& shaft = vehicle.driveshafts[report.shaft];
    const NoteWriter writer{&vehicle, units, &notes, "the " + shaft.name + " shaft: "};
    TellEnd(writer, "droop", report.droop, report.low);
    TellEnd(writer, "bump", report.bump, report.high);
    TellAim(writer, shaft, report);
    TellPhase(writer, shaft, report);
    TellLengthRule(writer, report);
    if (!shaft.slip) {
      writer.Say("the file gives no slip, so that bottoming and parting are not watched");
    }
    if (!report.speed) {
      writer.Say("no speed: give --speed, or top_speed_rpm in the file, for its accelerations");
    }
    TellTorque(writer, report);
  }
  return notes;
}

}  // namespace linkwright
