// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/write/note_writer.h"
#include "io/write/openings_tables.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

std::string Way(const NoteWriter& writer, double value, const char* plus, const char* minus) {
  return fmt::format("{} {}", writer.Length(std::abs(value)), value >= 0.0 ? plus : minus);
}

void SayPlan(const NoteWriter& writer, const CentringPlan& plan) {
  if (!plan.found || plan.share == 0.0) return;
  writer.Say(fmt::format(
      "plan: {} the chassis between the axles, set the body {} on it, {} at its front opening and "
      "{} at its rear one; settled again, the hubs stand {} and {}",
      plan.move.longer >= 0.0 ? "let " + writer.Length(plan.move.longer) + " into"
                              : "cut " + writer.Length(-plan.move.longer) + " out of",
      Way(writer, plan.move.ahead, "forward", "back"),
      Way(writer, plan.move.up_front, "up", "down"), Way(writer, plan.move.up_rear, "up", "down"),
      Way(writer, plan.after[0].ahead, "ahead of the centre at the front",
          "behind the centre at the front"),
      Way(writer, plan.after[1].ahead, "ahead of it at the rear", "behind it at the rear")));
}

// What the shafts must follow when the chassis is cut or stretched.
void SayShafts(const NoteWriter& writer, const CentringPlan& plan) {
  if (!plan.found || plan.move.longer == 0.0) return;
  for (const ShaftChange& shaft : plan.shafts) {
    writer.Say(
        fmt::format("with that plan the {} driveshaft must be {} {} at rest; brake lines, "
                    "cables, wiring and exhaust follow the cut too",
                    shaft.name, writer.Length(std::abs(shaft.longer)),
                    shaft.longer >= 0.0 ? "longer" : "shorter"));
  }
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
    writer.Say(it.name + ": not steered here: kingpin: {at} is not given");
  } else if (!report.lock[axle]) {
    writer.Say(it.name + ": not steered here: give --lock, or steering: {lock} in the file");
  } else {
    writer.Say(fmt::format("{}: lock to lock is {} of the wheel inside the bend, either way{}",
                           it.name, writer.Angle(*report.lock[axle]),
                           it.steering && it.steering->tie_rod
                               ? ""
                               : "; no tie_rod is given, so both wheels steer alike"));
  }
}

void SayMissing(const NoteWriter& writer, const OpeningsReport& report, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  if (!it.opening) {
    writer.Say(it.name + ": no opening is given, so nothing is said of its wheels");
    return;
  }
  if (!it.opening->radius) {
    writer.Say(it.name + ": the opening has no radius, so no gap to its lip is to be had");
  } else if (!it.opening->lip_y) {
    writer.Say(it.name +
               ": assumed: no lip_y is given, so the lip is taken to reach across the "
               "whole tyre");
  }
  SayLipLegs(writer, it);
  if (!it.opening->inner_panel_y) {
    writer.Say(it.name + ": no inner_panel_y is given, so no gap to the inner panel is to be had");
  }
  if (it.opening->inner_panel_y) {
    writer.Say(it.name +
               ": assumed: the inner panel is a plane without end; where its point lies "
               "below the real one's edge, the tyre passes under it");
  }
  if (report.tires[axle].radius_assumed) {
    writer.Say(
        fmt::format("{}: assumed: no tire radius is given, so it is the hub's measured "
                    "height, {}; the tyre's top stands higher",
                    it.name, writer.Length(report.tires[axle].radius)));
  }
  if (report.tires[axle].width_assumed) {
    writer.Say(it.name + ": assumed: no tire width is given, so the tyre is a disc without width");
  }
  SaySteering(writer, report, axle);
}

// Where a sweep went as far as is usual because nothing in the file ends it.
void SayUnended(const NoteWriter& writer, const OpeningsReport& report, size_t axle) {
  std::string where;
  for (const SweptRange& range : report.ranges[axle]) {
    if (range.motion == TireMotion::kRest) continue;
    for (size_t i = 0; i < 2; ++i) {
      if (range.ended_by[i]) continue;
      const double to = i == 0 ? range.low : range.high;
      where += fmt::format("{}{} to {}", where.empty() ? "" : ", ", NameOf(range.motion),
                           IsAngular(range.motion) ? writer.Angle(to) : writer.Length(to));
    }
  }
  if (where.empty()) return;
  writer.Say(
      writer.vehicle->axles[axle].name +
      ": nothing in the file ends the travel, so the tyres are swept as far as is usual: " + where);
}

}  // namespace

std::vector<std::string> OpeningsNotes(const Vehicle& vehicle, const OpeningsAnswer& answer,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const CentringPlan& plan : answer.plans) SayPlan(writer, plan);
  if (!answer.plans.empty()) SayShafts(writer, answer.plans.front());
  if (answer.plans.empty()) {
    writer.Say("no plan to centre the wheels: both axles must have an opening");
  } else {
    SayMasses(writer);
  }
  for (size_t axle = 0; axle < 2; ++axle) {
    SayMissing(writer, answer.report, axle);
    SayUnended(writer, answer.report, axle);
  }
  return notes;
}

}  // namespace linkwright
