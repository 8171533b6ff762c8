// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/steering_tables.h"
#include "io/write/steering_words.h"
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
  answer.about = LoadLine(at.load);
  answer.said = SteeringSentences(vehicle, report, asked.units);
  answer.tables = SteeringTables(vehicle, report, asked.units);
  answer.shown = {"lines", "track bar moved", "sideways"};
  answer.most_findings = 6;
  answer.findings = SteeringFindings(vehicle, report);
  if (report.axles.empty()) {
    answer.notes.emplace_back(
        "no axle has steering: {drag_link: {frame: ..., axle: ...}}: only sideways is answered");
  }
  AddOneAxle(vehicle, report.axles.empty() ? "" : "the wheelbase, and with it what Ackermann asks",
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
          .help =
              "how much bump steers and which way, where the track bar should go, toe, Ackermann, "
              "caster, and what centres an axle",
          .asks = "Does it steer by itself over bumps and in roll, and how is the axle centred?",
          .example = "harbour_van.yaml",
          .options = {FileOption(), LoadOption(), WriteOption()},
          .answer = AnswerSteering};
}

}  // namespace linkwright
