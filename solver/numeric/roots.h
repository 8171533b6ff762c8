// SPDX-License-Identifier: MIT
// Roots of functions that may be undefined in places.
#pragma once

#include <Eigen/Core>
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

// The secant rule, where no change of sign is known.
struct SecantSearch {
  double first, second;  // where it begins; the second is judged first
  double met;            // |f| that is near enough to 0
  double longest;        // step from one place to the next
  double most;           // |x|; where a place beyond is asked for, the end is tried instead
};

//   returns  where |f| is met, and f was asked last; absent where it is not defined on the way,
//   asks
//            again for more than `most`, or comes to a stand
[[nodiscard]] std::optional<double> SecantRoot(const MaybeFunction& f, const SecantSearch& search);

// Several functions of as many numbers.
using MaybeVectorFunction = std::function<std::optional<Eigen::VectorXd>(const Eigen::VectorXd&)>;

// Where x + f(x) is x again, to |f| < met: Broyden's method, begun as a plain repetition.
//   returns  the root, for which f was asked last; absent where f is not defined on the way, or in
//            40 steps none is found
[[nodiscard]] std::optional<Eigen::VectorXd> BroydenRoot(const MaybeVectorFunction& f,
                                                         Eigen::VectorXd x, double met);

}  // namespace linkwright
