// SPDX-License-Identifier: MIT
// Walking both axles away from the stance along a motion, until something ends it.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "solver/geometry/steering.h"
#include "solver/rest/stance.h"

namespace linkwright {

// Where a motion puts one axle: height and roll of its housing in C [m, rad].
struct AxlePlace {
  double z, roll;
};

// A motion: the place of axle 0 or 1 at its parameter (a travel [m] or an angle [rad]; 0 is the
// stance), and what besides the axle's own members may end it there: words, or nothing. `refuse`
// may be empty.
struct AxlePath {
  std::function<AxlePlace(double parameter, size_t axle)> place;
  std::function<std::optional<std::string>(double parameter, size_t axle,
                                           const Eigen::Isometry3d& X_CA)>
      refuse;
};

// One axle on its way. Its knuckle, where it steers, must keep within reach of the drag link.
struct Walker {
  const Rig* rig;
  size_t axle;
  const AxlePath* path;
  std::optional<Knuckle> knuckle;
  HousingMotion here;
  double parameter = 0.0;
  double least = 0.0;  // what the member nearest to its end has left here [m]
};

// A walker at parameter 0. errors: ModelError as PrepareKnuckle.
[[nodiscard]] Walker StartWalk(const Rig& rig, size_t axle, const AxlePath& path);

// Moves to a parameter and returns nothing; or stays and says what is in the way: "damper left is
// fully open".
[[nodiscard]] std::optional<std::string> WalkTo(Walker& walker, double parameter);

// Where an axle's travel ends on one side of the stance.
struct SweepEnd {
  double travel;  // the motion's parameter there [m] or [rad]
  size_t axle;
  std::string reason;  // "damper left is fully open"
};

// The first end between the stance and `limit`, by steps and then bisection; absent where the axle
// reaches the limit. A step in which a member could pass its end and come back is halved, so that
// nothing deeper than a tenth of a micrometre is stepped over.
//   step     a spacing at which the axle's place is looked at [m] or [rad]
//   source   docs/theory.md (53a)
[[nodiscard]] std::optional<SweepEnd> FindEnd(Walker walker, double limit, double step);

// Which parameters to report.
struct GridOptions {
  std::optional<double> from, to;  // absent: to the ends of travel
  double step = 0.01;              // above 0
};

// from, from + step, ... up to `to`, with 0 among them, ascending; multiples of the step where an
// end is not asked for, and then that end itself.
//   low, high   the range, options.from and .to where those are given
[[nodiscard]] std::vector<double> Grid(double low, double high, const GridOptions& options);

// The end nearest to the stance, or `unlimited` where there is none.
[[nodiscard]] double Nearest(const std::array<std::optional<SweepEnd>, 2>& ends, double unlimited);

// What is left of a grid between the ends that were found; 0 stays.
[[nodiscard]] std::vector<double> Between(const std::array<std::optional<SweepEnd>, 2>& low,
                                          const std::array<std::optional<SweepEnd>, 2>& high,
                                          std::vector<double> grid);

// Calls `row` with both axles at each parameter of the grid, outward from 0 on each side, until an
// axle stops; returns the rows in ascending order.
template <typename Row>
std::vector<Row> WalkGrid(
    const Rig& rig, const AxlePath& path, const std::vector<double>& grid,
    const std::function<Row(double, const std::array<HousingMotion, 2>&)>& row) {
  std::vector<Row> rows;
  for (const bool up : {false, true}) {
    std::array<Walker, 2> walkers{StartWalk(rig, 0, path), StartWalk(rig, 1, path)};
    std::vector<Row> side;
    for (size_t i = 0; i < grid.size(); ++i) {
      const double parameter = up ? grid[i] : grid[grid.size() - 1 - i];
      if (up ? parameter < 0.0 : parameter >= 0.0) continue;
      const bool stance = parameter == 0.0;  // always reported, whatever may be past its end there
      if (!stance && (WalkTo(walkers[0], parameter) || WalkTo(walkers[1], parameter))) break;
      side.push_back(row(parameter, {walkers[0].here, walkers[1].here}));
    }
    if (up) {
      rows.insert(rows.end(), side.begin(), side.end());
    } else {
      rows.assign(side.rbegin(), side.rend());
    }
  }
  return rows;
}

}  // namespace linkwright
