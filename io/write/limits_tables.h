// SPDX-License-Identifier: MIT
// What `limits` found, as tables and as sentences.
#pragma once

#include "io/write/check_tables.h"
#include "solver/study/travel_parts.h"

namespace linkwright {

// "travel", "crossed"; one an axle and way of what else runs out ("front bump"); "dampers",
// "tabs", "stops", "straps", "coils", where there are any.
[[nodiscard]] std::vector<NamedTable> LimitsTables(const Vehicle& vehicle,
                                                   const LimitsReport& limits,
                                                   const PartsAdvice& advice, UnitSystem units);

// What falls short of an aim, and what the file leaves unwatched.
[[nodiscard]] std::vector<Finding> LimitsFindings(const Vehicle& vehicle,
                                                  const LimitsReport& limits,
                                                  const PartsAdvice& advice, const LimitAims& aims,
                                                  UnitSystem units);

// "damper left closed": a member and how it ends. Shared with the findings.
[[nodiscard]] std::string NameOf(const RunOut& run_out);

}  // namespace linkwright
