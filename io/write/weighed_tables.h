// SPDX-License-Identifier: MIT
// What the weighed readings of a leaf-sprung original come to, in sentences and as tables.
#pragma once

#include "io/write/json.h"
#include "solver/study/file/weigh_original.h"

namespace linkwright {

// The answer of `original` in at most six sentences: design wheelbase, what disagrees, where the
// wheels stood, what nothing checks, what is assumed.
[[nodiscard]] std::vector<std::string> WeighedAnswer(const Vehicle& vehicle,
                                                     const WeighedOriginal& weighed,
                                                     UnitSystem units);

// "design", "readings" and, where there is one, "angle readings"; none where they could not be
// weighed.
[[nodiscard]] std::vector<NamedTable> WeighedTables(const Vehicle& vehicle,
                                                    const WeighedOriginal& weighed,
                                                    UnitSystem units);

// The columns of all three, without rows.
[[nodiscard]] std::vector<NamedTable> AllWeighedTables(const Vehicle& any);

}  // namespace linkwright
