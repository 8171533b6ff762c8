// SPDX-License-Identifier: MIT
// The page to start from: where a vehicle stands, what travel it has and its curves at the ends of
// it, in sentences and as tables.
#pragma once

#include "io/write/json.h"
#include "io/write/settle_columns.h"
#include "solver/study/curves/at_ends.h"
#include "solver/study/travel/limits.h"

namespace linkwright {

struct StartPage {
  std::vector<SettledLoad> loads;   // those at rest; none: no masses
  std::string load;                 // that travel and curves are of; empty: as measured
  LimitsReport limits;              // of it
  std::array<AxleAtEnds, 2> ends;   // of the axles that are there
  std::optional<double> wheelbase;  // as measured, of a file without masses [m]
};

// More loads than these are told in the table "stances" alone, but for the one the page is about.
constexpr size_t kLoadsInWords = 3;

// The answer in at most eight sentences: where it stands under each load, what bump and droop each
// axle has left and what ends them.
[[nodiscard]] std::vector<std::string> PageAnswer(const Vehicle& vehicle, const StartPage& page,
                                                  UnitSystem units);

// What is assumed, what the file does not have: a sentence each, where there is any.
[[nodiscard]] std::vector<std::string> PageFoot(const Vehicle& vehicle);

// "stances" where there are masses, "travel", "over the travel": those columns that have a value.
[[nodiscard]] std::vector<NamedTable> PageTables(const Vehicle& vehicle, const StartPage& page,
                                                 UnitSystem units);

// Every column of the three, without rows.
[[nodiscard]] std::vector<NamedTable> AllPageTables(const Vehicle& any);

}  // namespace linkwright
