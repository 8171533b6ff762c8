// SPDX-License-Identifier: MIT
// Findings of a vehicle file as lines for a person.
#pragma once

#include "io/read/vehicle_file.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// Those past their aims, each "look at this: ...", then those that are judged and well.
[[nodiscard]] std::vector<std::string> LinesOf(const std::vector<Finding>& findings,
                                               const Vehicle& vehicle, UnitSystem units);

[[nodiscard]] bool AnyPast(const std::vector<Finding>& findings);

// Whether `check` would find anything to look at: what --strict of the other commands asks too.
[[nodiscard]] bool IsAnythingAmiss(const VehicleFile& file);

}  // namespace linkwright
