// SPDX-License-Identifier: MIT
// What a command found, and handing it out: the answer, files, tables, cautions, exit status.
#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "cli/question.h"
#include "cli/run.h"
#include "cli/window.h"
#include "io/write/file.h"
#include "io/write/json.h"
#include "solver/study/findings/accepted.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// The cautions that go under predictions.
[[nodiscard]] std::string Cautions();

struct Answer {
  std::string about = {};  // over the answer: "load: crates"; empty: nothing
  std::vector<std::string> said =
      {};  // the answer: what is so, what to do, how much; at most eight
  std::optional<NamedTable> standing = {};  // what all is about; for files alone
  std::vector<NamedTable> tables;
  // Drawn from the tables for the reader alone: printed unless --full asks for the tables
  // themselves, in no file unless --table names one.
  std::vector<NamedTable> glance = {};
  // Printed with --full in place of the tables, whose form is a spreadsheet's; none: the tables.
  std::vector<NamedTable> in_full = {};
  // Those that the answer needs, by name or by what their names end in ("margins"); the others come
  // with --full.
  std::vector<std::string> shown = {};
  bool first_is_main = false;          // of several tables the first is what --csv FILE holds
  std::vector<Finding> findings = {};  // of this command's own question
  std::vector<AcceptedFinding> accepted = {};  // those of them that were taken out already
  // Without --full no more findings than these are listed, the worst first, nor more than leave all
  // that is printed within so many lines; the others are counted. Those that can hurt someone are
  // listed whatever room there is, and the least number in any case. 0: all.
  size_t least_findings = 0;
  size_t most_findings = 0;
  size_t most_lines = 0;
  bool remedies = false;                // each is told in full, with what mends it
  std::string rest_by = "--full";       // what tells the others
  std::vector<std::string> foot = {};   // sentences under the tables
  std::vector<std::string> notes = {};  // what is assumed and how it was reckoned; with --full
  std::string cautions = Cautions();    // under all
  std::string complaint = {};           // for standard error: whole lines
  std::optional<OutputFile> plan = {};  // what --write asks for
  ExitCode exit = kDone;                // kAnswerIsNo, kUnusable: the complaint says why
  // For --strict:
  bool amiss = false;         // something is to be looked at, whatever check finds
  bool all_findings = false;  // its findings are all that check would have
};

// "load: crates", of what is about one load; null: the file has no masses.
[[nodiscard]] std::string LoadLine(const Load* load);

void AddNotes(const std::vector<std::string>& notes, Answer& to);

// Writes what --csv, --json and --write ask for, all or none, then prints.
//   command   its name in the JSON document
//   window    that it is printed in
//   returns   kAnswerIsNo under --strict where something in a file is to be looked at
//   errors    WriteError; UsageError for a table that is not there
[[nodiscard]] int HandOut(const std::string& command, const Answer& answer, const Question& asked,
                          const Window& window, std::ostream& out, std::ostream& err);

}  // namespace linkwright
