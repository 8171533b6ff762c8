// SPDX-License-Identifier: MIT
// What a command found, and handing it out: files, tables, notes, cautions, exit status.
#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "cli/question.h"
#include "cli/run.h"
#include "io/write/file.h"
#include "io/write/json.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// The cautions that go under predictions.
[[nodiscard]] std::string Cautions();

struct Answer {
  std::string head = {};                    // over the tables, with an empty line after it
  std::optional<NamedTable> standing = {};  // what all is about; for files alone
  std::vector<NamedTable> tables;
  std::optional<std::string> text = {};  // the tables as shown; absent: each fitted to a page
  bool csv_is_long = true;  // a line a value, of all tables; else the only one as it stands
  std::vector<Finding> findings = {};   // of this command's own question
  std::vector<std::string> notes = {};  // under the findings
  std::string cautions = Cautions();    // under the notes
  std::string complaint = {};           // for standard error: whole lines
  std::optional<OutputFile> plan = {};  // what --write asks for
  ExitCode exit = kDone;                // kAnswerIsNo, kUnusable: the complaint says why
  // For --strict:
  bool amiss = false;         // something is to be looked at, whatever check finds
  bool all_findings = false;  // its findings are all that check would have
};

// "load: crates" over what is about one load; null: the file has no masses.
[[nodiscard]] std::string LoadLine(const Load* load);

void AddNotes(const std::vector<std::string>& notes, Answer& to);

// The tables one after another, each under its title with an empty line after it; those of
// `turned`, which have few rows and many columns, with their columns as lines.
[[nodiscard]] std::string ToTextTurning(const std::vector<NamedTable>& tables,
                                        const std::vector<std::string>& turned);

// Writes what --csv, --json and --write ask for, all or none, then prints.
//   command   its name in the JSON document
//   returns   kAnswerIsNo under --strict where something in a file is to be looked at
//   errors    WriteError
[[nodiscard]] int HandOut(const std::string& command, const Answer& answer, const Question& asked,
                          std::ostream& out, std::ostream& err);

}  // namespace linkwright
