// SPDX-License-Identifier: MIT
// Everything that a vehicle file gives cause to point at, whichever command it belongs to.
#pragma once

#include "io/read/vehicle_file.h"
#include "io/write/check_tables.h"

namespace linkwright {

// What `check` names: its own report's findings, then those of the finished vehicle, its shafts and
// its steering, each as far as the file can be prepared and stands.
//   cures    with what would mend; without, the same warnings in shorter words
//   errors   InputErrors where the solver refuses the vehicle's frames
[[nodiscard]] std::vector<Finding> AllFindings(const VehicleFile& file, const CheckReport& report,
                                               UnitSystem units, bool cures = true);

// What every note that is to be looked at begins with.
constexpr const char* kLookAtThis = "look at this: ";

// "look at this: 2 things in the file may be wrong; ..."; empty where nothing is pointed at.
[[nodiscard]] std::string CountFindings(const VehicleFile& file);

}  // namespace linkwright
