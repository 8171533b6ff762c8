// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/openings_tables.h"
#include "solver/study/findings/openings_findings.h"

namespace linkwright {
namespace {

struct OpeningsOptions {
  CommonOptions common;
  std::string file, load;
  std::string lock, split;
};

struct OpeningsWish {
  std::optional<double> lock;  // [rad]
  double split = 1.0;
};

OpeningsWish ParseWish(const OpeningsOptions& options, UnitSystem units) {
  return {
      .lock = ParseOption("--lock", options.lock, Dimension::kAngle, units),
      .split =
          ParseOption("--centre-split", options.split, Dimension::kPercent, units).value_or(1.0)};
}

OpeningsAnswer Answer(const VehicleFile& file, const FileStanding& standing,
                      const OpeningsWish& wish) {
  const Vehicle& vehicle = file.vehicle;
  try {
    const Walks walks(standing.rig, StanceOf(standing), Watch::kAll);
    OpeningsAnswer answer{
        .report = SweepOpenings(walks, wish.lock), .plans = {}, .hanging = {}, .hanging_moved = {}};
    const std::array<Hanging, 2> hanging = HangAxles(walks);
    answer.hanging.assign(hanging.begin(), hanging.end());
    if (!vehicle.axles[0].opening || !vehicle.axles[1].opening) return answer;
    answer.plans.push_back(Centre(vehicle, standing.load, wish.split));
    if (wish.split > 0.0) answer.plans.push_back(Centre(vehicle, standing.load, 0.0));
    if (answer.plans[0].found) {
      answer.hanging_moved = HangAxles(vehicle, standing.load, answer.plans[0].move);
    }
    return answer;
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunOpenings(const OpeningsOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const OpeningsWish wish = ParseWish(options, file.units);
  const auto standing = StandFile(file, options.load, streams);
  if (!standing) return kAnswerIsNo;
  const UnitSystem units = OutputUnits(options.common, file);
  const OpeningsAnswer answer = Answer(file, *standing, wish);
  const std::vector<NamedTable> tables = OpeningsTables(file.vehicle, answer, units);
  std::vector<NamedTable> in_files{StandingTable(*standing, units)};
  in_files.insert(in_files.end(), tables.begin(), tables.end());
  std::vector<std::string> notes{StandingNote(*standing)};
  const std::vector<std::string> told = OpeningsNotes(file.vehicle, answer, units);
  notes.insert(notes.end(), told.begin(), told.end());
  std::vector<Finding> findings = OpeningsFindings(file.vehicle, answer.report);
  const std::vector<Finding> plans = PlanFindings(answer.plans);
  findings.insert(findings.end(), plans.begin(), plans.end());
  return HandOut({.command = "openings",
                  .head = Heading(file),
                  .tables = in_files,
                  .notes = notes,
                  .cautions = "A cut frame is an engineered repair: the frame maker's rules on "
                              "cutting, welding and heating come first.\nNobody works under a body "
                              "or an axle that one machine holds up.\n" +
                              Cautions(),
                  .findings = findings},
                 ToPageText(tables), file, options.common, streams);
}

}  // namespace

Command OpeningsCommand() {
  auto options = std::make_shared<OpeningsOptions>();
  Command command{.name = "openings",
                  .help = "how near the tyres come to their openings, and how to centre them"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load,
            "stand it under this load first; by default the first");
  AddOption(command, "--lock", options->lock,
            "steer of the wheel inside the bend at full lock; by default the file's");
  AddOption(command, "--centre-split", options->split,
            "share in percent of the wheelbase mismatch that the chassis is cut or stretched "
            "for, the rest left evenly; by default 100");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunOpenings(*options, streams); };
  return command;
}

}  // namespace linkwright
