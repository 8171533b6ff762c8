// SPDX-License-Identifier: MIT
// The tables of `roll`: name, unit, definition and value of each column.
#pragma once

#include "io/write/json.h"
#include "solver/rest/stance_report.h"
#include "solver/study/cornering.h"

namespace linkwright {

// What `roll` has found out about a vehicle under one load.
struct RollStudy {
  Stance rest;
  StanceReport report;
  RollGeometry geometry;
  std::array<RollParts, 2> stiffness;
  std::array<std::optional<CoilSpread>, 2> spread;
  Corner corner;
  std::array<PushLimit, 2> lift;  // growing acceleration to the left, to the right; shares of 1 g
  double stiff_tipping_point = 0.0;  // [m/s2]
  double lateral = 0.0;              // asked about [m/s2]
  std::optional<double> torque;      // asked about [N m]
  std::vector<TorqueLift> torques;
};

// stiffness, roll axis, cornering, wheels, wheel lift, and with a torque: shaft torque.
[[nodiscard]] std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
