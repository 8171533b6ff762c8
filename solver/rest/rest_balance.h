// SPDX-License-Identifier: MIT
// The equations of a rest at one state: what is out of balance, how it changes, which wheels are
// held, and the step of Newton's method.
#pragma once

#include <Eigen/LU>
#include <array>
#include <optional>
#include <vector>

#include "solver/rest/total_energy.h"

namespace linkwright {

// What is to come to rest, and under what.
struct RestQuestion {
  const Rig& rig;
  SprungMass sprung;  // with the load
  Push push;
};

// Wheels whose rigid tyre stands on the floor: their centre heights are held.
using Held = std::array<bool, 4>;

struct HeldWheel {
  size_t wheel;
  Height height;  // less the held one [m]
};

[[nodiscard]] std::vector<HeldWheel> HeldWheels(const Rig& rig, const RestState& state,
                                                const Held& held);

// At a rest `work` is what the held wheels do.
struct Balance {
  double energy;  // of TotalEnergy [J]
  RestVector
      work;  // out of balance, per unit of each unknown: the energy's gradient, and cornering
  RestMatrix slope;  // of it; not symmetric in a corner
  std::vector<HeldWheel> wheels;
};

//   source   docs/theory.md (33), (85)
[[nodiscard]] Balance BalanceAt(const RestQuestion& question, const RestState& state,
                                const Held& held = {});

// The seven unknowns per motion that held wheels leave free (7 x n).
//   force   of the floor on them [N]
//   slope   of the balance; loses what their forces do
[[nodiscard]] Eigen::MatrixXd FreeOfHeld(const std::vector<HeldWheel>& wheels,
                                         const PerWheel& force, RestMatrix& slope);

// A step of the unknowns and the floor's force on each held wheel.
struct NewtonStep {
  RestVector step;
  PerWheel force{};
};

// [K -A'; A 0], K the slope less what the held wheels' forces do, with `damping` on its diagonal,
// factorised. source: docs/theory.md (34)
class NewtonSystem {
 public:
  NewtonSystem(const Balance& balance, const PerWheel& force, double damping);

  // [step; force] that takes away what is out of balance, with the held wheels' forces as unknowns.
  [[nodiscard]] NewtonStep Solve(const Balance& balance) const;

 private:
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 11, 11>;
  Eigen::PartialPivLU<Matrix> lu_;
};

// Another state; absent where the links cannot follow or the body leans by more than 30 deg.
[[nodiscard]] std::optional<RestState> Moved(const Rig& rig, const RestState& from,
                                             const RestVector& step);

// A coil or stop that a straight step squeezes most in its middle: it goes over its dead point. So
// does a squeezed cone that goes over the rim of its pad.
struct DeadPoint {
  bool solid;  // squeezed past the end of its curve there: it cannot be passed
};

//   returns   absent where none does; a solid one first
[[nodiscard]] std::optional<DeadPoint> DeadPointBetween(const Rig& rig, const RestState& from,
                                                        const RestState& to);

}  // namespace linkwright
