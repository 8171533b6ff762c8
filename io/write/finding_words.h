// SPDX-License-Identifier: MIT
// What a finding says to a person, amounts in the reader's units.
#pragma once

#include <functional>

#include "io/write/json.h"
#include "solver/study/findings/accepted.h"

namespace linkwright {

// One line, whom it is about first: "rear coil left: 3 mm squeeze left at full droop, wants 6 mm".
[[nodiscard]] std::string Line(const Finding& finding, const Vehicle& vehicle, UnitSystem units);

// The same in full, and what mends it.
[[nodiscard]] std::string Words(const Finding& finding, const Vehicle& vehicle, UnitSystem units);

// "can hurt someone": the heading of all that does.
[[nodiscard]] const char* HarmWords(Harm harm);

// "findings": slug, harm, what it is about, value and aim with their unit, in words; a line each.
//   place_of   "FILE:LINE:COLUMN: " of what is to blame, or nothing
[[nodiscard]] NamedTable FindingsTable(const std::vector<Finding>& findings, const Vehicle& vehicle,
                                       UnitSystem units,
                                       const std::function<std::string(const Finding&)>& place_of);

// "accepted": what the file accepts, and why.
[[nodiscard]] NamedTable AcceptedTable(const std::vector<AcceptedFinding>& accepted,
                                       const Vehicle& vehicle, UnitSystem units);

}  // namespace linkwright
