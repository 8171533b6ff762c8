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
  std::vector<std::string> lines =
      LinesOf(answer.findings, file.vehicle, OutputUnits(options, file));
  lines.insert(lines.end(), answer.notes.begin(), answer.notes.end());
  WriteFiles(options, ToLongTable(answer.tables),
             {.command = answer.command,
              .file = file.path,
              .title = file.vehicle.title,
              .tables = answer.tables,
              .notes = lines},
             file.inputs);
  streams.out << answer.head << text;
  for (const std::string& line : lines) streams.out << line << "\n";
  streams.out << answer.cautions;
  const bool warned = options.strict && (AnyPast(answer.findings) || IsAnythingAmiss(file));
  return Verdict(options, warned, streams);
}

}  // namespace linkwright
