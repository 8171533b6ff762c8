// SPDX-License-Identifier: MIT
// What coils and tyres are, told by the scales that a vehicle stood on when it was measured.
#pragma once

#include "solver/model/vehicle.h"

namespace linkwright {

// Sets the free length of every spring marked `weighed`, so that the vehicle that was weighed
// settles where it was measured. By virtual work in the wheels' travel, what stops touching there
// carry and the unsprung mass taken off: with a scale under each wheel each coil its own, with one
// under each axle one length a pair, whose two carry the axle's load in bounce. Bars and strain
// between links count as none. An axle that its links leave free is passed over (length 0):
// PrepareRig refuses that vehicle, and `check` still reports on it.
//   errors   ModelError where an axle with such springs has no ledger or no unsprung mass, or its
//            coils do not shorten as it rises
//   source   docs/theory.md (16)
void ResolveWeighedLengths(Vehicle& vehicle);

// Unloaded radius of both tyres of an axle that makes each stand at its measured height under its
// scale, or under half its axle's [m].
//   vehicle  weighed; the axle's tyre with a rate
//   source   docs/theory.md (109)
[[nodiscard]] std::array<double, 2> RadiiByScales(const Vehicle& vehicle, size_t axle);

// Sets the unloaded radius of tyres that have a rate and none: at which each stands at its measured
// height under its scale, or under half its axle's.
//   errors   ModelError where nothing was weighed
//   source   docs/theory.md (109)
void ResolveTires(Vehicle& vehicle);

}  // namespace linkwright
