// SPDX-License-Identifier: MIT
#include "io/write/openings_tables.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "io/write/name_in.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

std::string NameOf(const Vehicle& vehicle, const TireClearance& clearance) {
  return WheelName(vehicle, 2 * clearance.axle + clearance.side) +
         (clearance.surface == Surface::kLip ? " to lip" : " to inner panel");
}

const char* NameOf(TirePart part) {
  constexpr std::array kNames{"tread", "outer edge", "inner edge", "outer face", "inner face"};
  return NameIn(kNames, part);
}

const char* NameOf(TireMotion motion) {
  constexpr std::array kNames{"rest", "bounce", "roll", "crossed", "one wheel"};
  return NameIn(kNames, motion);
}

TableOf<WheelInOpening> RestColumns(const Vehicle& vehicle) {
  return {
      {"wheel", "wheel", kNumber, "axle and side",
       [&](auto& wheel) { return WheelName(vehicle, 2 * wheel.axle + wheel.side); }},
      {"ahead", "ahead", kLength, "hub against the opening's centre, chassis axes; + ahead",
       &WheelInOpening::ahead},
      {"up", "up", kLength, "hub against the opening's centre; + up", &WheelInOpening::up},
      {"tape_ahead", "gap ahead", kLength,
       "level with the hub, from the tyre's foremost point to the edge of the opening",
       [](auto& wheel) { return wheel.tape.ahead; }},
      {"tape_behind", "gap behind", kLength, "the same from its rearmost point",
       [](auto& wheel) { return wheel.tape.behind; }},
      {"tape_above", "gap above", kLength, "plumb over the hub, from the tyre's top to the edge",
       [](auto& wheel) { return wheel.tape.above; }},
      {"in_lip", "inside lip", kLength,
       "the lip outside of the tyre's outer face at hub height; below 0: the tyre sticks out",
       [](auto& wheel) { return wheel.tape.in_lip; }}};
}

// Of the clearances that have a least gap.
TableOf<TireClearance> LeastColumns(const Vehicle& vehicle) {
  TableOf<TireClearance> columns{{"pair", "tyre to what", kNumber,
                                  "wheel, and the lip or the inner panel",
                                  [&](auto& clearance) { return NameOf(vehicle, clearance); }}};
  const TableOf<NearestTire> of_least{
      {"gap", "least gap", kLength, "over every motion and steer; below 0: that deep in",
       [](auto& least) { return least.gap.distance; }},
      {"motion", "when", kNumber, "the motion in which it is least",
       [](auto& least) { return NameOf(least.motion); }},
      {"wheel_travel", "wheel travel", kLength, "of this wheel then, from rest; + bump",
       &NearestTire::wheel_travel},
      {"angle", "at angle", kAngle, "the motion's parameter, of roll and crossed",
       [](auto& least) { return CellIf(IsAngular(least.motion), least.parameter); }},
      {"steer", "steer", kAngle, "of the wheel inside the bend then, + left; empty: steering held",
       &NearestTire::steer},
      {"around", "on tyre at", kAngle,
       "where on the tyre about the hub in side view: 0 ahead, 90 on top, 180 behind",
       [](auto& least) { return least.gap.around; }},
      {"part", "on its", kNumber, "tread, a face, or the edge between them",
       [](auto& least) { return NameOf(least.gap.part); }}};
  const auto least = [](auto& clearance) -> auto& { return *LeastOf(clearance); };
  AddPart(columns, of_least, least);
  AddPart(
      columns, PointColumns("", "body ", "the point of the body, chassis axes"),
      [=](auto& clearance) -> auto& { return least(clearance).gap.p_CB; });
  return columns;
}

using Nearest = std::array<std::optional<NearestTire>, 5>;  // by motion

TableOf<TireClearance> ByMotionColumns(const Vehicle& vehicle) {
  using enum TireMotion;
  const auto held = &TireClearance::held, turned = &TireClearance::turned;
  const auto gap = [](Nearest TireClearance::*nearest, TireMotion motion) {
    return [=](const TireClearance& clearance) {
      return Within((clearance.*nearest)[static_cast<size_t>(motion)],
                    [](auto& tire) { return tire.gap.distance; });
    };
  };
  const char* least_held = "least gap, steering held";
  const char* same = "the same";
  return {{"pair", "tyre to what", kNumber, "wheel, and the lip or the inner panel",
           [&](auto& clearance) { return NameOf(vehicle, clearance); }},
          {"rest", "rest", kLength, least_held, gap(held, kRest)},
          {"bounce", "bump and droop", kLength, least_held, gap(held, kBounce)},
          {"roll", "roll", kLength, least_held, gap(held, kRoll)},
          {"crossed", "crossed", kLength, least_held, gap(held, kCrossed)},
          {"one_wheel", "one wheel", kLength,
           "least gap with this wheel alone moving, steering held", gap(held, kOneWheel)},
          {"rest_lock", "rest, lock to lock", kLength,
           "least gap over all steer; empty without a lock", gap(turned, kRest)},
          {"bounce_lock", "bump and droop, lock to lock", kLength, same, gap(turned, kBounce)},
          {"roll_lock", "roll, lock to lock", kLength, same, gap(turned, kRoll)},
          {"crossed_lock", "crossed, lock to lock", kLength, same, gap(turned, kCrossed)},
          {"one_wheel_lock", "one wheel, lock to lock", kLength, same, gap(turned, kOneWheel)}};
}

// The nearest tyre of each axle, whichever side and surface.
TableOf<size_t> AfterColumns(const Vehicle& vehicle, const OpeningsReport& report) {
  const auto gap = [&](std::optional<TireMotion> motion) {
    return [&report, motion](size_t axle) { return Cell(LeastGap(report, axle, motion)); };
  };
  const char* least = "least gap of the axle's tyres with the plan carried out, the steering held";
  return {{"axle", "tyres", kNumber, "of which axle",
           [&](size_t axle) { return vehicle.axles[axle].name; }},
          {"rest", "at rest", kLength, least, gap(TireMotion::kRest)},
          {"bounce", "bump and droop", kLength, least, gap(TireMotion::kBounce)},
          {"crossed", "crossed", kLength, least, gap(TireMotion::kCrossed)},
          {"one_wheel", "one wheel moved", kLength, least, gap(TireMotion::kOneWheel)},
          {"roll", "rolled", kLength, least, gap(TireMotion::kRoll)},
          {"lock", "lock to lock", kLength,
           "least gap over all steer in any of these; empty without a lock", gap(std::nullopt)}};
}

TableOf<BodyTrim> TrimColumns(const Vehicle& vehicle) {
  TableOf<BodyTrim> columns{
      {"surface", "of what", kNumber, "of which axle's openings, left and right alike",
       [&](auto& trim) {
         return vehicle.axles[trim.axle].name +
                (trim.surface == Surface::kLip ? " lip" : " inner panel");
       }},
      {"by", "take off", kLength,
       "of the lip, at its most, so that the tyre keeps aims.tire_clearance; of a panel: set it in "
       "by that",
       &BodyTrim::by},
      {"ahead", "ahead of centre", kLength,
       "where it is most, from the opening's centre; below 0: behind it",
       [](auto& trim) { return trim.from_center.ahead; }},
      {"up", "above centre", kLength, "the same; below 0: below it",
       [](auto& trim) { return trim.from_center.up; }},
      {"side", "tyre", kNumber, "the one that comes nearest",
       [](auto& trim) { return trim.side == 0 ? "left" : "right"; }},
      {"motion", "when", kNumber, "the motion in which it does",
       [](auto& trim) { return NameOf(trim.nearest.motion); }},
      {"wheel_travel", "wheel travel", kLength, "of its wheel then, from rest; + bump",
       [](auto& trim) { return trim.nearest.wheel_travel; }},
      {"steer", "steer", kAngle, "of the wheel inside the bend then, + left; empty: steering held",
       [](auto& trim) { return trim.nearest.steer; }}};
  AddPart(
      columns, PointColumns("", "body ", "the place on the body, chassis axes"),
      [](auto& trim) -> auto& { return trim.nearest.gap.p_CB; });
  LeaveToFull(columns, {"x", "y", "z", "steer"});
  return columns;
}

// One end of a motion that was swept for an axle.
struct RangeEnd {
  size_t axle;
  TireMotion motion;
  const char* way;  // "-", "+"
  double to;
  const std::optional<SweptEnd>& ended_by;
};

TableOf<RangeEnd> SweptColumns(const Vehicle& vehicle) {
  return {
      {"motion", "swept", kNumber,
       "axle, motion and way; of one wheel, the left one; as `limits` has it, but through the "
       "tyres' own contact",
       [&](auto& end) {
         return fmt::format("{} {} {}", vehicle.axles[end.axle].name, NameOf(end.motion), end.way);
       }},
      {"travel", "to travel", kLength, "of bounce and one wheel; + bump",
       [](auto& end) { return CellIf(!IsAngular(end.motion), end.to); }},
      {"angle", "to angle", kAngle, "of roll and crossed",
       [](auto& end) { return CellIf(IsAngular(end.motion), end.to); }},
      {"ended_by", "ended by", kNumber, "'nothing' where the file has no end", [&](auto& end) {
         if (!end.ended_by) return std::string("nothing");
         return vehicle.axles[end.ended_by->axle].name + " " + DescribeShort(end.ended_by->limit);
       }}};
}

std::vector<RangeEnd> EndsOf(const OpeningsReport& report) {
  std::vector<RangeEnd> ends;
  for (size_t axle = 0; axle < report.ranges.size(); ++axle) {
    for (const SweptRange& range : report.ranges[axle]) {
      if (range.motion == TireMotion::kRest) continue;
      ends.push_back({axle, range.motion, "-", range.low, range.ended_by[0]});
      ends.push_back({axle, range.motion, "+", range.high, range.ended_by[1]});
    }
  }
  return ends;
}

TableOf<CentringPlan> CentringColumns() {
  return {{"plan", "plan", kNumber, "what the chassis takes of the mismatch",
           [](auto& plan) {
             return plan.share == 0.0 ? "body alone"
                                      : fmt::format("chassis takes {:.4g} %", 100.0 * plan.share);
           }},
          {"body_ahead", "body ahead", kLength, "move the body forward on the chassis by this",
           [](auto& plan) { return plan.move.ahead; }},
          {"body_up_front", "pucks up, front", kLength, "raise it at its front opening",
           [](auto& plan) { return plan.move.up_front; }},
          {"body_up_rear", "pucks up, rear", kLength, "raise it at its rear opening",
           [](auto& plan) { return plan.move.up_rear; }},
          {"chassis_longer", "chassis longer", kLength,
           "let into the chassis between the axles; below 0: cut out",
           [](auto& plan) { return plan.move.longer; }},
          {"front_ahead", "then front ahead", kLength,
           "hub against the opening's centre, settled again",
           [](auto& plan) { return plan.after[0].ahead; }},
          {"front_up", "then front up", kLength, "the same",
           [](auto& plan) { return plan.after[0].up; }},
          {"rear_ahead", "then rear ahead", kLength, "the same",
           [](auto& plan) { return plan.after[1].ahead; }},
          {"rear_up", "then rear up", kLength, "the same",
           [](auto& plan) { return plan.after[1].up; }}};
}

TableOf<ShaftChange> ShaftColumns() {
  return {{"shaft", "driveshaft", kNumber, "with the first plan carried out", &ShaftChange::name},
          {"longer", "longer by", kLength, "at rest, against as it is; below 0: shorter",
           &ShaftChange::longer}};
}

struct HangingThen {
  Hanging axle;
  std::string when;
};

TableOf<HangingThen> StandsColumns(const Vehicle& vehicle) {
  TableOf<HangingThen> columns{
      {"axle", "axle", kNumber, "as it is, or with the first plan carried out",
       [&](auto& row) { return vehicle.axles[row.axle.axle].name + row.when; }}};
  const TableOf<Hanging> hanging{
      {"travel", "full droop", kLength, "from rest; below 0", &Hanging::travel},
      {"ended_by", "ended by", kNumber, "what ends droop; 'nothing' where the file has no end",
       [](auto& row) { return row.ended_by.value_or("nothing"); }},
      {"ahead", "hub ahead", kLength, "of its place at rest", &Hanging::ahead},
      {"left", "hub left", kLength, "of its place at rest", &Hanging::left},
      {"up", "hub up", kLength, "of its place at rest; below 0", &Hanging::up},
      {"housing_pitch", "housing pitch", kAngle, "against rest; + nose up", &Hanging::pitch},
      {"opening_ahead", "of opening: ahead", kLength, "hub against the opening's centre then",
       [](auto& row) { return Within(row.in_opening, &Offset::ahead); }},
      {"opening_up", "of opening: up", kLength, "the same",
       [](auto& row) { return Within(row.in_opening, &Offset::up); }}};
  AddPart(columns, hanging, &HangingThen::axle);
  return columns;
}

// What moves with the body must be told, or it is taken to stay.
void SayMasses(const NoteWriter& writer) {
  const Vehicle& vehicle = *writer.vehicle;
  if (IsGeometryOnly(vehicle)) {
    writer.Say("centring is about the measured stance: the file has no masses to settle with");
    return;
  }
  const auto on_body = [](const Mass& mass) { return mass.fixed_to == FixedTo::kBody; };
  if (vehicle.ledger &&
      std::any_of(vehicle.ledger->added.begin(), vehicle.ledger->added.end(), on_body)) {
    return;
  }
  writer.Say(vehicle.ledger
                 ? "assumed: no item of ledger.added is fixed_to: body, so that a move of the body "
                   "leaves its weight where it is; say which item is the body"
                 : "assumed: the sprung mass is given as one lump, so that a move of the body "
                   "leaves its weight where it is");
}

void SaySteering(const NoteWriter& writer, const OpeningsReport& report, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  if (!it.kingpin && !it.steering) return;
  if (!it.kingpin || !it.kingpin->p_CK) {
    writer.Say("not steered here: kingpin: {at} is not given");
  } else if (!report.lock[axle]) {
    writer.Say("not steered here: give --lock, or steering: {lock} in the file");
  } else {
    writer.Say("lock to lock is {} of the wheel inside the bend, either way{}",
               writer.Angle(*report.lock[axle]),
               it.steering && it.steering->tie_rod
                   ? ""
                   : "; no tie_rod is given, so both wheels steer alike");
  }
}

void SayMissing(const NoteWriter& writer, const OpeningsReport& report, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  if (!it.opening) {
    writer.Say("no opening is given, so nothing is said of its wheels");
    return;
  }
  if (!it.opening->radius) {
    writer.Say("the opening has no radius, so its lip is not looked at");
  } else if (!it.opening->lip_y) {
    writer.Say("assumed: no lip_y is given, so the lip is taken to reach across the whole tyre");
  }
  SayLipLegs(writer, it);
  if (!it.opening->inner_panel_y) {
    writer.Say("no inner_panel_y is given, so it is not looked at");
  }
  if (it.opening->inner_panel_y) {
    writer.Say(
        "assumed: the inner panel is a plane without end; where its point lies below the real "
        "one's edge, the tyre passes under it");
  }
  if (report.tires[axle].radius_assumed) {
    writer.Say(
        "assumed: no tire radius is given, so it is the hub's measured height, {}; the tyre's top "
        "stands higher",
        writer.Length(report.tires[axle].radius));
  }
  if (report.tires[axle].width_assumed) {
    writer.Say("assumed: no tire width is given, so the tyre is a disc without width");
  }
  SaySteering(writer, report, axle);
}

// Where a sweep went as far as is usual because nothing in the file ends it.
void SayUnended(const NoteWriter& writer, const OpeningsReport& report, size_t axle) {
  std::vector<std::string> where;
  for (const RangeEnd& end : EndsOf(report)) {
    if (end.axle != axle || end.ended_by) continue;
    where.push_back(
        fmt::format("{} to {}", NameOf(end.motion),
                    IsAngular(end.motion) ? writer.Angle(end.to) : writer.Length(end.to)));
  }
  if (where.empty()) return;
  writer.Say("nothing in the file ends the travel, so the tyres are swept as far as is usual: {}",
             fmt::join(where, ", "));
}

}  // namespace

std::vector<NamedTable> OpeningsTables(const Vehicle& vehicle, const OpeningsAnswer& answer,
                                       UnitSystem units) {
  const auto with_least_of = [](std::vector<TireClearance> all) {
    std::erase_if(all, [](auto& clearance) { return LeastOf(clearance) == nullptr; });
    return all;
  };
  const std::vector<TireClearance> with_least = with_least_of(answer.report.clearances);
  std::vector<CentringPlan> plans = answer.plans;
  std::erase_if(plans, [](auto& plan) { return !plan.found; });
  std::vector<ShaftChange> shafts;
  if (!answer.plans.empty() && answer.plans.front().found) shafts = answer.plans.front().shafts;
  std::vector<HangingThen> hanging;
  for (const Hanging& each : answer.hanging) hanging.push_back({each, ", as it is"});
  for (const Hanging& each : answer.hanging_moved) hanging.push_back({each, ", to land centred"});

  std::vector<NamedTable> tables;
  const auto add = [&](const char* name, const auto& columns, const auto& rows) {
    if (!rows.empty()) tables.push_back({name, ToTable(columns, rows, units)});
  };
  const OpeningsReport& report = answer.report;
  add("in their openings at rest", RestColumns(vehicle), report.wheels);
  if (answer.after) {
    add("after the plan", AfterColumns(vehicle, answer.after->report), AxlesOf(vehicle));
  }
  add("trim", TrimColumns(vehicle), answer.trims);
  add("least clearance", LeastColumns(vehicle), with_least);
  add("clearance by motion", ByMotionColumns(vehicle), report.clearances);
  add("swept", SweptColumns(vehicle), EndsOf(report));
  add("centring", CentringColumns(), plans);
  add("shafts then", ShaftColumns(), shafts);
  if (answer.after) {
    const std::vector<TireClearance>& then = answer.after->report.clearances;
    add("least clearance then", LeastColumns(vehicle), with_least_of(then));
    add("clearance by motion then", ByMotionColumns(vehicle), then);
  }
  add("on stands", StandsColumns(vehicle), hanging);
  return tables;
}

std::vector<std::string> OpeningsNotes(const Vehicle& vehicle, const OpeningsAnswer& answer,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  if (!answer.plans.empty()) SayMasses(writer);
  for (const size_t axle : AxlesOf(vehicle)) {
    const NoteWriter of_axle = writer.About(vehicle.axles[axle].name + ": ");
    SayMissing(of_axle, answer.report, axle);
    SayUnended(of_axle, answer.report, axle);
  }
  return notes;
}

}  // namespace linkwright
