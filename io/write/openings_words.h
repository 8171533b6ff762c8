// SPDX-License-Identifier: MIT
// The answer of `openings` in sentences: where the wheels stand in their openings, what a tyre
// touches first, what centres them, and whether the tyres are clear then.
#pragma once

#include <string>
#include <vector>

#include "io/write/openings_tables.h"

namespace linkwright {

// At most eight.
[[nodiscard]] std::vector<std::string> OpeningsSentences(const Vehicle& vehicle,
                                                         const OpeningsAnswer& answer,
                                                         UnitSystem units);

}  // namespace linkwright
