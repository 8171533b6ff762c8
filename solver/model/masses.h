// SPDX-License-Identifier: MIT
// The masses' own sums: ledger to sprung mass, loads added, axle loads as weighed.
#pragma once

#include "solver/model/vehicle.h"

namespace linkwright {

constexpr double kStandardGravity = 9.80665;  // [m/s2] exact, CGPM 1901

// True where the file says nothing of the sprung mass.
[[nodiscard]] bool IsGeometryOnly(const Vehicle& vehicle);

// Mass and centre of the vehicle as it was weighed: corners at the wheel centres' x and y [kg, m in
// C].
[[nodiscard]] Mass WeighedTotal(const Vehicle& vehicle, const Ledger& ledger);

// The finished sprung mass without loads: as given, or weighed - removed + added - both unsprung.
//   errors   ModelError where neither is given or the sum is not positive
//   source   DESIGN of the vehicle file (docs/vehicle-file.md, ledger); docs/theory.md (13)
[[nodiscard]] SprungMass FinishedSprungMass(const Vehicle& vehicle);

// The same with a load's items added: mass, centre and, where given, pitch and roll inertia about
// the new centre by the parallel-axis rule. source: docs/theory.md (14)
[[nodiscard]] SprungMass WithLoad(const SprungMass& sprung, const Load& load);

}  // namespace linkwright
