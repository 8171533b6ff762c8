// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/driveline_tables.h"
#include "solver/study/findings/driveline_findings.h"

namespace linkwright {
namespace {

struct DrivelineOptions {
  CommonOptions common;
  std::string file, load;
  std::string speed, torque;  // as typed; empty: not given
};

std::vector<ShaftReport> Report(const DrivelineOptions& options, const VehicleFile& file,
                                const FileStanding& standing, UnitSystem units) {
  DrivelineRequest request{
      .load = standing.load,
      .speed = ParseOption("--speed", options.speed, Dimension::kShaftSpeed, file.units),
      .torque = ParseOption("--torque", options.torque, Dimension::kTorque, file.units),
      .step = units == UnitSystem::kMetric ? 0.02 : 0.0254};
  try {
    return ReportDriveline({standing.rig, StanceOf(standing)}, standing.standing, request);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunDriveline(const DrivelineOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  if (file.vehicle.driveshafts.empty()) {
    throw Locate(file, ModelError({}, "the file has no driveshafts: {NAME: {output: ..., ...}}"));
  }
  const UnitSystem units = OutputUnits(options.common, file);
  const auto standing = StandFile(file, options.load, streams);
  if (!standing) return kAnswerIsNo;
  const std::vector<ShaftReport> reports = Report(options, file, *standing, units);
  const std::vector<NamedTable> tables = DrivelineTables(file.vehicle, reports, units);
  std::vector<NamedTable> in_files{StandingTable(*standing, units)};
  in_files.insert(in_files.end(), tables.begin(), tables.end());
  std::vector<std::string> notes{StandingNote(*standing)};
  const std::vector<std::string> told = DrivelineNotes(file.vehicle, reports, units);
  notes.insert(notes.end(), told.begin(), told.end());
  return HandOut({.command = "driveline",
                  .head = Heading(file, standing->load),
                  .tables = in_files,
                  .notes = notes,
                  .cautions = Cautions() +
                              "A shaft that bottoms breaks gearboxes, one that parts kills: prove "
                              "both ends of travel by hand.\n",
                  .findings = DrivelineFindings(file.vehicle, reports)},
                 ToPageText(tables), file, options.common, streams);
}

}  // namespace

Command DrivelineCommand() {
  auto options = std::make_shared<DrivelineOptions>();
  Command command{.name = "driveline",
                  .help = "shafts: angles, plunge, cancelling and what to turn, speed, wind-up"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load,
            "stand it under this load first; by default the first");
  AddOption(command, "--speed", options->speed,
            "of the output, in rpm; by default each shaft's top_speed_rpm");
  AddOption(command, "--torque", options->torque,
            "at the driven axle's wheels together (shaft torque times axle ratio), driving "
            "forward: shows the wind-up");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunDriveline(*options, streams); };
  return command;
}

}  // namespace linkwright
