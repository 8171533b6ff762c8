// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/answer.h"
#include "io/write/original_tables.h"
#include "solver/study/findings/original_findings.h"

namespace linkwright {
namespace {

struct OriginalOptions {
  CommonOptions common;
  std::string file;
};

constexpr double kMetricStep = 0.010;  // [m] of camber when new
constexpr double kInchStep = 0.0127;   // [m] 1/2 in

OriginalReport Report(const VehicleFile& file, UnitSystem units) {
  if (!file.vehicle.leaf_original) {
    throw UsageError(file.path +
                     " has no leaf springs of the old vehicle: give them as leaf_original: {rear: "
                     "{...}}, docs/questions-leaf.md shows how");
  }
  try {
    return ReportOriginal(file.vehicle, units == UnitSystem::kMetric ? kMetricStep : kInchStep);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunOriginal(const OriginalOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const UnitSystem units = OutputUnits(options.common, file);
  const OriginalReport report = Report(file, units);
  const std::vector<NamedTable> tables = OriginalTables(file.vehicle, report, units);
  return HandOut({.command = "original",
                  .head = Heading(file),
                  .tables = tables,
                  .notes = OriginalNotes(file.vehicle, report, units),
                  .cautions = Cautions() +
                              "A leaf spring holds energy too: hold axle and leaf before a "
                              "shackle, an eye or a U-bolt is undone.\nMeasure with the vehicle on "
                              "its wheels; nobody works under one that a single jack holds up.\n",
                  .findings = OriginalFindings(file.vehicle, report)},
                 ToPageText(tables), file, options.common, streams);
}

}  // namespace

Command OriginalCommand() {
  auto options = std::make_shared<OriginalOptions>();
  Command command{
      .name = "original",
      .help = "where the old leaf-sprung axles sat when new: design wheelbase and openings"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunOriginal(*options, streams); };
  return command;
}

}  // namespace linkwright
