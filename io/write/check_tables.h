// SPDX-License-Identifier: MIT
// What `check` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/curves/over_travel.h"
#include "solver/study/file/check.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// "axles", "coils", and where there are masses "masses" and "weights".
[[nodiscard]] std::vector<NamedTable> CheckTables(const Vehicle& vehicle, const CheckReport& report,
                                                  UnitSystem units);

// The answer of `check` in at most six sentences: is the file sound, how each axle is held, what
// the coils carry against the scales.
//   findings   those past their aims
[[nodiscard]] std::vector<std::string> CheckAnswer(const Vehicle& vehicle,
                                                   const CheckReport& report,
                                                   const std::vector<Finding>& findings,
                                                   UnitSystem units);

// How many links hold each axle, and what they do to one another near the measured stance.
[[nodiscard]] std::vector<std::string> CheckNotes(const Vehicle& vehicle, const CheckReport& report,
                                                  UnitSystem units);

// "gaps": each at its nearest.
[[nodiscard]] DataTable GapTable(const Vehicle& vehicle, const std::vector<GapAtLeast>& gaps,
                                 UnitSystem units);

// What links fighting one another must take at crossed extremes.
[[nodiscard]] std::vector<std::string> FightNotes(const Vehicle& vehicle,
                                                  const std::vector<FightAtExtremes>& fights,
                                                  UnitSystem units);

}  // namespace linkwright
