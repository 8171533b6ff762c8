// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "cli/answer.h"
#include "cli/assumed.h"
#include "cli/settled.h"
#include "io/write/amount.h"
#include "io/write/check_tables.h"
#include "io/write/roll_table_rows.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

struct RollOptions {
  CommonOptions common;
  std::string file;
  std::string load;
  std::string lateral = "0.5 g";
  std::string torque;
};

RollStudy StudyRoll(const VehicleFile& file, const Settled& settled, const RollOptions& options) {
  const Rig& rig = settled.rig;
  RollStudy study;
  study.lateral = ParseAmount("--lateral", options.lateral, Dimension::kLateral, file.units);
  if (study.lateral == 0.0) {
    throw UsageError("--lateral: an acceleration other than 0 is wanted");
  }
  const Load& load = FindLoad(file.vehicle, options.load);
  study.rest = settled.stances.front();
  study.report = settled.loads.front().report;
  study.geometry = RollGeometryOf(rig, study.rest);
  for (size_t i = 0; i < 2; ++i) {
    study.stiffness[i] = SplitRollStiffness(rig, study.rest, i);
    study.spread[i] = SpreadOfCoils(rig, study.rest, i);
  }
  study.corner = TakeCorner(rig, load, study.rest, study.lateral);
  for (size_t side = 0; side < 2; ++side) {
    const bool left_turn = side == 0;
    study.turns[side] = TightenTurn(rig, load, study.rest, left_turn);
    study.tipping[side] = StiffTippingPoint(rig, study.rest, left_turn);
  }
  if (options.torque.empty()) return study;
  study.torque = ParseAmount("--torque", options.torque, Dimension::kTorque, file.units);
  if (*study.torque == 0.0) throw UsageError("--torque: a torque other than 0 is wanted");
  for (size_t axle : DrivenAxles(file.vehicle)) {
    study.torques.push_back(LiftByTorque(rig, load, study.rest, axle, *study.torque));
  }
  if (study.torques.empty()) {
    throw UsageError("--torque: the file drives no axle; give driveshafts, or drive_share");
  }
  return study;
}

std::string AtShare(double share) {
  return AtOnce(share) ? std::string("with hardly any turn") : "at " + ShowNumber(share, 2) + " g";
}

// What happens as it stands, for which a threshold would be no number.
void AddAsItStands(const RollStudy& study, size_t side, const Vehicle& vehicle,
                   std::vector<std::string>& notes) {
  const PushEnds& ends = study.turns[side];
  const TippingPoint& block = study.tipping[side];
  const std::string start = fmt::format("look at this: turning {}, ", side == 0 ? "left" : "right");
  if (ends.member && AtOnce(ends.member->share)) {
    notes.push_back(start + ends.member->what + " as it stands, with hardly any turn");
  }
  if (ends.lift && AtOnce(ends.lift->share)) {
    notes.push_back(fmt::format("{}the {} wheel carries next to nothing as it stands", start,
                                WheelName(vehicle, ends.lift->wheel)));
  }
  if (block.lateral) return;
  notes.push_back(
      start + (block.height > 0.0
                   ? "it would go over as a block without any turn: its centre of mass does not "
                     "stand inside its outer wheels"
                   : "nothing tips it as a block, since its centre of mass stands on the floor "
                     "or below, where no truck's is"));
}

void AddCornerNotes(const VehicleFile& file, const RollStudy& study,
                    std::vector<std::string>& notes) {
  const Corner& corner = study.corner;
  if (corner.stance.status != StanceStatus::kRests) {
    notes.push_back("look at this: at that acceleration it does not stand: " +
                    corner.stance.message);
  } else if (corner.at_end) {
    notes.push_back(fmt::format(
        "look at this: at that acceleration {}; it is taken to hold there, as a strap would",
        *corner.at_end));
  }
  const double grip = file.vehicle.aims.tire_grip / kStandardGravity;
  for (size_t side = 0; side < 2; ++side) {
    const PushEnds& ends = study.turns[side];
    const char* turning = side == 0 ? "left" : "right";
    if (ends.over && !ends.lift) {
      notes.push_back(fmt::format(
          "look at this: turning {}, the body leans over at once {}, before a wheel "
          "lifts: "
          "springs and bars no longer hold its mass; whether stops catch it is not followed",
          turning, AtShare(*ends.over)));
    }
    AddAsItStands(study, side, file.vehicle, notes);
    if (ends.over && *ends.over <= grip) {
      notes.push_back(
          fmt::format("look at this: turning {}, it goes over {}; tyres hold {} g "
                      "(aims.tire_grip), so it can get there before it slides",
                      turning, AtShare(*ends.over), ShowNumber(grip, 2)));
    } else if (ends.lift && ends.lift->share <= grip) {
      notes.push_back(
          fmt::format("look at this: turning {}, a wheel lifts {}; tyres hold {} g "
                      "(aims.tire_grip), so it can get there before it slides",
                      turning, AtShare(ends.lift->share), ShowNumber(grip, 2)));
    }
  }
}

std::vector<std::string> RollNotes(const VehicleFile& file, const RollStudy& study,
                                   UnitSystem units) {
  std::vector<std::string> notes;
  if (study.geometry.arm < 0.0) {
    notes.push_back("look at this: " + LeansInward(study.geometry.arm, units));
  }
  AddCornerNotes(file, study, notes);
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
  RollStudy study = StudyRoll(file, settled, options);
  const std::vector<NamedTable> tables = RollTables(file.vehicle, study, units);
  std::vector<std::string> notes = RollNotes(file, study, units);
  AddAssumedBushings(file, units, notes);
  AddCount(file, notes);
  const int status = HandOut({.command = "roll",
                              .head = Heading(file, &FindLoad(file.vehicle, options.load)),
                              .tables = tables,
                              .notes = notes,
                              .cautions = Cautions() + LateralCaution()},
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
