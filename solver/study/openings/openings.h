// SPDX-License-Identifier: MIT
// How near each tyre comes to its opening over everything its axle can do.
#pragma once

#include "solver/geometry/tire_clearance.h"
#include "solver/study/curves/motions.h"

namespace linkwright {

enum class TireMotion { kRest, kBounce, kRoll, kCrossed, kOneWheel };
inline constexpr std::array kTireMotions{TireMotion::kRest, TireMotion::kBounce, TireMotion::kRoll,
                                         TireMotion::kCrossed, TireMotion::kOneWheel};

// Whether its parameter is an angle [rad] and no length.
[[nodiscard]] inline bool IsAngular(TireMotion motion) {
  return motion == TireMotion::kRoll || motion == TireMotion::kCrossed;
}

enum class Surface { kLip, kPanel };

// A tyre at its nearest in one motion.
struct NearestTire {
  TireGap gap;
  TireMotion motion;
  double parameter;             // of the motion [m] or [rad]
  double wheel_travel;          // of this wheel, from the stance [m]
  std::optional<double> steer;  // of the wheel inside the bend, left + [rad]; absent: steering held
};

// One tyre against one surface. In the order of kTireMotions; absent where the motion is not to be
// had: `turned` without a lock.
struct TireClearance {
  size_t axle, side;  // side: 0 left, 1 right
  Surface surface;
  std::array<std::optional<NearestTire>, 5> held, turned;
};

// The least of all its motions; null where none could be had.
[[nodiscard]] const NearestTire* LeastOf(const TireClearance& clearance);

// One wheel in its opening at rest.
struct WheelInOpening {
  size_t axle, side;
  double ahead, up;  // hub against the opening's centre, chassis axes [m]
  TapeGaps tape;
};

// What ends a motion: of either axle, where both take part in it.
struct SweptEnd {
  double at;  // the motion's parameter [m] or [rad]
  size_t axle;
  TravelLimit limit;
};

// How far one motion was swept for one axle.
struct SweptRange {
  TireMotion motion;
  double low, high;                                 // parameter [m] or [rad]
  std::array<std::optional<SweptEnd>, 2> ended_by;  // low, high; absent: nothing in the file does
};

struct OpeningsReport {
  std::array<TireShape, 2> tires;
  std::array<std::optional<double>, 2> lock;        // used, of each axle [rad]; absent: not steered
  std::array<bool, 2> steer_refused{false, false};  // a tie rod could not follow somewhere
  std::array<std::vector<SweptRange>, 2> ranges;    // of each axle with an opening
  std::vector<WheelInOpening> wheels;
  std::vector<TireClearance> clearances;
};

// Every wheel that has an opening, about the stance a sweep starts from.
//   lock     steer of the wheel inside the bend [rad]; absent: Steering::lock. An axle is steered
//            where it has kingpin.at and a lock
//   ranges   to the first end as FindLimits has it, tyres left out, of either axle that is there in
//            roll and crossed, of its own in bounce and one wheel; 100 mm or 10 deg where nothing
//            ends it
//   errors   ModelError as PrepareKnuckle. source: docs/theory.md (74) to (77)
[[nodiscard]] OpeningsReport SweepOpenings(const Walks& walks, std::optional<double> lock);

}  // namespace linkwright
