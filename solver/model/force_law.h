// SPDX-License-Identifier: MIT
// What a coil or a stop pushes at a length, and the energy it holds.
#pragma once

#include "solver/model/vehicle.h"

namespace linkwright {

// A force law at one length.
//   force   push on both seats, never negative [N]
//   rate    -d force / d length [N/m]; at a corner of the curve, that of the side further in
//   energy  stored since the free length [J]
struct LawState {
  double force;
  double rate;
  double energy;
};

// Evaluates a law at a length [m]. Beyond the last point of a curve the last line goes on, so that
// a solve can pass through; callers refuse such a length by SolidBeyond. source: docs/theory.md
// (11)
[[nodiscard]] LawState Evaluate(const ForceLaw& law, double length);

// Length below which the law is solid: the last point of its curve [m]. Zero for a linear law,
// whose seats would have to meet first.
[[nodiscard]] double SolidBelow(const ForceLaw& law);

// Length at which a coil is bound [m]: its solid length or the last point of its curve, whichever
// comes first as it is squeezed. Absent: neither is given.
[[nodiscard]] std::optional<double> BoundLength(const Spring& spring);

// Rate of a round-wire helical compression coil, G d^4 / (8 D^3 n) [N/m].
// source: EN 13906-1, rate of a cylindrical compression spring; docs/theory.md (12)
[[nodiscard]] double HelicalRate(const CoilWire& wire);

}  // namespace linkwright
