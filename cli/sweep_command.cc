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
  return Verdict(options.common,
                 options.common.strict && (swept.cut_short || IsAnythingAmiss(file)), streams);
}

}  // namespace

Command SweepCommand() {
  auto options = std::make_shared<SweepCommandOptions>();
  Command command{.name = "sweep", .help = "the curves over travel"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddSweepRequest(command, options->request);
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunSweep(*options, streams); };
  return command;
}

}  // namespace linkwright
