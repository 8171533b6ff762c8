// SPDX-License-Identifier: MIT
// The tables of `ride`: name, unit, definition and value of each column.
#pragma once

#include "io/write/json.h"
#include "solver/study/ride_study.h"

namespace linkwright {

// What `ride` has found out about a vehicle.
struct RideStudy {
  std::string load;
  RideReport report;
  std::vector<LoadedRide> loads;    // every load of the file, as it is
  std::vector<LoadedRide> payload;  // the chosen load with more and more
};

// "bounce", "front hop": what a mode is called.
[[nodiscard]] std::string ModeName(MotionPart part);

// axles, modes, inertias, loads, payload.
[[nodiscard]] std::vector<NamedTable> RideTables(const Vehicle& vehicle, const RideStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
