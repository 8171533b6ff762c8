// SPDX-License-Identifier: MIT
// What steady cornering does to a rest: every mass is pulled outward, and each axle's tyres hold
// the floor along its own lateral direction.
#pragma once

#include "solver/rest/total_energy.h"

namespace linkwright {

// Work per unit of each of the seven unknowns, of the sign of an energy's gradient, and its exact
// slope, which is not symmetric: a side force is no gradient, for a tyre takes hold of another
// point of the housing as the axle leans.
struct CorneringPull {
  RestVector work = RestVector::Zero();
  RestMatrix slope = RestMatrix::Zero();
};

//   lateral   acceleration to the left [m/s2]
//   source    docs/theory.md (84), (85)
[[nodiscard]] CorneringPull PullOfCorner(const Rig& rig, const SprungMass& sprung,
                                         const RestState& state, double lateral);

}  // namespace linkwright
