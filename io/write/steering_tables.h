// SPDX-License-Identifier: MIT
// What `steering` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/steering/steering_report.h"

namespace linkwright {

// For each axle A with a drag link: "A travel", "A roll", "A lock to lock", and where it has a
// track bar "A lines", "A track bar moved"; then "sideways" for both axles.
[[nodiscard]] std::vector<NamedTable> SteeringTables(const Vehicle& vehicle,
                                                     const SteeringReport& report,
                                                     UnitSystem units);

// What centres an axle, and what the file does not allow to be told.
[[nodiscard]] std::vector<std::string> SteeringNotes(const Vehicle& vehicle,
                                                     const SteeringReport& report,
                                                     UnitSystem units);

// Steer of the road wheel by body roll, of one axle in one row [rad/rad]: + into the bend,
// oversteer in front. Absent where it has none.
[[nodiscard]] std::optional<double> SteerPerBodyRoll(const MotionRow& row, size_t axle);

}  // namespace linkwright
