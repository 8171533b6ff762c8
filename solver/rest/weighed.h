// SPDX-License-Identifier: MIT
// Free lengths that follow from the weight the coils were found carrying.
#pragma once

#include "solver/model/vehicle.h"

namespace linkwright {

// Sets the free length of every spring marked `weighed`: one length a pair, at which both coils
// hold up the axle's weighed load less its unsprung mass in the measured stance, by virtual work in
// bounce, so that the weighed vehicle settles where it was measured. An axle that its links leave
// free is passed over (length 0): PrepareRig refuses that vehicle, and `check` still reports on it.
//   errors   ModelError where an axle with such springs has no ledger or no unsprung mass, or its
//   coils
//            do not shorten as it rises
//   source   docs/theory.md (16)
void ResolveWeighedLengths(Vehicle& vehicle);

}  // namespace linkwright
