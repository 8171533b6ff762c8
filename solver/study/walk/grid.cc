// SPDX-License-Identifier: MIT
#include "solver/study/walk/grid.h"

#include <cmath>

namespace linkwright {

std::vector<double> Grid(double low, double high, const GridOptions& options) {
  std::vector<double> grid;
  const double step = options.step;
  const double slack = 1e-9 * step;
  const double apart = 1e-6 * step;  // an end nearer to a row than this is that row
  const double first = options.from ? low : std::ceil(low / step - 1e-9) * step;
  if (!options.from && first - low > apart) grid.push_back(low);
  const auto count = static_cast<long>(std::floor((high - first) / step + 1e-9));
  for (long i = 0; i <= count; ++i) {
    const double t = first + static_cast<double>(i) * step;
    grid.push_back(std::abs(t) < slack ? 0.0 : t);
  }
  if (!options.to && (grid.empty() || high - grid.back() > apart)) grid.push_back(high);
  if (std::find(grid.begin(), grid.end(), 0.0) == grid.end()) grid.push_back(0.0);
  std::sort(grid.begin(), grid.end());
  return grid;
}

OneWay WalkOneWay(const Walks& walks, size_t axle, MotionKind motion, size_t wheel,
                  std::optional<double> asked, double sign) {
  constexpr double kSame = 1e-9;  // [m, rad] an end at what was asked for does not come before it
  const MotionReach reach = ReachOf(*walks.rig->vehicle, motion);
  const double far = asked ? std::max(sign * *asked, 0.0) : reach.unlimited;
  const AxleWalk& walk = Walked(walks, axle, motion, wheel, sign, Watch::kRows, asked ? far : 0.0);
  OneWay way{.walk = &walk, .end = std::nullopt, .reached = sign * far};
  const LimitHit* end =
      FirstEnd(walk.hits, Watch::kRows, asked ? std::max(far, reach.real) : reach.real);
  if (end != nullptr && (!asked || std::abs(*end->at) < far - kSame)) {
    way.end = *end, way.reached = *end->at;
  }
  return way;
}

GridWalk WalkToEnds(const Walks& walks, MotionKind motion, size_t wheel,
                    const GridOptions& options) {
  GridWalk walked;
  // Rows go as far as both axles do; one that nothing ends holds none of the other's back.
  const auto nearer = [](const std::array<OneWay, 2>& ways) {
    const bool front = ways[0].end.has_value(), rear = ways[1].end.has_value();
    if (front != rear) return (front ? ways[0] : ways[1]).reached;
    const double a = ways[0].reached, b = ways[1].reached;
    return std::abs(a) <= std::abs(b) ? a : b;
  };
  const auto walk = [&](const std::optional<double>& asked, double sign) {
    return std::array{WalkOneWay(walks, kFront, motion, wheel, asked, sign),
                      WalkOneWay(walks, kRear, motion, wheel, asked, sign)};
  };
  std::array<OneWay, 2> down = walk(options.from, -1.0), up = walk(options.to, 1.0);
  const double low = nearer(down), high = nearer(up);
  walked.grid = Grid(options.from.value_or(low), options.to.value_or(high), options);
  constexpr double kSlack = 2e-9;  // [m, rad] a row at an end is a row
  std::erase_if(walked.grid, [&](double s) {
    return s < std::min(0.0, low - kSlack) || s > std::max(0.0, high + kSlack);
  });
  for (size_t i = 0; i < 2; ++i) {
    walked.low_end[i] = std::move(down[i].end), walked.high_end[i] = std::move(up[i].end);
    walked.low[i] = down[i].walk, walked.high[i] = up[i].walk;
  }
  return walked;
}

HousingMotion MotionAt(const Rig& rig, const GridWalk& walked, size_t axle, double parameter) {
  const AxleWalk& walk = *(parameter < 0.0 ? walked.low : walked.high)[axle];
  if (parameter == 0.0) return walk.places.front().motion;
  // A row within rounding beyond the last place the links follow to is that place's.
  const std::optional<Pose> pose = PoseOn(rig, walk, parameter);
  return pose ? EvaluateMotion(rig.axles[axle].frame, *pose) : walk.places.back().motion;
}

}  // namespace linkwright
