// SPDX-License-Identifier: MIT
// What `limits` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/travel/travel_parts.h"

namespace linkwright {

// "travel", "crossed", "crossed alone"; "in the way" of what is wanted; of each axle "front
// margins", "front joint margins", "front ends"; "dampers", "tabs", "stops", "straps", "coils";
// those that have rows.
//   planned   a travel other than the one found is wanted
[[nodiscard]] std::vector<NamedTable> LimitsTables(const Vehicle& vehicle,
                                                   const LimitsReport& limits,
                                                   const PartsAdvice& advice, UnitSystem units,
                                                   bool planned = false);

// The orders, one for left and right that are ordered alike, its member "damper, both".
[[nodiscard]] std::vector<DamperAdvice> DamperOrders(const Vehicle& vehicle,
                                                     const PartsAdvice& advice);
[[nodiscard]] std::vector<StopAdvice> StopOrders(const Vehicle& vehicle, const PartsAdvice& advice);
[[nodiscard]] std::vector<StrapAdvice> StrapOrders(const Vehicle& vehicle,
                                                   const PartsAdvice& advice);

// Ways that nothing ends, parts for which nothing is asked, what is taken as it is given, and what
// is not watched for want of data.
//   planned   a travel other than the one found is wanted
[[nodiscard]] std::vector<std::string> LimitsNotes(const Vehicle& vehicle,
                                                   const LimitsReport& limits,
                                                   const PartsAdvice& advice, UnitSystem units,
                                                   bool planned);

}  // namespace linkwright
