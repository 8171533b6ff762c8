// SPDX-License-Identifier: MIT
// Where the vehicle stands under a load, at rest or in steady cornering: the stationary point of
// its total energy.
#pragma once

#include "solver/rest/stance.h"

namespace linkwright {

// Finds the rest of the vehicle on a level floor.
//   unknowns  height of Co above the floor, the floor normal's two slopes in C, and each axle's
//             height and roll in C, which give the four wheel travels
//   energy    coils, stops, anti-roll bars, link strain, tyres, gravity on body and housings
//   rigid     tyres without a rate hold their wheel centre at its measured height or carry nothing
//   method    Newton's method on the exact balance and its slope, damped where a step does not
//   lower
//             the energy; poses followed by MovePose; no step goes over a stop's dead point
//   push      nothing at rest. In a corner each axle's tyres hold the floor sideways and roll
//             freely, and every mass is pulled outward (85); shaft torque (89)
//   start     where to look first, a stance of the same rig; the measured stance where absent
//   errors    ModelError without sprung mass, unsprung masses or a coil on each axle
//   source    docs/theory.md (32) to (35)
[[nodiscard]] Stance Settle(const Rig& rig, const Load& load, const Push& push = {},
                            const Stance* start = nullptr);

}  // namespace linkwright
