// SPDX-License-Identifier: MIT
// The motions of both axles from a stance, as paths of their housings.
#pragma once

#include <cmath>
#include <functional>
#include <optional>

#include "solver/geometry/travel_limits.h"
#include "solver/rest/stance.h"

namespace linkwright {

constexpr double kOneDegree = M_PI / 180.0;  // [rad] steps of a search, not a unit of the interface

enum class MotionKind {
  kBounce,    // every wheel; parameter: their travel, bump + [m]
  kRoll,      // the body rolls on level ground; parameter: body roll, left side up + [rad]
  kOneWheel,  // one wheel moves, three stay; parameter: its travel, bump + [m]
  kCrossed,   // front as in roll at +, rear at -; parameter: that angle [rad]
  kSteer,  // the steering wheel turns at rest, as far as the lock; parameter: the left road wheel's
           // steer, left + [rad]
};

// A motion: the place of axle 0 or 1 at its parameter (a travel [m] or an angle [rad]; 0 is the
// stance), and what besides the axle's own limits may end it there. `refuse` may be empty.
struct AxlePath {
  std::function<AxlePlace(double parameter, size_t axle)> place;
  std::function<std::optional<LimitKind>(double parameter, size_t axle,
                                         const Eigen::Isometry3d& X_CA)>
      refuse;
};

// The motion as a path. The rig must outlive it.
//   start   mean travel of each axle's wheels where the parameter is 0 [m]
//   wheel   of kOneWheel: front left, front right, rear left, rear right
[[nodiscard]] AxlePath PathOf(const Rig& rig, const std::array<double, 2>& start, MotionKind motion,
                              size_t wheel = 0);

// How far a motion is looked into, in its parameter [m] or [rad].
//   far        no axle on the road goes farther
//   step       between places; between two of them a margin bends no more than once
//   real       links that line up beyond, before anything of the file ends the travel, end nothing
//   unlimited  how far it goes where nothing ends it
struct MotionReach {
  double far, step, real, unlimited;
};
[[nodiscard]] MotionReach ReachOf(const Vehicle& vehicle, MotionKind motion);

// The mean travel of each axle's wheels in a stance, where a motion starts; 0 for null [m].
[[nodiscard]] std::array<double, 2> StartOf(const Rig& rig, const Stance* stance);

// Travel between the diagonals: the mean travel of front right and rear left less that of front
// left and rear right, from both housings' poses [m]. source: docs/theory.md (71)
[[nodiscard]] double DiagonalTravel(const Rig& rig, const std::array<Pose, 2>& pose);

// Steer of one road wheel against straight ahead, its knuckle turned by `turn` [rad].
[[nodiscard]] double RoadSteer(const Axle& axle, const AxleFrame& frame,
                               const Eigen::Isometry3d& X_CA, size_t side, double turn);

}  // namespace linkwright
