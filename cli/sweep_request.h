// SPDX-License-Identifier: MIT
// The part of the command line that `sweep` and `compare` share: which load, motion and travels.
#pragma once

#include <array>

#include "cli/question.h"
#include "io/write/sweep_words.h"
#include "solver/rest/stance.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

[[nodiscard]] std::vector<Option> SweepRequestOptions();

// What a file without masses does with a load, for AskedLoad.
constexpr const char* kSweepsAsMeasured = "it sweeps about the measured stance";

[[nodiscard]] std::string MotionOf(const Question& asked);

// The rows, where they end, and the notes under them.
struct Swept {
  DataTable table;
  std::vector<std::string> notes;
  bool cut_short;                    // rows end before what was asked for
  std::array<RowsEnd, 2> low, high;  // of each axle
  std::vector<size_t> axles;         // that move and are shown
  std::vector<Finding> findings;     // of the curves, for a person who asks for the whole bounce
  bool has_mass;
};

// The same for whoever makes sentences and printed tables of it, which refer to it.
[[nodiscard]] SweptCurves CurvesOf(const Question& asked, const Vehicle& vehicle,
                                   const Swept& swept);

// Which of its rows are printed: every one where --step is given.
[[nodiscard]] RowsShown RowsToPrint(const Question& asked);

// How the lowest and the highest row are called: "at full droop", "at 20 mm of bump".
[[nodiscard]] std::array<std::string, 2> EndNames(const Question& asked);

// The columns that --column names, half remembered or in another unit; by index.
//   errors   UsageError with the nearest right word
[[nodiscard]] std::vector<size_t> AskedColumns(const Question& asked, const DataTable& rows);
[[nodiscard]] Option ColumnOption();

// Steps between rows where --step is not given; coarse ones, twice as far apart
// in travel, keep two files side by side readable.
enum class UsualSteps { kFine, kCoarse };

//   rig, stance   of the file, which is one of those asked about; null: geometry only
//   also          rows beside those asked for, within the travel
//   errors        UsageError; ModelError
[[nodiscard]] Swept SweepAsked(const Question& asked, const VehicleFile& file, const Rig& rig,
                               const Stance* stance, UsualSteps steps,
                               const std::vector<double>& also = {});

}  // namespace linkwright
