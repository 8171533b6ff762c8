// SPDX-License-Identifier: MIT
// The part of the command line that `sweep` and `compare` share: which load, motion and travels.
#pragma once

#include "cli/question.h"
#include "io/write/data_table.h"
#include "solver/rest/stance.h"

namespace linkwright {

[[nodiscard]] std::vector<Option> SweepRequestOptions();

// What a file without masses does with a load, for AskedLoad.
constexpr const char* kSweepsAsMeasured = "it sweeps about the measured stance";

[[nodiscard]] std::string MotionOf(const Question& asked);

// The rows and the notes under them.
struct Swept {
  DataTable table;
  std::vector<std::string> notes;
  bool cut_short;  // rows end before what was asked for
};

// Steps between rows where --step is not given; coarse ones, twice as far apart
// in travel, keep two files side by side readable.
enum class UsualSteps { kFine, kCoarse };

//   rig, stance   of the file, which is one of those asked about; null: geometry only
//   errors        UsageError; ModelError
[[nodiscard]] Swept SweepAsked(const Question& asked, const VehicleFile& file, const Rig& rig,
                               const Stance* stance, UsualSteps steps);

}  // namespace linkwright
