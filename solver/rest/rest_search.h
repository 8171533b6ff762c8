// SPDX-License-Identifier: MIT
// The search for a rest: downhill without a push, along Newton's direction from close by under one;
// neither goes over a coil's or a stop's dead point.
#pragma once

#include "solver/rest/rest_balance.h"

namespace linkwright {

struct FoundRest {
  RestState state;
  PerWheel force{};  // of the floor on held wheels [N]
  Held held{};
  bool converged = false;
};

//   start    where to look first; the measured stance where absent
//   source   docs/theory.md (34)
[[nodiscard]] FoundRest SearchRest(const RestQuestion& question, const Stance* start);

// True where a small push comes back: at rest the energy is a minimum. Under a sideways pull, which
// has no energy, the reduced slope's determinant is above 0: followed from the rest, it goes
// through 0 where the vehicle first gives way. Neither hangs on units or datum.
//   source   docs/theory.md (35), (85)
[[nodiscard]] bool IsStable(const RestQuestion& question, const FoundRest& found);

}  // namespace linkwright
