// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "cli/answer.h"
#include "cli/assumed.h"
#include "cli/settled.h"
#include "io/write/roll_tables.h"
#include "solver/model/masses.h"
#include "solver/study/findings/turning_findings.h"

namespace linkwright {
namespace {

struct RollOptions {
  CommonOptions common;
  std::string file;
  std::string load;
  std::string lateral = "0.5 g";
  std::string torque;
};

RollStudy Study(const VehicleFile& file, const Settled& settled, const RollOptions& options) {
  const double lateral = ParseAmount("--lateral", options.lateral, Dimension::kLateral, file.units);
  if (lateral == 0.0) throw UsageError("--lateral: an acceleration other than 0 is wanted");
  const std::optional<double> torque =
      ParseOption("--torque", options.torque, Dimension::kTorque, file.units);
  if (torque == 0.0) throw UsageError("--torque: a torque other than 0 is wanted");
  if (torque && DrivenAxles(file.vehicle).empty()) {
    throw UsageError("--torque: the file drives no axle; give driveshafts, or drive_share");
  }
  return StudyRoll(settled.rig, FindLoad(file.vehicle, options.load), settled.stances.front(),
                   lateral, torque);
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

std::string LateralCaution() {
  return "This is no promise that it will not roll over: a real road lifts a wheel sooner.\n";
}

int RunRoll(const RollOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const Settled settled = SettleLoads(file, FindLoad(file.vehicle, options.load).name);
  for (const Refusal& refusal : settled.refusals) streams.err << FormatRefusal(file, refusal);
  if (settled.stances.empty()) return kAnswerIsNo;
  const UnitSystem units = OutputUnits(options.common, file);
  const RollStudy study = Study(file, settled, options);
  const std::vector<NamedTable> tables = RollTables(file.vehicle, study, units);
  std::vector<std::string> notes = RollNotes(file, study);
  AddAssumedBushings(file, units, notes);
  const int status = HandOut({.command = "roll",
                              .head = Heading(file, &FindLoad(file.vehicle, options.load)),
                              .tables = tables,
                              .notes = notes,
                              .cautions = Cautions() + LateralCaution(),
                              .findings = TurningFindings(file.vehicle, study)},
                             ToTextTurning(tables, {"roll stiffness", "shaft torque"}), file,
                             options.common, streams);
  if (study.corner.stance.status == StanceStatus::kRests) return status;
  streams.err << fmt::format("linkwright: at {} turning {} it does not stand: {}\n",
                             FormatValue(std::abs(study.lateral), Dimension::kLateral, units),
                             study.lateral > 0.0 ? "left" : "right", study.corner.stance.message);
  return kAnswerIsNo;
}

}  // namespace

Command RollCommand() {
  auto options = std::make_shared<RollOptions>();
  Command command{.name = "roll",
                  .help = "how it leans: roll stiffness, load transfer, wheel lift, shaft torque"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load, "under this load; by default the first");
  AddOption(command, "--lateral", options->lateral,
            "sideways acceleration in g, + turning left; 0.5 unless given");
  AddOption(command, "--torque", options->torque,
            "torque in a driveshaft, + as an engine that turns clockwise seen from its front");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunRoll(*options, streams); };
  return command;
}

}  // namespace linkwright
