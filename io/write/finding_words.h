// SPDX-License-Identifier: MIT
// What a finding says to a person, amounts in the reader's units.
#pragma once

#include "io/units.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// "the rear axle: track bar slopes 12.3 deg from the side at rest, more than 10.0 deg"
[[nodiscard]] std::string Words(const Finding& finding, const Vehicle& vehicle, UnitSystem units);

}  // namespace linkwright
