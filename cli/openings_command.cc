// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/shown.h"
#include "io/write/openings_tables.h"
#include "io/write/openings_words.h"
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
  found.under = at.load == nullptr ? "as measured" : "under '" + Shown(at.load->name) + "'";
  found.touches = FirstTouches(walks, found.report);
  found.trims = TrimsWanted(vehicle, found.report);
  if (!vehicle.axles[0].opening || !vehicle.axles[1].opening) return found;
  found.plans.push_back(Centre(vehicle, at.load, split));
  if (split > 0.0) found.plans.push_back(Centre(vehicle, at.load, 0.0));
  if (!found.plans[0].found) return found;
  const BodyMove& move = found.plans[0].move;
  found.hanging_moved = HangAxles(vehicle, at.load, move);
  if (!IsWorthDoing(move)) return found;
  found.after = CarryOut(vehicle, at.load, move, lock);
  if (found.after) found.trims = TrimsWanted(found.after->vehicle, found.after->report);
  return found;
}

Answer AnswerOpenings(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const std::optional<double> lock = AmountOf(asked, "--lock");
  const double split = AmountOf(asked, "--centre-split").value_or(1.0);
  const FileStanding at = StandFile(asked);
  const OpeningsAnswer found = Study(at, lock, split);
  Answer answer = AnswerAt(at, asked);
  answer.said = OpeningsSentences(vehicle, found, asked.units);
  answer.tables = OpeningsTables(vehicle, found, asked.units);
  answer.shown = {found.after ? "after the plan" : "in their openings at rest", "trim"};
  answer.most_findings = 4;
  answer.findings = OpeningsFindings(vehicle, found.report);
  for (const Finding& finding : PlanFindings(found.plans)) answer.findings.push_back(finding);
  AddOneAxle(vehicle, "plans to centre the wheels; roll and crossed go as far as this axle does",
             answer.notes);
  AddNotes(OpeningsNotes(vehicle, found, asked.units), answer);
  answer.cautions =
      "A cut frame is an engineered repair: the frame maker's rules on cutting, welding and "
      "heating come first. Nobody works under a body or an axle that one machine holds up.\n" +
      Cautions();
  Leave(PlanOfOpenings(PlanForFile(asked, at.load), found), asked, answer);
  return answer;
}

}  // namespace

Command OpeningsCommand() {
  return {.name = "openings",
          .help =
              "where the wheels stand in their openings, what a tyre touches first, what to cut or "
              "move to centre them, and whether the tyres are clear then",
          .asks = "How near do the tyres come to their openings, and how are they centred?",
          .example = "harbour_van.yaml",
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
