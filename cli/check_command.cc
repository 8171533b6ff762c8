// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/answer.h"
#include "cli/settled.h"
#include "io/write/check_tables.h"

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
  AddFindings(findings, notes);
  const int status = HandOut(
      {.command = "check", .head = Heading(file), .tables = tables, .notes = notes, .cautions = {}},
      ToText(tables), file, options.common, streams);
  streams.out.flush();
  (void)PrepareFor(file);  // links that leave an axle free, or lock it, are an error in the file
  return status;
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
