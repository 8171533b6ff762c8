// SPDX-License-Identifier: MIT
#include "cli/command.h"

#include <fmt/format.h>
#include <spdlog/logger.h>

#include "io/read/format.h"
#include "io/read/options.h"
#include "io/shown.h"
#include "io/write/check_tables.h"
#include "io/write/csv.h"
#include "io/write/file.h"

namespace linkwright {

void AddCommonOptions(Command& command, CommonOptions& options) {
  AddOption(command, "--csv", options.csv, "also write the table as CSV to this file");
  AddOption(command, "--json", options.json, "also write everything as JSON to this file");
  AddOption(command, "--units", options.units, "show results in metric or inch units").choices = {
      "metric", "inch"};
  AddOption(command, "--strict", options.strict,
            "exit with status 1 where something is to be looked at: a finding of check, a coil or "
            "wheel that has let go, rows that end before the range asked for");
  AddOption(command, "--verbose", options.verbose, "say on standard error what is read and done");
}

VehicleFile ReadFor(const CommonOptions& options, const std::string& path, Streams& streams) {
  if (options.verbose) streams.log.set_level(spdlog::level::info);
  VehicleFile file = ReadVehicleFile(path);
  for (const std::string& input : file.inputs) streams.log.info("read {}", input);
  for (const Axle& axle : file.vehicle.axles) {
    streams.log.info("{} axle: {} links, {} coils, {} stops, {} dampers", axle.name,
                     axle.links.size(), axle.springs.size(), axle.bump_stops.size(),
                     axle.dampers.size());
  }
  return file;
}

UnitSystem OutputUnits(const CommonOptions& options, const VehicleFile& file) {
  return options.units.empty() ? file.units : ParseUnitSystem(options.units).value_or(file.units);
}

void WriteFiles(const CommonOptions& options, const DataTable& csv, const Document& document,
                const std::vector<std::string>& inputs) {
  std::vector<OutputFile> outputs;
  if (!options.csv.empty()) outputs.push_back({options.csv, ToCsv(csv)});
  if (!options.json.empty()) outputs.push_back({options.json, ToJson(document)});
  WriteTogether(outputs, inputs);
}

const Load& FindLoad(const Vehicle& vehicle, const std::string& name) {
  if (name.empty()) return vehicle.loads.front();
  std::string known;
  for (const Load& load : vehicle.loads) {
    if (load.name == name) return load;
    known += (known.empty() ? "" : ", ") + load.name;
  }
  throw UsageError(fmt::format("--load: no load is called '{}'; the file has {}", name, known));
}

double ParseAmount(const char* option, const std::string& text, Dimension dimension,
                   UnitSystem units) {
  const ParsedValue value = ReadNumber(text, FindOption(option, dimension), units);
  if (!value.si) throw UsageError(fmt::format("{}: {}", option, value.error));
  return *value.si;
}

std::optional<double> ParseOption(const char* option, const std::string& text, Dimension dimension,
                                  UnitSystem units) {
  if (text.empty()) return std::nullopt;
  return ParseAmount(option, text, dimension, units);
}

std::string Heading(const VehicleFile& file) {
  return fmt::format("{}\n{}\n\n", Shown(file.vehicle.title), Shown(file.path));
}

std::string Heading(const VehicleFile& file, const Load* load) {
  return Heading(file) +
         (load == nullptr ? std::string("as measured\n\n") : "load: " + Shown(load->name) + "\n\n");
}

std::string Cautions() {
  return "\nA prediction of geometry, not an approval: strength, welds, brakes and handling are "
         "outside "
         "it.\nLocal codes decide and licensed people sign. Coils hold energy when the truck is on "
         "stands.\n";
}

int Verdict(const CommonOptions& options, bool warned, Streams& streams) {
  if (!options.strict || !warned) return kDone;
  streams.err << "linkwright: under --strict the answer is no: something in the file is to be "
                 "looked at; linkwright check names it\n";
  return kAnswerIsNo;
}

void PrintNotes(std::ostream& out, const std::vector<std::string>& notes) {
  if (!notes.empty()) out << "\n";
  for (const std::string& note : notes) out << note << "\n";
}

}  // namespace linkwright
