// SPDX-License-Identifier: MIT
// Roots of functions of one number that may be undefined in places.
#pragma once

#include <functional>
#include <optional>

namespace linkwright {

// Absent where the function is not defined: the links do not reach, no position is found.
using MaybeFunction = std::function<std::optional<double>(double)>;

// Two places between which a function changes its sign, and its values there.
struct SignChange {
  double above, f_above;  // f_above > 0
  double below, f_below;  // f_below <= 0
};

// Closes a change of sign until its two places are no further apart than `met`. It needs no more
// than about twice as many values as halving would, however the slopes differ on the two sides of
// the root.
//   undefined  where the function is not defined at a place, the next is nearer to the place above:
//              what is looked for is the end of what holds, and what holds is defined
//   returns    the closed change, twice the same place where that is the root itself; its two
//              places are further apart than `met` only where nothing between them was defined
//   source     [Chandrupatla], inverse quadratic interpolation where it is safe, halving elsewhere
[[nodiscard]] SignChange CloseIn(const MaybeFunction& f, const SignChange& wide, double met);

// The farthest place from `in` toward `out` at which something holds, to `met`: it does at `in`,
// not at `out`, and changes once between them. By halving, for it has no measure.
[[nodiscard]] double LastThatHolds(double in, double out, double met,
                                   const std::function<bool(double)>& holds);

}  // namespace linkwright
