// SPDX-License-Identifier: MIT
// A vehicle file standing at rest for commands that ask one load: `driveline`, `steering`,
// `limits`, `openings`.
#pragma once

#include "cli/answer.h"
#include "cli/settled.h"
#include "solver/study/adjust/lengthen.h"

namespace linkwright {

struct FileStanding {
  Rig rig;           // refers to the file's vehicle
  const Load* load;  // null: geometry only
  Standing standing;
};

// Settles under the named load, the first one for an empty name.
//   returns  nothing where the vehicle finds no rest: that is then said on standard error
//   errors   InputErrors; UsageError for a load that is not there or means nothing
[[nodiscard]] std::optional<FileStanding> StandFile(const VehicleFile& file,
                                                    const std::string& load, Streams& streams);

// Null: geometry only.
[[nodiscard]] const Stance* StanceOf(const FileStanding& standing);

// What the places and angles are of: the load, or the measured stance.
[[nodiscard]] std::string StandingNote(const FileStanding& standing);

// The same for files: a table of one row, "load", its name or "as measured".
[[nodiscard]] NamedTable StandingTable(const FileStanding& standing, UnitSystem units);
[[nodiscard]] NamedTable StandingTable(const Load* load, UnitSystem units);

}  // namespace linkwright
