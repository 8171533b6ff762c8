// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/standing.h"
#include "cli/sweep_request.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

struct SweepCommandOptions {
  CommonOptions common;
  std::string file;
  SweepRequest request;
};

int RunSweep(const SweepCommandOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  Swept swept = RunSweepRequest(file, options.request, OutputUnits(options.common, file));
  if (!swept.table) {
    streams.err << FormatRefusal(file, *swept.refusal);
    return kAnswerIsNo;
  }
  const std::string findings = CountFindings(file);
  if (!findings.empty()) swept.notes.push_back(findings);
  WriteFiles(options.common, *swept.table,
             {.command = "sweep",
              .file = file.path,
              .title = file.vehicle.title,
              .tables = {StandingTable(swept.load, swept.table->units), {"rows", *swept.table}},
              .notes = swept.notes},
             file.inputs);
  streams.out << Heading(file, swept.load) << ToGroupedText(*swept.table);
  PrintNotes(streams.out, swept.notes);
  streams.out << Cautions();
  return Verdict(options.common, swept.cut_short || !findings.empty(), streams);
}

}  // namespace

Command AddSweep(CLI::App& root) {
  auto options = std::make_shared<SweepCommandOptions>();
  CLI::App* app = root.add_subcommand("sweep", "the curves over travel");
  app->add_option("FILE", options->file, "vehicle file or variant")->required();
  AddSweepRequest(*app, options->request);
  AddCommonOptions(*app, options->common);
  return {app, [options](Streams& streams) { return RunSweep(*options, streams); }};
}

}  // namespace linkwright
