// SPDX-License-Identifier: MIT
// Everywhere an axle can get to between its stops and its straps, one wheel up and the other down.
#pragma once

#include "solver/rest/rig.h"

namespace linkwright {

// What holds an axle.
//   members       stops that are no shorter than a length, straps that are no longer
//   bump, droop   of each wheel by itself, left and right, above 0 [m]; absent: only holds end it
struct Holds {
  std::vector<LengthLimit> members;
  std::array<std::optional<double>, 2> bump, droop;
};

struct Reachable {
  std::vector<Eigen::Isometry3d> poses;  // X_CA, the one at rest first
  bool followed = true;                  // false: somewhere the links end it before a hold does
};

// Places all over what the holds leave, from both wheels' travels in 72 directions (every 5 deg,
// up, down and opposite ways among them) out to the first hold; its corners, where one hold hands
// over to another, exactly.
//   start    mean travel of the wheels at rest, against the measured stance [m]
//   source   docs/theory.md (72)
[[nodiscard]] Reachable FindReachable(const RigAxle& axle, double start, const Holds& holds);

// An axle with its wheels' travels at left and right from rest [m]; absent where the links do not
// follow.
[[nodiscard]] std::optional<Eigen::Isometry3d> PoseAtTravels(const RigAxle& axle, double start,
                                                             double left, double right);

}  // namespace linkwright
