// SPDX-License-Identifier: MIT
// What ends an axle's travel: dampers at their ends, bound coils, solid stops.
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
};

// One member's distance from its end at a pose.
struct TravelMargin {
  TravelEnd end;
  std::string member;  // display name: "damper left"
  double left;         // what is left before the end, along the member [m]; below 0: past it
};

// Every end that dampers, coils and stops of this axle set, at a pose.
[[nodiscard]] std::vector<TravelMargin> TravelMargins(const Axle& axle, const AxleFrame& frame,
                                                      const Eigen::Isometry3d& X_CA);

// The margin that is past its end by most, more than kEndTolerance; absent where all hold.
constexpr double kEndTolerance = 1e-9;  // [m] so that a row exactly at an end is still a row
[[nodiscard]] std::optional<TravelMargin> PastEnd(const std::vector<TravelMargin>& margins);

// "damper left is fully open"
[[nodiscard]] std::string Describe(const TravelMargin& margin);

}  // namespace linkwright
