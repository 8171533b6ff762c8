// SPDX-License-Identifier: MIT
// Where each axle's travel ends, by which member, and how much all the others have left there.
#pragma once

#include "solver/study/walk/walks.h"

namespace linkwright {

// Which way an axle goes from its stance. Crossed: the front housing rolls by the angle, the rear
// one the other way, as in MotionKind::kCrossed.
enum class LimitMotion { kBump, kDroop, kCrossUp, kCrossDown };
[[nodiscard]] bool IsCrossed(LimitMotion motion);

// Of the wheel that rises while the other falls as far, an axle crossed by an angle [rad] [m].
[[nodiscard]] double WheelTravelCrossed(const Rig& rig, size_t axle, double angle);

// One axle, one way.
struct AxleLimit {
  size_t axle;
  LimitMotion motion;
  std::optional<size_t> ended_by;  // index into hits; absent: nothing in the file ends it
  double parameter;     // where it ends [m] or [rad]; where nothing does, as far as it was walked
  double wheel_travel;  // as in LimitHit [m]
  std::vector<LimitHit> hits;  // as in AxleWalk
};

// Both axles crossed one way: the first of them to end stops both. Of an axle that is there alone,
// its own crossing; there are no diagonals then.
struct CrossedLimit {
  double angle;                        // [rad]
  std::optional<size_t> first;         // axle that ends it; absent: none
  std::array<double, 2> wheel_travel;  // of each axle at that angle, one wheel up, one down [m]
  double diagonal_travel;              // of the two wheels that rise against the two that fall [m]
  std::array<AxleLimit, 2> axles;      // each by itself, its `left` at `angle`
};

// Of an axle that is not there nothing is of meaning.
struct LimitsReport {
  std::array<std::array<AxleLimit, 2>, 2> bounce;  // front, rear; bump, droop
  std::array<CrossedLimit, 2> crossed;             // angle above 0, below 0
};

// Every limit about a stance, each axle from the mean of its two wheels' travels as in SweepBounce.
//   ends     the first that runs out of: links that line up, any limit that is not passed; links
//            alone beyond MotionReach::real end nothing
//   errors   ModelError as PrepareKnuckle. source: docs/theory.md (70), (71)
[[nodiscard]] LimitsReport FindLimits(const Walks& walks);

}  // namespace linkwright
