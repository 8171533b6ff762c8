// SPDX-License-Identifier: MIT
// How the vehicle stands in a corner and under shaft torque: the equilibrium itself beside the
// handbook's sums, and what happens as either grows.
#pragma once

#include <optional>

#include "solver/rest/roll.h"
#include "solver/rest/stance_report.h"
#include "solver/study/ride/push_ends.h"

namespace linkwright {

// Steady cornering at one lateral acceleration.
struct Corner {
  Stance stance;  // with members holding at their ends; status may be other than kRests: then only
                  // its message counts
  std::optional<std::string>
      at_end;  // the member furthest past its end, "front damper left is ..."
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

// Where the vehicle would go over with nothing giving: standing as at rest, about the line through
// both outer wheels' loads. g times how far inside it the centre of mass stands, over its height.
struct TippingPoint {
  double inside;  // centre of mass to the line, sideways [m]
  double height;  // of the centre of mass above the floor [m]
  // [m/s2], above 0; absent where the centre stands on the floor or below, or not inside the line:
  // then no turn, or none at all, does it
  std::optional<double> lateral;
};

//   left_turn   over the right wheels, or over the left ones
//   source      moments about the line; docs/theory.md (88)
[[nodiscard]] TippingPoint StiffTippingPoint(const Rig& rig, const Stance& rest, bool left_turn);

// A turn that gets tighter until the vehicle can stand no longer, or up to 2 g, which no tyre
// holds.
//   returns   shares of 1 g
constexpr double kMostLateralInG = 2.0;
[[nodiscard]] PushEnds TightenTurn(const Rig& rig, const Load& load, const Stance& rest,
                                   bool left_turn);

// Torque in the shaft to one axle.
struct TorqueLift {
  size_t axle = 0;
  Stance stance;                     // as in Corner
  std::array<double, 2> moved{};     // by each axle, from right to left + [N]
  std::array<double, 2> handbook{};  // [N]
  std::array<double, 2> share{};     // of the body's reaction that each axle takes [-]
  double body_roll = 0.0;            // against the rest, left side up + [rad]
  PushEnds ends;                     // shares of the torque asked about
};

//   torque   on the pinion, + presses the left wheel down [N m]
//   source   [Gillespie] ch. 2; docs/theory.md (89), (90)
[[nodiscard]] TorqueLift LiftByTorque(const Rig& rig, const Load& load, const Stance& rest,
                                      size_t axle, double torque);

// Axles that a shaft drives: those of the file's driveshafts, else those with a share of the drive.
[[nodiscard]] std::vector<size_t> DrivenAxles(const Vehicle& vehicle);

// What has been found out about a vehicle under one load.
struct RollStudy {
  Stance rest;
  StanceReport report;
  RollGeometry geometry;
  std::array<RollParts, 2> stiffness;
  std::array<std::optional<CoilSpread>, 2> spread;
  Corner corner;
  std::array<PushEnds, 2> turns;  // tighter and tighter to the left, to the right: shares of 1 g
  std::array<TippingPoint, 2> tipping;  // the same two with nothing giving
  double lateral = 0.0;                 // asked about [m/s2]
  std::optional<double> torque;         // asked about [N m]
  std::vector<TorqueLift> torques;      // of the driven axles
};

//   rest      under the load, kRests
//   lateral   other than 0 [m/s2];  torque   the same, on every pinion [N m]
[[nodiscard]] RollStudy StudyRoll(const Rig& rig, const Load& load, const Stance& rest,
                                  double lateral, std::optional<double> torque);

// Whether what happens at a share of 1 g happens as the vehicle stands: then it is told in words,
// for the two decimals of a table would call it 0.00.
[[nodiscard]] inline bool AtOnce(double share_of_g) { return share_of_g < 0.005; }

}  // namespace linkwright
