// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/steering_tables.h"
#include "solver/study/findings/steering_findings.h"

namespace linkwright {
namespace {

struct SteeringOptions {
  CommonOptions common;
  std::string file, load;
};

SteeringReport Report(const VehicleFile& file, const FileStanding& standing, UnitSystem units) {
  try {
    return ReportSteering({standing.rig, StanceOf(standing)}, standing.standing, standing.load,
                          units == UnitSystem::kMetric ? 0.02 : 0.0254);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunSteering(const SteeringOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const UnitSystem units = OutputUnits(options.common, file);
  const auto standing = StandFile(file, options.load, streams);
  if (!standing) return kAnswerIsNo;
  const SteeringReport report = Report(file, *standing, units);
  const std::vector<NamedTable> tables = SteeringTables(file.vehicle, report, units);
  std::vector<NamedTable> in_files{StandingTable(*standing, units)};
  in_files.insert(in_files.end(), tables.begin(), tables.end());
  std::vector<std::string> notes{StandingNote(*standing)};
  if (report.axles.empty()) {
    notes.emplace_back(
        "no axle has steering: {drag_link: {frame: ..., axle: ...}}: only sideways is answered");
  }
  const std::vector<std::string> told = SteeringNotes(file.vehicle, report, units);
  notes.insert(notes.end(), told.begin(), told.end());
  return HandOut(
      {.command = "steering",
       .head = Heading(file, standing->load),
       .tables = in_files,
       .notes = notes,
       .cautions = Cautions() + "Steering parts that bind, run out of thread or touch kill: turn "
                                "lock to lock at both ends of travel.\n",
       .findings = SteeringFindings(file.vehicle, report)},
      ToPageText(tables), file, options.common, streams);
}

}  // namespace

Command SteeringCommand() {
  auto options = std::make_shared<SteeringOptions>();
  Command command{
      .name = "steering",
      .help = "drag link and track bar: steer over travel and roll, toe, caster, centring"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load,
            "stand it under this load first; by default the first");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunSteering(*options, streams); };
  return command;
}

}  // namespace linkwright
