// SPDX-License-Identifier: MIT
// What a command found, and handing it out: files, tables, notes, cautions, exit status. For
// commands whose CSV is one long table.
#pragma once

#include "cli/command.h"

namespace linkwright {

struct Answer {
  const char* command;  // its name in the JSON document
  std::string head;     // over the tables, with an empty line after it
  std::vector<NamedTable> tables;
  std::vector<std::string> notes;   // under the findings
  std::string cautions;             // under the notes
  std::vector<Finding> findings{};  // of this command's own question
};

// The tables one after another, each under its title with an empty line after it; one whose title
// ends in `turned` with its columns as lines.
//   turned   empty: none
[[nodiscard]] std::string ToText(const std::vector<NamedTable>& tables,
                                 const std::string& turned = {});

// The same with each table fitted to a page (ToFittingText).
[[nodiscard]] std::string ToPageText(const std::vector<NamedTable>& tables);

// The same with several tables turned, by their whole names: those with few rows and many columns.
[[nodiscard]] std::string ToTextTurning(const std::vector<NamedTable>& tables,
                                        const std::vector<std::string>& turned);

// Writes what --csv and --json ask for, then prints.
//   text      the tables as shown
//   returns   kAnswerIsNo under --strict where something in the file is to be looked at
[[nodiscard]] int HandOut(const Answer& answer, const std::string& text, const VehicleFile& file,
                          const CommonOptions& options, Streams& streams);

}  // namespace linkwright
