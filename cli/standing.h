// SPDX-License-Identifier: MIT
// A vehicle file standing at rest for commands that ask one load: `driveline`, `steering`,
// `limits`, `openings`.
#pragma once

#include <variant>

#include "cli/settled.h"
#include "io/write/check_tables.h"
#include "solver/study/lengthen.h"

namespace linkwright {

struct FileStanding {
  Rig rig;           // refers to the file's vehicle
  const Load* load;  // null: geometry only
  Standing standing;
};

// Settles under the named load, the first one for an empty name.
//   returns  the refusal where the vehicle finds no rest
//   errors   InputErrors; UsageError for a load that is not there or means nothing
[[nodiscard]] std::variant<FileStanding, Refusal> StandFile(const VehicleFile& file,
                                                            const std::string& load);

// Null: geometry only.
[[nodiscard]] const Stance* StanceOf(const FileStanding& standing);

// What the places and angles are of: the load, or the measured stance.
[[nodiscard]] std::string StandingNote(const FileStanding& standing);

// Findings as notes, warnings with "look at this: " before them; whether there is a warning.
struct Notes {
  std::vector<std::string> lines;
  bool warned = false;
};
void AddFindings(const std::vector<Finding>& findings, Notes& notes);

}  // namespace linkwright
