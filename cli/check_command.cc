// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/answer.h"
#include "cli/assumed.h"
#include "cli/findings.h"
#include "cli/settled.h"
#include "io/write/check_tables.h"
#include "solver/model/masses.h"
#include "solver/study/findings/file_findings.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {
namespace {

struct CheckOptions {
  CommonOptions common;
  std::string file, load;
};

CheckReport CheckFile(const VehicleFile& file) {
  try {
    return CheckVehicle(file.vehicle);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

// Links that leave an axle free are named by the report; nothing more is to be had of them.
VehicleFindings FindIn(const VehicleFile& file, const CheckReport& report, const Load* load) {
  try {
    return FindAll(PrepareRig(file.vehicle), report, load);
  } catch (const ModelError&) {
    return {.findings = FileFindings(file.vehicle, report), .gaps = {}, .fights = {}};
  }
}

// "empty, crates", the one asked for, or "as measured" of a file without masses.
std::string LoadsOf(const Vehicle& vehicle, const Load* only) {
  if (only != nullptr) return only->name;
  if (IsGeometryOnly(vehicle)) return "none, as measured";
  std::string names;
  for (const Load& load : vehicle.loads) names += (names.empty() ? "" : ", ") + load.name;
  return names;
}

DataTable LoadTable(const Vehicle& vehicle, const Load* only, UnitSystem units) {
  return {.units = units,
          .columns = {{"rest", "rest", Dimension::kNumber, "", "what is looked at"},
                      {"loads", "loads", Dimension::kNumber, "",
                       "the loads it is looked at under; travel, shafts and steering from the "
                       "first of them"}},
          .rows = {{std::string("at rest"), LoadsOf(vehicle, only)}}};
}

int RunCheck(const CheckOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const UnitSystem units = OutputUnits(options.common, file);
  if (!options.load.empty() && IsGeometryOnly(file.vehicle)) {
    throw UsageError("--load: the file has no masses, so it stands as measured");
  }
  const Load* load = options.load.empty() ? nullptr : &FindLoad(file.vehicle, options.load);
  const CheckReport report = CheckFile(file);
  const VehicleFindings found = FindIn(file, report, load);
  std::vector<NamedTable> tables = CheckTables(file.vehicle, report, units);
  if (!found.gaps.empty()) tables.push_back({"gaps", GapTable(file.vehicle, found.gaps, units)});
  std::vector<std::string> notes = CheckNotes(file.vehicle, report, units);
  const std::vector<std::string> fights = FightNotes(file.vehicle, found.fights, units);
  notes.insert(notes.end(), fights.begin(), fights.end());
  AddAssumedBushings(file, units, notes);
  std::string head = Heading(file) + "loads: " + LoadsOf(file.vehicle, load) + "\n\n";
  std::vector<NamedTable> in_files{{"standing", LoadTable(file.vehicle, load, units)}};
  in_files.insert(in_files.end(), tables.begin(), tables.end());
  const int status = HandOut({.command = "check",
                              .head = std::move(head),
                              .tables = in_files,
                              .notes = notes,
                              .cautions = {},
                              .findings = found.findings},
                             ToPageText(tables), file, options.common, streams);
  streams.out.flush();
  (void)PrepareFor(file);  // links that leave an axle free, or lock it, are an error in the file
  return status;
}

}  // namespace

Command CheckCommand() {
  auto options = std::make_shared<CheckOptions>();
  Command command{.name = "check",
                  .help = "is the file sound: what the links hold, the masses, the coils"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load,
            "look at it under this load only; by default every one");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunCheck(*options, streams); };
  return command;
}

}  // namespace linkwright
