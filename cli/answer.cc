// SPDX-License-Identifier: MIT
#include "cli/answer.h"

#include <algorithm>

#include "io/write/long_table.h"
#include "io/write/text_table.h"

namespace linkwright {

std::string ToText(const std::vector<NamedTable>& tables, const std::string& turned) {
  std::string text;
  for (const NamedTable& named : tables) {
    const bool turn = !turned.empty() && named.name.ends_with(turned);
    text += turn ? named.name + "\n" + ToTurnedText(named.table)
                 : ToTitledText(named.name, named.table);
    text += "\n";
  }
  return text;
}

std::string ToPageText(const std::vector<NamedTable>& tables) {
  std::string text;
  for (const NamedTable& named : tables) text += ToFittingText(named.name, named.table) + "\n";
  return text;
}

std::string ToTextTurning(const std::vector<NamedTable>& tables,
                          const std::vector<std::string>& turned) {
  std::string text;
  for (const NamedTable& named : tables) {
    const bool turn = std::find(turned.begin(), turned.end(), named.name) != turned.end();
    text += ToText({named}, turn ? named.name : std::string());
  }
  return text;
}

int HandOut(const Answer& answer, const std::string& text, const VehicleFile& file,
            const CommonOptions& options, Streams& streams) {
  WriteFiles(options, ToLongTable(answer.tables),
             {.command = answer.command,
              .file = file.path,
              .title = file.vehicle.title,
              .tables = answer.tables,
              .notes = answer.notes},
             file.inputs);
  streams.out << answer.head << text;
  for (const std::string& note : answer.notes) streams.out << note << "\n";
  streams.out << answer.cautions;
  const bool warned =
      std::any_of(answer.notes.begin(), answer.notes.end(),
                  [](const std::string& note) { return note.starts_with(kLookAtThis); });
  return Verdict(options, warned, streams);
}

void AddFindings(const std::vector<Finding>& findings, std::vector<std::string>& notes) {
  for (const Finding& finding : findings) {
    notes.push_back((finding.warning ? kLookAtThis : "") + finding.text);
  }
}

void AddCount(const VehicleFile& file, std::vector<std::string>& notes,
              const LimitsReport* limits) {
  const std::string count = CountFindings(file, limits);
  if (!count.empty()) notes.push_back(count);
}

}  // namespace linkwright
