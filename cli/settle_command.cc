// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/settle_columns.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

struct SettleOptions {
  CommonOptions common;
  std::string file;
  std::string load;
};

int RunSettle(const SettleOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const Settled settled = SettleLoads(file, options.load);
  const UnitSystem units = OutputUnits(options.common, file);
  const DataTable table = SettleTable(file.vehicle, settled.loads, units);
  const std::vector<std::string> notes = SettleNotes(file, settled, units);
  WriteFiles(options.common, table,
             {.command = "settle",
              .file = file.path,
              .title = file.vehicle.title,
              .tables = {{"stances", table}},
              .notes = notes},
             file.inputs);
  streams.out << Heading(file);
  if (!settled.loads.empty()) streams.out << ToTurnedText(table);
  PrintNotes(streams.out, notes);
  streams.out << Cautions();
  for (const Refusal& refusal : settled.refusals) streams.err << FormatRefusal(file, refusal);
  const int verdict =
      Verdict(options.common, options.common.strict && (HasLetGo(settled) || IsAnythingAmiss(file)),
              streams);
  return settled.refusals.empty() ? verdict : kAnswerIsNo;
}

}  // namespace

Command SettleCommand() {
  auto options = std::make_shared<SettleOptions>();
  Command command{.name = "settle", .help = "where it stands under each load"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load, "only this load; by default every one");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunSettle(*options, streams); };
  return command;
}

}  // namespace linkwright
