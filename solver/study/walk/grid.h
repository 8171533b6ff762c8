// SPDX-License-Identifier: MIT
// Which parameters of a motion are rows, and both axles walked to them.
#pragma once

#include <algorithm>

#include "solver/study/walk/walks.h"

namespace linkwright {

// Which parameters to report.
struct GridOptions {
  std::optional<double> from, to;  // absent: to the ends of travel
  double step = 0.01;              // above 0
};

// from, from + step, ... up to `to`, with 0 among them, ascending; multiples of the step where an
// end is not asked for, and then that end itself.
//   low, high   the range, options.from and .to where those are given
[[nodiscard]] std::vector<double> Grid(double low, double high, const GridOptions& options);

// One axle walked one way to where its rows end.
struct OneWay {
  const AxleWalk* walk;
  std::optional<LimitHit> end;  // absent: nothing in the file, or nothing before what was asked for
  double reached;               // the parameter there; MotionReach::unlimited where nothing ends it
};

//   asked   as far as this, whichever side of 0 it is on; absent: to the end. Links that line up
//           beyond MotionReach::real end nothing unless that far is asked for
//   sign    -1 or 1, the way
//   errors  as WalkAxle
[[nodiscard]] OneWay WalkOneWay(const Walks& walks, size_t axle, MotionKind motion, size_t wheel,
                                std::optional<double> asked, double sign);

// Both axles walked to where rows end, or as far as is asked.
struct GridWalk {
  std::array<const AxleWalk*, 2> low, high;        // of each axle
  std::array<std::optional<LimitHit>, 2> low_end,  // what ends it; absent: nothing in the file,
      high_end;                                    // or nothing before what was asked for
  std::vector<double> grid;                        // rows that both axles reach; 0 among them
};

// Both axles as WalkOneWay has them. errors: as WalkAxle
[[nodiscard]] GridWalk WalkToEnds(const Walks& walks, MotionKind motion, size_t wheel,
                                  const GridOptions& options);

// Where one axle is at a parameter of the grid.
[[nodiscard]] HousingMotion MotionAt(const Rig& rig, const GridWalk& walked, size_t axle,
                                     double parameter);

}  // namespace linkwright
