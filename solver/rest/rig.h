// SPDX-License-Identifier: MIT
// A vehicle prepared for solving: frames, motions in the measured stance, springs.
#pragma once

#include "solver/pose/motion.h"
#include "solver/pose/solve.h"
#include "solver/rest/axle_energy.h"

namespace linkwright {

struct RigAxle {
  AxleFrame frame;
  HousingMotion measured;  // at the measured height and roll, where the arms as they are hold it
  std::vector<Pusher> pushers;
  std::vector<LengthLimit> ends;
  // Centre of its unsprung mass, from Ao, in A [m]; of no meaning where the axle has none.
  Eigen::Vector3d p_AM = Eigen::Vector3d::Zero();
};

// Refers to the vehicle it was made from, which must outlive it.
struct Rig {
  const Vehicle* vehicle;
  std::array<RigAxle, 2> axles;  // of one that is not there nothing is of meaning
};

// errors: ModelError where an axle's links leave it free to move, or fight one another so hard that
// it cannot move in bounce or roll (solver/pose/freedom.h).
[[nodiscard]] Rig PrepareRig(const Vehicle& vehicle);

// The whole vehicle, unsprung masses where they stand: its mass and its centre in C.
[[nodiscard]] Mass WholeMass(const Rig& rig, const SprungMass& sprung,
                             const std::array<HousingMotion, 2>& motion);

}  // namespace linkwright
