// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/steering_tables.h"
#include "solver/study/findings/steering_findings.h"

namespace linkwright {
namespace {

Answer AnswerSteering(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const FileStanding at = StandFile(asked);
  const SteeringReport report =
      ReportSteering({at.rig, StanceOf(at)}, at.standing, at.load,
                     RoundAmount(20.0, 1.0, Dimension::kLength, asked.units));
  Answer answer = AnswerAt(at, asked);
  answer.head = LoadLine(at.load);
  answer.tables = SteeringTables(vehicle, report, asked.units);
  answer.findings = SteeringFindings(vehicle, report);
  if (report.axles.empty()) {
    answer.notes.emplace_back(
        "no axle has steering: {drag_link: {frame: ..., axle: ...}}: only sideways is answered");
  }
  AddOneAxle(vehicle, report.axles.empty() ? "" : "the wheelbase, and with it what Ackermann wants",
             answer.notes);
  AddNotes(SteeringNotes(vehicle, report, asked.units), answer);
  answer.cautions +=
      "Steering parts that bind, run out of thread or touch kill: turn lock to lock at both ends "
      "of travel.\n";
  Leave(PlanOfSteering(PlanForFile(asked, at.load), report), asked, answer);
  return answer;
}

}  // namespace

Command SteeringCommand() {
  return {.name = "steering",
          .help = "drag link and track bar: steer over travel and roll, toe, caster, centring",
          .options = {FileOption(), LoadOption(), WriteOption()},
          .answer = AnswerSteering};
}

}  // namespace linkwright
