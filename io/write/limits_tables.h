// SPDX-License-Identifier: MIT
// What `limits` found, as tables and as sentences.
#pragma once

#include "io/write/check_tables.h"
#include "io/write/finding_writer.h"
#include "solver/study/travel_parts.h"

namespace linkwright {

// "travel", "crossed", "crossed alone"; "in the way" of what is wanted; of each axle "front
// margins", "front joint margins", "front ends"; "dampers", "tabs", "stops", "straps", "coils";
// those that have rows.
[[nodiscard]] std::vector<NamedTable> LimitsTables(const Vehicle& vehicle,
                                                   const LimitsReport& limits,
                                                   const PartsAdvice& advice, UnitSystem units);

// What falls short of a limit of the file (Vehicle::aims), what stands in the way of a wish, and
// what the file leaves unwatched.
//   planned   a travel other than the one found is wanted: what is said of the travel found then
//   says
//             so, lest it be read as the plan's
[[nodiscard]] std::vector<Finding> LimitsFindings(const Vehicle& vehicle,
                                                  const LimitsReport& limits,
                                                  const PartsAdvice& advice, UnitSystem units,
                                                  bool planned);

// What is taken as it is given, and what is not watched for want of data.
void SayUnwatched(const FindingWriter& writer, size_t axle);

// "damper left closed": a member and how it ends. Shared with the findings.
[[nodiscard]] std::string NameOf(const TravelLimit& limit);

// Whether two ends are the same on the two sides of an axle: "damper left", "damper right" closed.
[[nodiscard]] bool AreTwins(const TravelLimit& a, const TravelLimit& b);

// "bump", "droop", "crossed +", "crossed -".
[[nodiscard]] const char* NameOf(LimitMotion motion);

// What everything that can end one axle's travel has left at rest, at both ends and crossed: its
// lengths, and its joints.
[[nodiscard]] DataTable MarginTable(const LimitsReport& limits, size_t axle, bool joints,
                                    UnitSystem units);

// Where each of them alone would end it.
[[nodiscard]] DataTable EndsTable(const LimitsReport& limits, size_t axle, UnitSystem units);

}  // namespace linkwright
