// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/roll_tables.h"
#include "solver/model/masses.h"
#include "solver/study/findings/turning_findings.h"

namespace linkwright {
namespace {

RollStudy Study(const Question& asked, const Load& load, const Settled& settled) {
  const double lateral =
      AmountOf(asked, "--lateral").value_or(ToSi(0.5, Dimension::kLateral, asked.units));
  if (lateral == 0.0) throw UsageError("--lateral: an acceleration other than 0 is wanted");
  const std::optional<double> torque = AmountOf(asked, "--torque");
  if (torque == 0.0) throw UsageError("--torque: a torque other than 0 is wanted");
  if (torque && DrivenAxles(*settled.rig.vehicle).empty()) {
    throw UsageError("--torque: the file drives no axle; give driveshafts, or drive_share");
  }
  return StudyRoll(settled.rig, load, settled.stances.front(), lateral, torque);
}

std::vector<std::string> RollNotes(const VehicleFile& file, const RollStudy& study) {
  std::vector<std::string> notes;
  notes.emplace_back(
      "steady cornering on level ground: every mass is pulled outward, the tyres hold the floor "
      "sideways and give only up and down, a wheel's load stays under its centre; no bump, no "
      "braking, no sudden swerve, each of which lifts a wheel sooner");
  if (study.torque) {
    notes.emplace_back(
        "shaft torque alone, one shaft at a time: the housing gets it, the body its reverse "
        "through the gearbox mounts, and both axles hold the body by their roll stiffness; the "
        "tyres' pull, wind-up and links off the centre are not in it");
  }
  AddAssumedTires(file, notes);
  return notes;
}

Answer AnswerRoll(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Load& load = FindLoad(file.vehicle, WordOf(asked, "--load"));
  const Settled settled = SettleLoads(file, {&load});
  if (settled.stances.empty()) throw NoRest(settled.refusals);
  const RollStudy study = Study(asked, load, settled);
  Answer answer{.about = LoadLine(&load),
                .said = RollAnswer(file.vehicle, study, asked.units),
                .tables = RollTables(file.vehicle, study, asked.units),
                .shown = {"wheels", "wheel lift"},
                .findings = TurningFindings(file.vehicle, study),
                .notes = RollNotes(file, study)};
  AddAssumedBushings(file, asked.units, answer.notes);
  answer.cautions +=
      "This is no promise that it will not roll over: a real road lifts a wheel sooner.\n";
  if (study.corner.stance.status != StanceStatus::kRests) {
    answer.complaint =
        fmt::format("linkwright: at {} turning {} it does not stand: {}\n",
                    FormatValue(std::abs(study.lateral), Dimension::kLateral, asked.units),
                    study.lateral > 0.0 ? "left" : "right", study.corner.stance.message);
    answer.exit = kAnswerIsNo;
  }
  return answer;
}

}  // namespace

Command RollCommand() {
  constexpr double kMostLateral = kMostLateralInG * kStandardGravity;  // [m/s2]
  return {.name = "roll",
          .help = "how it leans: roll stiffness, load transfer, wheel lift, shaft torque",
          .asks = "How far does it lean, and when does a wheel lift?",
          .example = "harbour_van.yaml",
          .options = {FileOption(),
                      LoadOption("under this load; by default the first"),
                      {.name = "--lateral",
                       .help = "sideways acceleration in g, + turning left; 0.5 unless given",
                       .amounts = {AmountKey(Dimension::kLateral,
                                             {.low = -kMostLateral, .high = kMostLateral})}},
                      {.name = "--torque",
                       .help = "torque in a driveshaft, + as an engine that turns clockwise seen "
                               "from its front",
                       .amounts = {AmountKey(Dimension::kTorque)}}},
          .answer = AnswerRoll};
}

}  // namespace linkwright
