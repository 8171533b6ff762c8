// SPDX-License-Identifier: MIT
// What `original` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/file/original.h"

namespace linkwright {

// For each axle A with a spring: "A axle", "A camber"; then "wheelbase" and "openings".
[[nodiscard]] std::vector<NamedTable> OriginalTables(const Vehicle& vehicle,
                                                     const OriginalReport& report,
                                                     UnitSystem units);

// What the readings say of the wheelbase, and what was assumed.
[[nodiscard]] std::vector<std::string> OriginalNotes(const Vehicle& vehicle,
                                                     const OriginalReport& report,
                                                     UnitSystem units);

}  // namespace linkwright
