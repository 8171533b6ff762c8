// SPDX-License-Identifier: MIT
// A vehicle file standing at rest for commands that ask one load: `sweep`, `driveline`, `steering`,
// `limits`, `openings`.
#pragma once

#include "cli/answer.h"
#include "solver/study/adjust/lengthen.h"

namespace linkwright {

struct FileStanding {
  Rig rig;           // refers to the file's vehicle
  const Load* load;  // null: geometry only
  Standing standing;
};

// Settles the only file under the load asked for.
//   so       as of AskedLoad
//   errors   NoRest; ModelError; UsageError
[[nodiscard]] FileStanding StandFile(const Question& asked,
                                     const char* so = "it stands as measured");

// The vehicle under each load that parts are ordered for, the one it is told about first.
struct EachStanding {
  std::vector<FileStanding> standings;
  std::vector<std::string> no_rest;  // loads under which it finds none
  bool one_load;                     // of several in the file one alone was asked for
};

// Every load of the file, or the one alone that --load asks for.
//   at   of StandFile; refers to its rig's vehicle
[[nodiscard]] EachStanding StandUnderEach(const Question& asked, const FileStanding& at);

// Null: geometry only.
[[nodiscard]] const Stance* StanceOf(const FileStanding& at);

// For files: a table of one row, "load", its name or "as measured".
[[nodiscard]] NamedTable StandingTable(const Load* load, UnitSystem units);

// An answer that begins with what its places and angles are of: the load, or the measured stance.
[[nodiscard]] Answer AnswerAt(const FileStanding& at, const Question& asked);

}  // namespace linkwright
