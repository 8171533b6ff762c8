// SPDX-License-Identifier: MIT
// Which parts and places differ between two states of a vehicle, and what that alone does to where
// the arms hold each axle.
#pragma once

#include <string>
#include <vector>

#include "solver/model/vehicle.h"
#include "solver/pose/axle_frame.h"

namespace linkwright {

enum class DifferenceKind { kPlace, kLength, kRate, kMass, kAngle, kGone, kNew };

// One part or place that both have otherwise, or only one of them has.
struct Difference {
  std::string what;  // "rear lower arm left, frame end"; "rear coil right, free length"
  DifferenceKind kind;
  Eigen::Vector3d moved;  // kPlace: second less first, in C [m]
  double first, second;   // kLength [m], kRate [N/m], kMass [kg], kAngle [rad]
};

struct Differences {
  std::vector<Difference> list;  // places first, the farthest moved first
  // Where the arms hold each housing at its measured height, second less first: x, y [m]; steer,
  // pitch [rad]. 0 where the arms of either cannot be put together.
  std::array<Pose, 2> axle_moved;
};

//   errors   ModelError where an axle cannot be prepared
[[nodiscard]] Differences DifferencesOf(const Vehicle& first, const Vehicle& second);

}  // namespace linkwright
