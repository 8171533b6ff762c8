// SPDX-License-Identifier: MIT
// How the vehicle stands in a corner and under shaft torque: the equilibrium itself beside the
// handbook's sums, and the push at which the first wheel comes off the floor.
#pragma once

#include <optional>

#include "solver/rest/roll.h"

namespace linkwright {

enum class LimitKind {
  kWheelLifts,     // a wheel carries nothing any more
  kTravelEnds,     // a damper, coil or stop is at its end
  kNoEquilibrium,  // it finds no standing position: it goes over
  kNotReached,     // none of these up to where it was looked for
};

// The first thing that happens as a push grows.
struct PushLimit {
  LimitKind kind = LimitKind::kNotReached;
  double share = 0.0;      // of the push asked about at which it happens [-]
  size_t wheel = 0;        // of kWheelLifts, 0 to 3
  bool goes_over = false;  // of kWheelLifts: no position is found beyond it
  std::string message;     // of kTravelEnds and kNoEquilibrium, for a person
};

// Where a growing push ends.
//   rest     under the load, kRests;  most  shares are looked at up to here
//   returns  share met to kShareMet; each equilibrium a nonlinear solve
//   source   docs/theory.md (88)
constexpr double kShareMet = 1e-9;  // of `most`
[[nodiscard]] PushLimit FindLimit(const Rig& rig, const Load& load, const Push& push, double most);

// Steady cornering at one lateral acceleration.
struct Corner {
  Stance stance;  // status may be other than kRests: then only its message counts
  // Moved from left to right by each axle against the rest, half the change of the difference [N].
  std::array<double, 2> moved{};
  std::optional<std::array<HandbookTransfer, 2>> handbook;  // absent where the weight overturns
  double body_roll = 0.0;               // against the rest, left side up + [rad]
  std::optional<double> handbook_roll;  // [rad]
  std::array<double, 2> axle_steer{};   // against the chassis and the rest, left + [rad]
};

//   source   docs/theory.md (85) to (87)
[[nodiscard]] Corner TakeCorner(const Rig& rig, const Load& load, const Stance& rest,
                                double lateral);

// The acceleration at which the first wheel lifts with every mass on one stiff body on stiff tyres:
// half the lesser track over the height of the centre of mass [m/s2].
[[nodiscard]] double StiffTippingPoint(const Rig& rig, const Stance& rest);

// Torque in the shaft to one axle.
struct TorqueLift {
  size_t axle = 0;
  Stance stance;                     // as in Corner
  std::array<double, 2> moved{};     // by each axle, from right to left + [N]
  std::array<double, 2> handbook{};  // [N]
  std::array<double, 2> share{};     // of the body's reaction that each axle takes [-]
  double body_roll = 0.0;            // against the rest, left side up + [rad]
  PushLimit limit;                   // shares of the torque asked about
};

//   torque   on the pinion, + presses the left wheel down [N m]
//   source   [Gillespie] ch. 2; docs/theory.md (89), (90)
[[nodiscard]] TorqueLift LiftByTorque(const Rig& rig, const Load& load, const Stance& rest,
                                      size_t axle, double torque);

// Axles that a shaft drives: those of the file's driveshafts, else those with a share of the drive.
[[nodiscard]] std::vector<size_t> DrivenAxles(const Vehicle& vehicle);

}  // namespace linkwright
