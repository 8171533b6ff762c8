// SPDX-License-Identifier: MIT
// The answer of `ride`, and its tables: name, unit, definition and value of each column.
#pragma once

#include "io/write/json.h"
#include "solver/study/ride/ride_study.h"

namespace linkwright {

// What `ride` has found out about a vehicle.
struct RideStudy {
  std::string load;
  double sprung_mass = 0.0;  // of it [kg]
  RideReport report;
  std::vector<LoadedRide> loads;                         // every load of the file, as it is
  std::vector<LoadedRide> payload;                       // the chosen load with more and more
  Eigen::Vector3d payload_at = Eigen::Vector3d::Zero();  // its centre, from Co, in C [m]
  bool payload_placed = false;                           // asked for, or over the rear axle
};

// The answer of `ride` in at most eight sentences: each end's frequency, the body's motions and
// their damping, wheel hop, what loads and payload make of it.
[[nodiscard]] std::vector<std::string> RideAnswer(const Vehicle& vehicle, const RideStudy& study,
                                                  UnitSystem units);

// axles, body, modes, modes by textbook, inertias, loads, payload place, payload.
[[nodiscard]] std::vector<NamedTable> RideTables(const Vehicle& vehicle, const RideStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
