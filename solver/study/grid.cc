// SPDX-License-Identifier: MIT
#include "solver/study/grid.h"

#include <cmath>

namespace linkwright {
namespace {

// One axle one way.
struct OneWay {
  AxleWalk walk;
  std::optional<LimitHit> end;
};

OneWay WalkOneWay(const Rig& rig, size_t axle, const AxlePath& path, const MotionReach& reach,
                  std::optional<double> asked, double sign) {
  const double far = asked ? std::max(sign * *asked, 0.0) : reach.far;
  OneWay way{
      WalkAxle(rig, axle, path,
               {.far = sign * far, .step = reach.step, .watch = Watch::kRows, .to_first = true}),
      std::nullopt};
  const LimitHit* end = asked ? LastRow(way.walk.hits) : FirstEnd(way.walk.hits, reach.real);
  if (end != nullptr) way.end = *end;
  return way;
}

// Where the nearer of both axles ends, as far as rows may go.
double Nearest(const std::array<std::optional<LimitHit>, 2>& ends, double otherwise) {
  double nearest = otherwise;
  for (const std::optional<LimitHit>& end : ends) {
    if (end && std::abs(*end->at) < std::abs(nearest)) nearest = *end->at;
  }
  return nearest;
}

}  // namespace

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

GridWalk WalkToEnds(const Rig& rig, const std::array<double, 2>& start, MotionKind motion,
                    size_t wheel, const GridOptions& options) {
  const AxlePath path = PathOf(rig, start, motion, wheel);
  const MotionReach reach = ReachOf(*rig.vehicle, motion);
  GridWalk walked;
  for (size_t i = 0; i < 2; ++i) {
    OneWay low = WalkOneWay(rig, i, path, reach, options.from, -1.0);
    OneWay high = WalkOneWay(rig, i, path, reach, options.to, 1.0);
    walked.low[i] = std::move(low.walk), walked.high[i] = std::move(high.walk);
    walked.low_end[i] = std::move(low.end), walked.high_end[i] = std::move(high.end);
  }
  const auto any = [](const auto& ends) { return ends[0] || ends[1]; };
  const double first = options.from          ? std::min(*options.from, 0.0)
                       : any(walked.low_end) ? -reach.far
                                             : -reach.unlimited;
  const double last = options.to             ? std::max(*options.to, 0.0)
                      : any(walked.high_end) ? reach.far
                                             : reach.unlimited;
  const double low = Nearest(walked.low_end, first), high = Nearest(walked.high_end, last);
  walked.grid = Grid(options.from.value_or(low), options.to.value_or(high), options);
  constexpr double kSlack = 2e-9;  // [m, rad] a row at an end is a row
  std::erase_if(walked.grid, [&](double s) {
    return s < std::min(0.0, low - kSlack) || s > std::max(0.0, high + kSlack);
  });
  return walked;
}

HousingMotion MotionAt(const Rig& rig, const GridWalk& walked, size_t axle, double parameter) {
  const AxleWalk& walk = (parameter < 0.0 ? walked.low : walked.high)[axle];
  if (parameter == 0.0) return walk.places.front().motion;
  // A row within rounding beyond the last place the links follow to is that place's.
  const std::optional<Pose> pose = PoseOn(rig, walk, parameter);
  return pose ? EvaluateMotion(rig.axles[axle].frame, *pose) : walk.places.back().motion;
}

}  // namespace linkwright
