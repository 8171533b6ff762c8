// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/driveline_tables.h"
#include "solver/model/error.h"
#include "solver/study/findings/driveline_findings.h"

namespace linkwright {
namespace {

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
  Answer answer = AnswerAt(at, asked);
  answer.head = LoadLine(at.load);
  answer.tables = DrivelineTables(vehicle, reports, asked.units);
  answer.findings = DrivelineFindings(vehicle, reports);
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
  return {.name = "driveline",
          .help = "shafts: angles, plunge, cancelling and what to turn, speed, wind-up",
          .options = {FileOption(),
                      LoadOption(),
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
