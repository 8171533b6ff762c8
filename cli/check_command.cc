// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "io/write/check_tables.h"
#include "io/write/table_of.h"
#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/study/findings/file_findings.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {
namespace {

constexpr size_t kMostLinesOfCheck = 39;  // what a person reads at once

// "empty, crates", the one asked for, or "as measured" of a file without masses.
std::string LoadsOf(const Vehicle& vehicle, const Load* only) {
  if (only != nullptr) return only->name;
  if (IsGeometryOnly(vehicle)) return "none, as measured";
  std::string names;
  for (const Load& load : vehicle.loads) names += (names.empty() ? "" : ", ") + load.name;
  return names;
}

NamedTable LoadTable(const std::string& loads, UnitSystem units) {
  const TableOf<std::string> columns{
      {"rest", "rest", Dimension::kNumber, "what is looked at", [](auto&) { return "at rest"; }},
      {"loads", "loads", Dimension::kNumber,
       "the loads it is looked at under; travel, shafts and steering from the first of them",
       [](auto& names) { return names; }}};
  return {"standing", ToTable(columns, std::vector{loads}, units)};
}

// Links that leave an axle free, or lock it, are an error in the file; of these the file is all
// that can be looked at.
VehicleFindings FindIn(const VehicleFile& file, const CheckReport& report, const Load* only,
                       Answer& answer) {
  bool is_held = false;
  try {
    const Rig rig = PrepareRig(file.vehicle);
    is_held = true;
    VehicleFindings found = FindAll(rig, report, only);
    answer.all_findings = only == nullptr;
    return found;
  } catch (const ModelError& error) {
    if (!is_held) {
      answer.complaint = Locate(file, error).what();
      answer.exit = kUnusable;
    }
    return {.findings = FileFindings(file.vehicle, report), .gaps = {}, .fights = {}};
  }
}

Answer AnswerCheck(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Vehicle& vehicle = file.vehicle;
  const Load* load = AskedLoad(asked, file);
  const Load* only = IsGiven(asked, "--load") ? load : nullptr;
  const std::string loads = LoadsOf(vehicle, only);
  const CheckReport report = CheckVehicle(vehicle);
  Answer answer{.about = "loads: " + loads,
                .standing = LoadTable(loads, asked.units),
                .tables = CheckTables(vehicle, report, asked.units),
                .notes = CheckNotes(vehicle, report, asked.units),
                .cautions = {}};
  const VehicleFindings found = FindIn(file, report, only, answer);
  answer.findings = found.findings, answer.accepted = found.accepted;
  answer.said = CheckAnswer(vehicle, report, found.findings, asked.units);
  answer.most_lines = kMostLinesOfCheck;
  if (!found.gaps.empty()) {
    answer.tables.push_back({"gaps", GapTable(vehicle, found.gaps, asked.units)});
  }
  AddNotes(FightNotes(vehicle, found.fights, asked.units), answer);
  AddOneAxle(vehicle, "wheelbase, tracks against each other, rest and all that hangs on masses",
             answer.notes);
  AddAssumedBushings(file, asked.units, answer.notes);
  return answer;
}

}  // namespace

Command CheckCommand() {
  return {.name = "check",
          .help = "is the file sound: what the links hold, the masses, the coils",
          .asks = "Is the file sound, and what is to be looked at?",
          .example = "harbour_van.yaml",
          .options = {FileOption(),
                      LoadOption("look at it under this load only; by default every one")},
          .answer = AnswerCheck};
}

}  // namespace linkwright
