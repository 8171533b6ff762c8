// SPDX-License-Identifier: MIT
// Which parameters of a motion are rows, and both axles walked to them.
#pragma once

#include <algorithm>

#include "solver/study/walk/walks.h"

namespace linkwright {

// Which parameters to report.
struct GridOptions {
  std::optional<double> from, to;   // absent: to the ends of travel
  double step = 0.01;               // above 0
  std::optional<size_t> axle = {};  // rows of this axle alone; absent: of all that are there
  std::vector<double> also = {};    // rows beside these, as far as an axle reaches them
};

// The one axle that rows are of: asked for, or alone there; absent: both.
[[nodiscard]] std::optional<size_t> OneAxleOf(const GridOptions& options, const Vehicle& vehicle);

// from, from + step, ... up to `to`, with 0 among them, ascending; multiples of the step where an
// end is not asked for, and then that end itself.
//   low, high   the range, options.from and .to where those are given
[[nodiscard]] std::vector<double> Grid(double low, double high, const GridOptions& options);

// One axle walked one way to where its rows end.
struct OneWay {
  const AxleWalk* walk = nullptr;  // null: the axle is not there
  std::optional<LimitHit> end;  // absent: nothing in the file, or nothing before what was asked for
  double reached = 0.0;         // the parameter there; MotionReach::unlimited where nothing ends it
};

//   asked   as far as this, whichever side of 0 it is on; absent: to the end. Links that line up
//           beyond MotionReach::real end nothing unless that far is asked for
//   sign    -1 or 1, the way
//   errors  as WalkAxle
[[nodiscard]] OneWay WalkOneWay(const Walks& walks, size_t axle, MotionKind motion, size_t wheel,
                                std::optional<double> asked, double sign);

// The axles that are there walked, each to its own end or as far as is asked.
struct GridWalk {
  MotionKind motion;
  std::array<bool, 2> moves;        // axles that the motion moves; another stays, and ends nothing
  std::array<OneWay, 2> low, high;  // of each axle
  std::vector<double> grid;         // rows that an axle reaches, every axle's ends and 0 among them
  double slack;                     // a row no farther past an end is at it [m] or [rad]
};

//   errors   as WalkAxle
[[nodiscard]] GridWalk WalkToEnds(const Walks& walks, MotionKind motion, size_t wheel,
                                  const GridOptions& options);

// Where one axle is in a row.
struct RowPlace {
  HousingMotion motion;  // past its end: as at its end, gone on rising or falling with the row
  bool past;             // its end lies before this row, or it is not there
  bool folded;           // its links line up here: it has a pose and no slopes
};
[[nodiscard]] RowPlace PlaceIn(const Rig& rig, const GridWalk& walked, size_t axle,
                               double parameter);

}  // namespace linkwright
