// SPDX-License-Identifier: MIT
// A resting position: what a settle returns and what everything after it reads.
#pragma once

#include <string>

#include "solver/rest/rig.h"

namespace linkwright {

enum class StanceStatus {
  kRests,     // stationary, stable, every member within its ends
  kPastEnd,   // stationary only with a stop, coil, damper or strap holding at its end
  kUnstable,  // stationary, but the energy is no minimum there: it would fall over or wind down
  kNotFound,  // no stationary point within kMostIterations
};

// Wheel order everywhere: front left, front right, rear left, rear right.
using PerWheel = std::array<double, 4>;

// What acts on the vehicle beside its weight.
struct Push {
  double lateral = 0.0;  // steady acceleration to the left [m/s2]
  // Torque that a shaft puts on each axle's pinion, and the reverse on the body: + presses the left
  // wheel down [N m].
  std::array<double, 2> shaft_torque{};
  // A stance in which dampers, coils, stops or straps hold at their ends counts as a rest, so that
  // a push can be followed beyond the first of them; else it is none (kPastEnd).
  bool ends_hold = false;
};

struct Stance {
  StanceStatus status = StanceStatus::kNotFound;
  std::string message;   // empty where it rests; else what is wrong, for a person
  std::string load;      // name of the load
  Push push;             // under which it was settled
  SprungMass sprung;     // with the load
  double heave = 0.0;    // height of Co above the floor [m]
  Eigen::Vector3d up_C;  // the floor's normal, in C (unit)
  std::array<HousingMotion, 2> motion;
  PerWheel wheel_load{};    // vertical, floor on tyre [N]
  PerWheel wheel_height{};  // of the wheel centre above the floor: the loaded radius [m]
};

// Height of a point of C above the level floor [m].
[[nodiscard]] double HeightAboveFloor(const Stance& stance, const Eigen::Vector3d& p_C);

// Mean loaded radius of an axle's two tyres [m].
[[nodiscard]] double LoadedRadius(const Stance& stance, size_t axle);

// Horizontal direction that the chassis x axis points in, in C (unit).
[[nodiscard]] Eigen::Vector3d Heading(const Stance& stance);

// Elevation of the chassis x axis, nose up +, and of its y axis, left side up + [rad].
[[nodiscard]] double Rake(const Stance& stance);
[[nodiscard]] double Roll(const Stance& stance);

}  // namespace linkwright
