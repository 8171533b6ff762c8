// SPDX-License-Identifier: MIT
// What keeps a wanted travel from being had, whatever stop, strap and damper are fitted.
#pragma once

#include "solver/study/travel/limits.h"

namespace linkwright {

// Both above 0 [m]. Absent: that end is neither given nor found.
struct WantedTravel {
  std::optional<double> bump, droop;
};

// Something that ends an axle's travel before the stop and the strap of the advice would, and that
// neither they nor a damper mend.
struct InTheWay {
  size_t axle;
  LimitMotion motion;
  TravelLimit limit;
  double parameter;       // of the motion at which it comes [m] or [rad]
  double at;              // wheel travel at which it comes; crossed, of the wheel that rises [m]
  double wanted;          // the same where the parts of the advice end it [m]
  double short_by;        // above 0 [m]
  std::string load = {};  // that it is so under; empty: geometry only
};

// By axle and way, the soonest first.
//   limits   of the vehicle as it is, from `stance`
//   fitted   the vehicle with the stops and straps of the advice on it
//   stance   as for FindLimits
//   source   docs/theory.md (72)
[[nodiscard]] std::vector<InTheWay> FindInTheWay(const LimitsReport& limits,
                                                 const std::array<WantedTravel, 2>& wanted,
                                                 const Vehicle& fitted, const Stance* stance);

}  // namespace linkwright
