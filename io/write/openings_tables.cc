// SPDX-License-Identifier: MIT
#include "io/write/openings_tables.h"

#include <fmt/format.h>

namespace linkwright {
namespace {

using enum Dimension;

constexpr std::array kSides{"left", "right"};

Column Text(const char* name, const char* head, const char* definition) {
  return {name, head, kNumber, "", definition};
}

Column Length(const char* name, const char* head, const char* definition) {
  return {name, head, kLength, "", definition};
}

Column Angle(const char* name, const char* head, const char* definition) {
  return {name, head, kAngle, "", definition};
}

DataTable RestTable(const Vehicle& vehicle, const OpeningsReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      Text("wheel", "wheel", "axle and side"),
      Length("ahead", "ahead", "hub against the opening's centre, chassis axes; + ahead"),
      Length("up", "up", "hub against the opening's centre; + up"),
      Length("tape_ahead", "gap ahead",
             "level with the hub, from the tyre's foremost point to the edge of the opening"),
      Length("tape_behind", "gap behind", "the same from its rearmost point"),
      Length("tape_above", "gap above", "plumb over the hub, from the tyre's top to the edge"),
      Length("in_lip", "inside lip",
             "the lip outside of the tyre's outer face at hub height; below 0: the tyre sticks "
             "out")};
  for (const WheelInOpening& wheel : report.wheels) {
    table.rows.push_back({vehicle.axles[wheel.axle].name + " " + kSides[wheel.side], wheel.ahead,
                          wheel.up, Cell(wheel.tape.ahead), Cell(wheel.tape.behind),
                          Cell(wheel.tape.above), Cell(wheel.tape.in_lip)});
  }
  return table;
}

DataTable LeastTable(const Vehicle& vehicle, const OpeningsReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      Text("pair", "tyre to what", "wheel, and the lip or the inner panel"),
      Length("gap", "least gap", "over every motion and steer; below 0: that deep in"),
      Text("motion", "when", "the motion in which it is least"),
      Length("wheel_travel", "wheel travel", "of this wheel then, from rest; + bump"),
      Angle("angle", "at angle", "the motion's parameter, of roll and crossed"),
      Angle("steer", "steer", "of the wheel inside the bend then, + left; empty: steering held"),
      Angle("around", "on tyre at",
            "where on the tyre about the hub in side view: 0 ahead, 90 on top, 180 behind"),
      Text("part", "on its", "tread, a face, or the edge between them"),
      Length("x", "body x", "the point of the body, chassis axes"),
      Length("y", "body y", "the point of the body, chassis axes"),
      Length("z", "body z", "the point of the body, chassis axes")};
  for (const TireClearance& clearance : report.clearances) {
    const NearestTire* least = LeastOf(clearance);
    if (least == nullptr) continue;
    const bool angle = IsAngular(least->motion);
    table.rows.push_back({NameOf(vehicle, clearance), least->gap.distance,
                          std::string(NameOf(least->motion)), least->wheel_travel,
                          CellIf(angle, least->parameter), Cell(least->steer), least->gap.around,
                          std::string(NameOf(least->gap.part)), least->gap.p_CB.x(),
                          least->gap.p_CB.y(), least->gap.p_CB.z()});
  }
  return table;
}

DataTable MotionTable(const Vehicle& vehicle, const OpeningsReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      Text("pair", "tyre to what", "wheel, and the lip or the inner panel"),
      Length("rest", "rest", "least gap, steering held"),
      Length("bounce", "bounce", "least gap, steering held"),
      Length("roll", "roll", "least gap, steering held"),
      Length("crossed", "crossed", "least gap, steering held"),
      Length("one_wheel", "one wheel", "least gap with this wheel alone moving, steering held"),
      Length("rest_lock", "rest, lock to lock", "least gap over all steer; empty without a lock"),
      Length("bounce_lock", "bounce, lock to lock", "the same"),
      Length("roll_lock", "roll, lock to lock", "the same"),
      Length("crossed_lock", "crossed, lock to lock", "the same"),
      Length("one_wheel_lock", "one wheel, lock to lock", "the same")};
  for (const TireClearance& clearance : report.clearances) {
    std::vector<Cell> row{NameOf(vehicle, clearance)};
    for (const auto& list : {&clearance.held, &clearance.turned}) {
      for (const std::optional<NearestTire>& each : *list) {
        row.push_back(CellIf(each.has_value(), each ? each->gap.distance : 0.0));
      }
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

DataTable SweptTable(const Vehicle& vehicle, const OpeningsReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {Text("motion", "swept",
                        "axle, motion and way; of one wheel, the left one; as `limits` has it, "
                        "but through the tyres' own contact"),
                   Length("travel", "to travel", "of bounce and one wheel; + bump"),
                   Angle("angle", "to angle", "of roll and crossed"),
                   Text("ended_by", "ended by", "'nothing' where the file has no end")};
  for (size_t axle = 0; axle < 2; ++axle) {
    for (const SweptRange& range : report.ranges[axle]) {
      if (range.motion == TireMotion::kRest) continue;
      const bool angle = IsAngular(range.motion);
      for (size_t i = 0; i < 2; ++i) {
        const double to = i == 0 ? range.low : range.high;
        const auto& end = range.ended_by[i];
        table.rows.push_back(
            {vehicle.axles[axle].name + " " + NameOf(range.motion) + (i == 0 ? " -" : " +"),
             CellIf(!angle, to), CellIf(angle, to),
             end ? vehicle.axles[end->axle].name + " " + end->reason : std::string("nothing")});
      }
    }
  }
  return table;
}

DataTable CentringTable(const OpeningsAnswer& answer, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      Text("plan", "plan", "what the chassis takes of the mismatch"),
      Length("body_ahead", "body ahead", "move the body forward on the chassis by this"),
      Length("body_up_front", "up at front", "raise it at its front opening"),
      Length("body_up_rear", "up at rear", "raise it at its rear opening"),
      Length("chassis_longer", "chassis longer",
             "let into the chassis between the axles; below 0: cut out"),
      Length("front_ahead", "then front ahead", "hub against the opening's centre, settled again"),
      Length("front_up", "then front up", "the same"),
      Length("rear_ahead", "then rear ahead", "the same"),
      Length("rear_up", "then rear up", "the same")};
  for (const CentringPlan& plan : answer.plans) {
    if (!plan.found) continue;
    const std::string name = plan.share == 0.0
                                 ? std::string("body alone")
                                 : fmt::format("chassis takes {:.4g} %", 100.0 * plan.share);
    table.rows.push_back({name, plan.move.ahead, plan.move.up_front, plan.move.up_rear,
                          plan.move.longer, plan.after[0].ahead, plan.after[0].up,
                          plan.after[1].ahead, plan.after[1].up});
  }
  return table;
}

DataTable ShaftTable(const OpeningsAnswer& answer, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {Text("shaft", "driveshaft", "with the first plan carried out"),
                   Length("longer", "longer by", "at rest, against as it is; below 0: shorter")};
  if (answer.plans.empty() || !answer.plans.front().found) return table;
  for (const ShaftChange& shaft : answer.plans.front().shafts) {
    table.rows.push_back({shaft.name, shaft.longer});
  }
  return table;
}

void AddHanging(const Vehicle& vehicle, const std::vector<Hanging>& hanging, const char* when,
                DataTable& table) {
  for (const Hanging& each : hanging) {
    std::vector<Cell> row{vehicle.axles[each.axle].name + when,
                          each.travel,
                          each.ended_by.value_or("nothing"),
                          each.ahead,
                          each.left,
                          each.up,
                          each.pitch};
    const bool has = each.in_opening.has_value();
    row.push_back(CellIf(has, has ? each.in_opening->ahead : 0.0));
    row.push_back(CellIf(has, has ? each.in_opening->up : 0.0));
    table.rows.push_back(std::move(row));
  }
}

DataTable StandsTable(const Vehicle& vehicle, const OpeningsAnswer& answer, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      Text("axle", "axle", "as it is, or with the first plan carried out"),
      Length("travel", "full droop", "from rest; below 0"),
      Text("ended_by", "ended by", "what ends droop; 'nothing' where the file has no end"),
      Length("ahead", "hub ahead", "of its place at rest"),
      Length("left", "hub left", "of its place at rest"),
      Length("up", "hub up", "of its place at rest; below 0"),
      Angle("housing_pitch", "housing pitch", "against rest; + nose up"),
      Length("opening_ahead", "of opening: ahead", "hub against the opening's centre then"),
      Length("opening_up", "of opening: up", "the same")};
  AddHanging(vehicle, answer.hanging, ", as it is", table);
  AddHanging(vehicle, answer.hanging_moved, ", to land centred", table);
  return table;
}

}  // namespace

std::string NameOf(const Vehicle& vehicle, const TireClearance& clearance) {
  return vehicle.axles[clearance.axle].name + " " + kSides[clearance.side] +
         (clearance.surface == Surface::kLip ? " to lip" : " to inner panel");
}

const char* NameOf(TirePart part) {
  switch (part) {
    case TirePart::kTread:
      return "tread";
    case TirePart::kOuterEdge:
      return "outer edge";
    case TirePart::kInnerEdge:
      return "inner edge";
    case TirePart::kOuterFace:
      return "outer face";
    case TirePart::kInnerFace:
      break;
  }
  return "inner face";
}

const char* NameOf(TireMotion motion) {
  switch (motion) {
    case TireMotion::kRest:
      return "rest";
    case TireMotion::kBounce:
      return "bounce";
    case TireMotion::kRoll:
      return "roll";
    case TireMotion::kCrossed:
      return "crossed";
    case TireMotion::kOneWheel:
      break;
  }
  return "one wheel";
}

bool IsAngular(TireMotion motion) {
  return motion == TireMotion::kRoll || motion == TireMotion::kCrossed;
}

std::vector<NamedTable> OpeningsTables(const Vehicle& vehicle, const OpeningsAnswer& answer,
                                       UnitSystem units) {
  std::vector<NamedTable> tables;
  const auto add = [&](const char* name, DataTable table) {
    if (!table.rows.empty()) tables.push_back({name, std::move(table)});
  };
  add("in their openings at rest", RestTable(vehicle, answer.report, units));
  add("least clearance", LeastTable(vehicle, answer.report, units));
  add("clearance by motion", MotionTable(vehicle, answer.report, units));
  add("swept", SweptTable(vehicle, answer.report, units));
  add("centring", CentringTable(answer, units));
  add("shafts then", ShaftTable(answer, units));
  add("on stands", StandsTable(vehicle, answer, units));
  return tables;
}

}  // namespace linkwright
