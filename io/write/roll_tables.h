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
  std::array<PushEnds, 2> turns;  // tighter and tighter to the left, to the right: shares of 1 g
  std::array<TippingPoint, 2> tipping;  // the same two with nothing giving
  double lateral = 0.0;                 // asked about [m/s2]
  std::optional<double> torque;         // asked about [N m]
  std::vector<TorqueLift> torques;
};

// Whether what happens at a share of 1 g happens as the vehicle stands: then it is told in words,
// for the two decimals of a table would call it 0.00.
[[nodiscard]] inline bool AtOnce(double share_of_g) { return share_of_g < 0.005; }

// vehicle, roll stiffness, roll axis, turn, load transfer, wheels, wheel lift, and with a torque:
// shaft torque.
[[nodiscard]] std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                                 UnitSystem units);

}  // namespace linkwright
