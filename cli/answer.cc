// SPDX-License-Identifier: MIT
#include "cli/answer.h"

#include <fmt/format.h>

#include <algorithm>

#include "io/shown.h"
#include "io/write/csv.h"
#include "io/write/finding_words.h"
#include "io/write/long_table.h"
#include "io/write/text_table.h"
#include "solver/model/error.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {
namespace {

bool AnyPast(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.past; });
}

// Whether `check` would find anything to look at: what --strict of the other commands asks too.
bool IsAnythingAmiss(const VehicleFile& file) {
  try {
    return AnyPast(FindAll(PrepareRig(file.vehicle), CheckVehicle(file.vehicle)).findings);
  } catch (const ModelError&) {
    return true;  // the command that needs what cannot be prepared has said so
  }
}

bool IsAnythingAmiss(const Answer& answer, const Question& asked) {
  if (answer.amiss || AnyPast(answer.findings)) return true;
  return !answer.all_findings &&
         std::any_of(asked.files.begin(), asked.files.end(),
                     [](const VehicleFile& file) { return IsAnythingAmiss(file); });
}

// Findings past their aims, each "look at this: ...", those that are judged and well, then the
// notes.
std::vector<std::string> LinesOf(const Answer& answer, const Vehicle& vehicle, UnitSystem units) {
  std::vector<std::string> lines;
  for (const bool past : {true, false}) {
    for (const Finding& finding : answer.findings) {
      if (finding.past != past) continue;
      lines.push_back((past ? "look at this: " : "") + Words(finding, vehicle, units));
    }
  }
  lines.insert(lines.end(), answer.notes.begin(), answer.notes.end());
  return lines;
}

void WriteFiles(const Answer& answer, const Question& asked, Document document) {
  std::vector<std::string> inputs;
  for (const VehicleFile& file : asked.files) {
    document.file += (document.file.empty() ? "" : ", ") + file.path;
    inputs.insert(inputs.end(), file.inputs.begin(), file.inputs.end());
  }
  if (answer.standing) document.tables.push_back(*answer.standing);
  document.tables.insert(document.tables.end(), answer.tables.begin(), answer.tables.end());
  std::vector<OutputFile> outputs;
  if (IsGiven(asked, "--csv")) {
    outputs.push_back(
        {WordOf(asked, "--csv"),
         ToCsv(answer.csv_is_long ? ToLongTable(document.tables) : answer.tables.front().table)});
  }
  if (IsGiven(asked, "--json")) outputs.push_back({WordOf(asked, "--json"), ToJson(document)});
  if (answer.plan) outputs.push_back(*answer.plan);
  WriteTogether(outputs, inputs);
}

// The lines that stand over every answer.
std::string Heading(const std::vector<VehicleFile>& files) {
  const auto title = [&](size_t i) { return Shown(files[i].vehicle.title); };
  const auto path = [&](size_t i) { return Shown(files[i].path); };
  if (files.size() == 1) return fmt::format("{}\n{}\n\n", title(0), path(0));
  return fmt::format(
      "first:  {}\n        {}\nsecond: {}\n        {}\nchange: second less first\n\n", title(0),
      path(0), title(1), path(1));
}

std::string ToPageText(const std::vector<NamedTable>& tables) {
  std::string text;
  for (const NamedTable& named : tables) text += ToFittingText(named.name, named.table) + "\n";
  return text;
}

}  // namespace

std::string Cautions() {
  return "\nA prediction of geometry, not an approval: strength, welds, brakes and handling are "
         "outside it.\n"
         "Local codes decide and licensed people sign. Coils hold energy when the truck is on "
         "stands.\n";
}

std::string LoadLine(const Load* load) {
  return load == nullptr ? "as measured\n\n" : "load: " + Shown(load->name) + "\n\n";
}

void AddNotes(const std::vector<std::string>& notes, Answer& to) {
  to.notes.insert(to.notes.end(), notes.begin(), notes.end());
}

std::string ToTextTurning(const std::vector<NamedTable>& tables,
                          const std::vector<std::string>& turned) {
  std::string text;
  for (const auto& [name, table] : tables) {
    const bool turn = std::find(turned.begin(), turned.end(), name) != turned.end();
    text += (turn ? name + "\n" + ToTurnedText(table) : ToTitledText(name, table)) + "\n";
  }
  return text;
}

int HandOut(const std::string& command, const Answer& answer, const Question& asked,
            std::ostream& out, std::ostream& err) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const std::vector<std::string> lines = LinesOf(answer, vehicle, asked.units);
  WriteFiles(
      answer, asked,
      {.command = command, .file = {}, .title = vehicle.title, .tables = {}, .notes = lines});
  out << Heading(asked.files) << answer.head
      << (answer.text ? *answer.text : ToPageText(answer.tables));
  for (const std::string& line : lines) out << line << "\n";
  out << answer.cautions;
  out.flush();
  err << answer.complaint;
  if (!IsGiven(asked, "--strict") || !IsAnythingAmiss(answer, asked)) return answer.exit;
  err << "linkwright: under --strict the answer is no: something in the file is to be looked at; "
         "linkwright check names it\n";
  return answer.exit == kDone ? kAnswerIsNo : answer.exit;
}

}  // namespace linkwright
