// SPDX-License-Identifier: MIT
// Statics of a vehicle at rest, written from forces and moments alone: what a stance is held
// against.
#pragma once

#include "solver/rest/stance.h"

namespace linkwright::check {

// What is left over when all weights and wheel loads are added up on the floor.
struct Imbalance {
  double force;               // along the floor's normal [N]
  double moment_x, moment_y;  // about the floor's axes through the floor point under Co [N m]
};

[[nodiscard]] Imbalance OfWholeVehicle(const Rig& rig, const Stance& stance);

// The greatest force [N] or moment [N m] left on a housing once its four links take the forces that
// fit best: weight, coils, stops, anti-roll bar and wheel loads. Four links have four forces for
// six equations, so two of them test the stance. Only for axles of four links.
[[nodiscard]] double LeftOnHousing(const Rig& rig, const Stance& stance, size_t axle);

}  // namespace linkwright::check
