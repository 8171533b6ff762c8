// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/long_table.h"
#include "io/write/steering_tables.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

struct SteeringOptions {
  CommonOptions common;
  std::string file, load;
};

SteeringReport Report(const VehicleFile& file, const FileStanding& standing, UnitSystem units) {
  try {
    return ReportSteering(standing.rig, standing.standing, standing.load,
                          units == UnitSystem::kMetric ? 0.02 : 0.0254);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunSteering(const SteeringOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const UnitSystem units = OutputUnits(options.common, file);
  const auto stood = StandFile(file, options.load);
  if (const Refusal* refusal = std::get_if<Refusal>(&stood)) {
    streams.err << FormatRefusal(file, *refusal);
    return kAnswerIsNo;
  }
  const FileStanding& standing = std::get<FileStanding>(stood);
  const SteeringReport report = Report(file, standing, units);
  const std::vector<NamedTable> tables = SteeringTables(file.vehicle, report, units);
  Notes notes{.lines = {StandingNote(standing)}};
  if (report.axles.empty()) {
    notes.lines.emplace_back(
        "no axle has steering: {drag_link: {frame: ..., axle: ...}}: only sideways is answered");
  }
  AddFindings(SteeringFindings(file.vehicle, report, units), notes);
  const std::string findings = CountFindings(file);
  if (!findings.empty()) notes.lines.push_back(findings);
  WriteFiles(options.common, ToLongTable(tables),
             {.command = "steering",
              .file = file.path,
              .title = file.vehicle.title,
              .tables = tables,
              .notes = notes.lines},
             file.inputs);
  streams.out << Heading(file);
  for (const NamedTable& named : tables) {
    streams.out << ToTitledText(named.name, named.table) << "\n";
  }
  for (const std::string& note : notes.lines) streams.out << note << "\n";
  streams.out << Cautions()
              << "Steering parts that bind, run out of thread or touch kill: turn lock to lock at "
                 "both ends of travel.\n";
  return options.common.strict && (notes.warned || !findings.empty()) ? kAnswerIsNo : kDone;
}

}  // namespace

Command AddSteering(CLI::App& root) {
  auto options = std::make_shared<SteeringOptions>();
  CLI::App* app = root.add_subcommand(
      "steering", "drag link and track bar: steer over travel and roll, toe, caster, centring");
  app->add_option("FILE", options->file, "vehicle file or variant")->required();
  app->add_option("--load", options->load, "stand it under this load first; by default the first");
  AddCommonOptions(*app, options->common);
  return {app, [options](Streams& streams) { return RunSteering(*options, streams); }};
}

}  // namespace linkwright
