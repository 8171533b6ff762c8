// SPDX-License-Identifier: MIT
// What ends an axle's travel: dampers at their ends, bound coils, solid stops, straps; and what
// else runs out on the way.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/pose/motion.h"

namespace linkwright {

enum class TravelEnd {
  kDamperClosed,   // at its shortest
  kDamperOpen,     // at its longest
  kCoilBound,      // at its solid length, or past the last point of its curve
  kStopSolid,      // past the last point of its curve
  kLinksStraight,  // the links cannot follow
  kDragLinkOutOfReach,
  kStrapTaut,  // at its length
  // Below: watched by `limits`; they end no row of a sweep.
  kCoilUnseated,   // longer than its free length
  kJointAtLimit,   // a link's joint at its misalignment limit
  kShaftBottomed,  // its spline pushed home
  kShaftParted,    // its spline pulled out
  kTireOnLip,      // the tyre at its opening's lip
  kTireOnPanel,    // the tyre at its inner panel
};

// One member's distance from its end at a pose.
struct TravelMargin {
  TravelEnd end;
  std::string member;  // display name: "damper left"
  double
      left;  // what is left before the end, along the member [m]; of a joint [rad]; below 0: past
  bool event = false;  // passed on the way and reported, but no end of travel
};

// Every end that dampers, coils, stops and straps of this axle set, at a pose.
[[nodiscard]] std::vector<TravelMargin> TravelMargins(const Axle& axle, const AxleFrame& frame,
                                                      const Eigen::Isometry3d& X_CA);

// The other ends: the drag link's reach, coils off their seats, joints with a limit, splines and
// tyres.
//   events   a coil without keep_seated is an event, everything else an end
//   tires    whether the tyres are looked at: with the steering wheel held, where the axle has a
//            drag link
//   errors   ModelError as PrepareKnuckle. source: docs/theory.md (70)
[[nodiscard]] std::vector<TravelMargin> WatchedMargins(const Vehicle& vehicle, size_t axle,
                                                       const AxleFrame& frame,
                                                       const Eigen::Isometry3d& X_CA,
                                                       bool tires = true);

// Whether a kind of margin is an angle [rad] and no length.
[[nodiscard]] bool IsAngle(TravelEnd end);

// The margin that is past its end by most, more than kEndTolerance; absent where all hold.
constexpr double kEndTolerance = 1e-9;  // [m] so that a row exactly at an end is still a row
[[nodiscard]] std::optional<TravelMargin> PastEnd(const std::vector<TravelMargin>& margins);

// "damper left is fully open"
[[nodiscard]] std::string Describe(const TravelMargin& margin);

}  // namespace linkwright
