// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/openings_tables.h"
#include "solver/study/findings/openings_findings.h"

namespace linkwright {
namespace {

// Openings swept, axles hung, and the plans to centre its wheels where both axles have openings.
//   lock    [rad]; absent: the file's
//   split   share of the wheelbase mismatch that the chassis takes
OpeningsAnswer Study(const FileStanding& at, const std::optional<double>& lock, double split) {
  const Vehicle& vehicle = *at.rig.vehicle;
  const Walks walks(at.rig, StanceOf(at), Watch::kAll);
  OpeningsAnswer found{
      .report = SweepOpenings(walks, lock), .plans = {}, .hanging = {}, .hanging_moved = {}};
  found.hanging = HangAxles(walks);
  if (!vehicle.axles[0].opening || !vehicle.axles[1].opening) return found;
  found.plans.push_back(Centre(vehicle, at.load, split));
  if (split > 0.0) found.plans.push_back(Centre(vehicle, at.load, 0.0));
  if (found.plans[0].found) {
    found.hanging_moved = HangAxles(vehicle, at.load, found.plans[0].move);
  }
  return found;
}

Answer AnswerOpenings(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const std::optional<double> lock = AmountOf(asked, "--lock");
  const double split = AmountOf(asked, "--centre-split").value_or(1.0);
  const FileStanding at = StandFile(asked);
  const OpeningsAnswer found = Study(at, lock, split);
  Answer answer = AnswerAt(at, asked);
  answer.tables = OpeningsTables(vehicle, found, asked.units);
  answer.findings = OpeningsFindings(vehicle, found.report);
  for (const Finding& finding : PlanFindings(found.plans)) answer.findings.push_back(finding);
  AddOneAxle(vehicle, "plans to centre the wheels; roll and crossed go as far as this axle does",
             answer.notes);
  AddNotes(OpeningsNotes(vehicle, found, asked.units), answer);
  answer.cautions =
      "A cut frame is an engineered repair: the frame maker's rules on cutting, welding and "
      "heating "
      "come first.\nNobody works under a body or an axle that one machine holds up.\n" +
      Cautions();
  Leave(PlanOfOpenings(PlanForFile(asked, at.load), found), asked, answer);
  return answer;
}

}  // namespace

Command OpeningsCommand() {
  return {.name = "openings",
          .help = "how near the tyres come to their openings, and how to centre them",
          .options = {FileOption(),
                      LoadOption(),
                      WriteOption(),
                      {.name = "--lock",
                       .help = "steer of the wheel inside the bend at full lock; by default the "
                               "file's",
                       .amounts = {FindKey("steering", "lock")}},
                      {.name = "--centre-split",
                       .help = "share in percent of the wheelbase mismatch that the chassis is cut "
                               "or stretched for, the rest left evenly; by default 100",
                       .amounts = {AmountKey(Dimension::kPercent, kShareRange)}}},
          .answer = AnswerOpenings};
}

}  // namespace linkwright
