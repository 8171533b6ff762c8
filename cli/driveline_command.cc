// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/driveline_tables.h"
#include "io/write/driveline_words.h"
#include "solver/model/error.h"
#include "solver/study/findings/driveline_findings.h"

namespace linkwright {
namespace {

// Every place of the shafts under another load than the one told about.
ShaftsUnder ShaftsOf(const FileStanding& at) {
  DrivelineRequest request{.load = at.load, .speed = {}, .torque = {}};
  request.cures = false;
  return {.load = at.load->name,
          .reports = ReportDriveline({at.rig, StanceOf(at)}, at.standing, request)};
}

Answer AnswerDriveline(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  if (vehicle.driveshafts.empty()) {
    throw ModelError({}, "the file has no driveshafts: {NAME: {output: ..., ...}}");
  }
  const FileStanding at = StandFile(asked);
  const std::vector<ShaftReport> reports =
      ReportDriveline({at.rig, StanceOf(at)}, at.standing,
                      {.load = at.load,
                       .speed = AmountOf(asked, "--speed"),
                       .torque = AmountOf(asked, "--torque"),
                       .step = RoundAmount(20.0, 1.0, Dimension::kLength, asked.units)});
  const EachStanding each = StandUnderEach(asked, at);
  std::vector<ShaftsUnder> under{{at.load == nullptr ? "" : at.load->name, reports}};
  for (size_t i = 1; i < each.standings.size(); ++i) under.push_back(ShaftsOf(each.standings[i]));
  const std::vector<ShaftOrder> orders = OrderShafts(under);
  Answer answer = AnswerAt(at, asked);
  answer.about = LoadLine(at.load);
  answer.said = DrivelineSentences(vehicle,
                                   {.load = under.front().load,
                                    .one_load = each.one_load,
                                    .loads = under.size(),
                                    .no_rest = each.no_rest},
                                   reports, orders, asked.units);
  answer.tables = DrivelineTables(vehicle, reports, asked.units, orders);
  answer.shown = {"joints"};
  if (reports.size() == 1) answer.shown = {"joints", "turn", "order"};
  answer.findings = DrivelineFindings(vehicle, reports);
  answer.most_findings = 3;
  AddOneAxle(vehicle, "", answer.notes);
  AddNotes(DrivelineNotes(vehicle, reports, asked.units), answer);
  answer.cautions +=
      "A shaft that bottoms breaks gearboxes, one that parts kills: prove both ends of travel by "
      "hand.\n";
  Leave(PlanOfDriveline(PlanForFile(asked, at.load), reports), asked, answer);
  return answer;
}

}  // namespace

Command DrivelineCommand() {
  return {
      .name = "driveline",
      .help =
          "does each driveshaft fit and run: its joints' angles, what to turn, which length and "
          "slip to order",
      .asks = "Do the shafts live: their angles, plunge, and what to turn so that they cancel?",
      .example = "harbour_van.yaml",
      .options = {FileOption(),
                  LoadOption("only this load; by default angles are told under the file's "
                             "default load and shafts are ordered for every load"),
                  WriteOption(),
                  {.name = "--speed",
                   .help = "of the output, in rpm; by default each shaft's top_speed_rpm",
                   .amounts = {FindKey("driveshaft", "top_speed_rpm")}},
                  {.name = "--torque",
                   .help = "at the driven axle's wheels together (shaft torque times axle "
                           "ratio), driving forward: shows the wind-up",
                   .amounts = {AmountKey(Dimension::kTorque)}}},
      .answer = AnswerDriveline};
}

}  // namespace linkwright
