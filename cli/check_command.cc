// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/check_tables.h"
#include "io/write/long_table.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

struct CheckOptions {
  CommonOptions common;
  std::string file;
};

CheckReport CheckFile(const VehicleFile& file) {
  try {
    return CheckVehicle(file.vehicle);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

void Print(const std::vector<NamedTable>& tables, std::ostream& out) {
  for (const NamedTable& named : tables) {
    out << ToTitledText(named.name, named.table) << "\n";
  }
}

int RunCheck(const CheckOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const UnitSystem units = OutputUnits(options.common, file);
  const CheckReport report = CheckFile(file);
  std::vector<NamedTable> tables;
  std::vector<Finding> findings;
  try {
    tables = CheckTables(file.vehicle, report, units);
    findings = AllFindings(file, report, units);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
  std::vector<std::string> notes;
  bool warned = false;
  for (const Finding& finding : findings) {
    notes.push_back((finding.warning ? "look at this: " : "") + finding.text);
    warned = warned || finding.warning;
  }
  WriteFiles(options.common, ToLongTable(tables),
             {.command = "check",
              .file = file.path,
              .title = file.vehicle.title,
              .tables = tables,
              .notes = notes},
             file.inputs);
  streams.out << Heading(file);
  Print(tables, streams.out);
  for (const std::string& note : notes) streams.out << note << "\n";
  streams.out.flush();
  (void)PrepareFor(file);  // links that leave an axle free, or lock it, are an error in the file
  return options.common.strict && warned ? kAnswerIsNo : kDone;
}

}  // namespace

Command AddCheck(CLI::App& root) {
  auto options = std::make_shared<CheckOptions>();
  CLI::App* app =
      root.add_subcommand("check", "is the file sound: what the links hold, the masses, the coils");
  app->add_option("FILE", options->file, "vehicle file or variant")->required();
  AddCommonOptions(*app, options->common);
  return {app, [options](Streams& streams) { return RunCheck(*options, streams); }};
}

}  // namespace linkwright
