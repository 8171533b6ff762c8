// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/driveline_tables.h"
#include "io/write/long_table.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

struct DrivelineOptions {
  CommonOptions common;
  std::string file, load;
  std::string speed, torque;  // as typed; empty: not given
};

std::optional<double> Parse(const char* option, const std::string& text, Dimension dimension,
                            UnitSystem units) {
  if (text.empty()) return std::nullopt;
  const ParsedValue value = ParseValue(text, dimension, units);
  if (!value.si) throw UsageError(fmt::format("{}: {}", option, value.error));
  return value.si;
}

std::vector<ShaftReport> Report(const DrivelineOptions& options, const VehicleFile& file,
                                const FileStanding& standing, UnitSystem units) {
  DrivelineRequest request{
      .load = standing.load,
      .speed = Parse("--speed", options.speed, Dimension::kShaftSpeed, file.units),
      .torque = Parse("--torque", options.torque, Dimension::kTorque, file.units),
      .step = units == UnitSystem::kMetric ? 0.02 : 0.0254};
  if (request.speed && !(*request.speed > 0.0)) throw UsageError("--speed: above zero is wanted");
  try {
    return ReportDriveline(standing.rig, standing.standing, request);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

void Print(const std::vector<NamedTable>& tables, std::ostream& out) {
  for (const NamedTable& named : tables) {
    if (named.name.ends_with(" order")) {
      out << named.name << "\n" << ToTurnedText(named.table) << "\n";
    } else {
      out << ToTitledText(named.name, named.table) << "\n";
    }
  }
}

int RunDriveline(const DrivelineOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  if (file.vehicle.driveshafts.empty()) {
    throw Locate(file, ModelError({}, "the file has no driveshafts: {NAME: {output: ..., ...}}"));
  }
  const UnitSystem units = OutputUnits(options.common, file);
  const auto stood = StandFile(file, options.load);
  if (const Refusal* refusal = std::get_if<Refusal>(&stood)) {
    streams.err << FormatRefusal(file, *refusal);
    return kAnswerIsNo;
  }
  const FileStanding& standing = std::get<FileStanding>(stood);
  const std::vector<ShaftReport> reports = Report(options, file, standing, units);
  const std::vector<NamedTable> tables = DrivelineTables(file.vehicle, reports, units);
  Notes notes{.lines = {StandingNote(standing)}};
  AddFindings(DrivelineFindings(file.vehicle, reports, units), notes);
  const std::string findings = CountFindings(file);
  if (!findings.empty()) notes.lines.push_back(findings);
  WriteFiles(options.common, ToLongTable(tables),
             {.command = "driveline",
              .file = file.path,
              .title = file.vehicle.title,
              .tables = tables,
              .notes = notes.lines},
             file.inputs);
  streams.out << Heading(file);
  Print(tables, streams.out);
  for (const std::string& note : notes.lines) streams.out << note << "\n";
  streams.out << Cautions()
              << "A shaft that bottoms breaks gearboxes, one that parts kills: prove both ends of "
                 "travel by hand.\n";
  return options.common.strict && (notes.warned || !findings.empty()) ? kAnswerIsNo : kDone;
}

}  // namespace

Command AddDriveline(CLI::App& root) {
  auto options = std::make_shared<DrivelineOptions>();
  CLI::App* app = root.add_subcommand(
      "driveline", "shafts: angles, plunge, cancelling and what to turn, speed, wind-up");
  app->add_option("FILE", options->file, "vehicle file or variant")->required();
  app->add_option("--load", options->load, "stand it under this load first; by default the first");
  app->add_option("--speed", options->speed,
                  "of the output, in rpm; by default each shaft's top_speed_rpm");
  app->add_option("--torque", options->torque,
                  "at the driven axle's wheels together (shaft torque times axle ratio), driving "
                  "forward: shows the wind-up");
  AddCommonOptions(*app, options->common);
  return {app, [options](Streams& streams) { return RunDriveline(*options, streams); }};
}

}  // namespace linkwright
