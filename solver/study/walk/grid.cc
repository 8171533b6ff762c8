// SPDX-License-Identifier: MIT
#include "solver/study/walk/grid.h"

#include <cmath>

namespace linkwright {
namespace {

bool Moves(const Vehicle& vehicle, MotionKind motion, size_t wheel, size_t axle) {
  if (!IsThere(vehicle, axle)) return false;
  if (motion == MotionKind::kOneWheel) return wheel / 2 == axle;
  if (motion == MotionKind::kSteer) return vehicle.axles[axle].steering.has_value();
  return true;
}

// A row more, unless one is there or it is outside what was asked for.
void AddRow(double s, const GridOptions& options, double slack, std::vector<double>& grid) {
  if ((options.from && s < *options.from) || (options.to && s > *options.to)) return;
  const auto after = std::lower_bound(grid.begin(), grid.end(), s);
  if (after != grid.end() && *after - s <= slack) return;
  if (after != grid.begin() && s - *std::prev(after) <= slack) return;
  grid.insert(after, s);
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

std::optional<size_t> OneAxleOf(const GridOptions& options, const Vehicle& vehicle) {
  return options.axle ? options.axle : vehicle.only_axle;
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
  GridWalk walked{.motion = motion,
                  .moves = {},
                  .low = {},
                  .high = {},
                  .grid = {},
                  .slack = std::max(2e-9, 1e-6 * options.step)};
  // As far as the farthest; one that nothing ends goes at least as far as the other's end.
  double low = 0.0, high = 0.0;
  for (const size_t i : AxlesOf(*walks.rig->vehicle)) {
    walked.low[i] = WalkOneWay(walks, i, motion, wheel, options.from, -1.0);
    walked.high[i] = WalkOneWay(walks, i, motion, wheel, options.to, 1.0);
    walked.moves[i] = options.axle.value_or(i) == i && Moves(*walks.rig->vehicle, motion, wheel, i);
    if (!walked.moves[i]) continue;
    low = std::min(low, walked.low[i].reached), high = std::max(high, walked.high[i].reached);
  }
  for (const size_t i : AxlesOf(*walks.rig->vehicle)) {
    if (!walked.low[i].end) walked.low[i].reached = std::min(low, walked.low[i].reached);
    if (!walked.high[i].end) walked.high[i].reached = std::max(high, walked.high[i].reached);
  }
  walked.grid = Grid(options.from.value_or(low), options.to.value_or(high), options);
  std::erase_if(walked.grid,
                [&](double s) { return s < low - walked.slack || s > high + walked.slack; });
  for (const double s : options.also) {
    if (s >= low && s <= high) AddRow(s, options, walked.slack, walked.grid);
  }
  for (size_t i = 0; i < 2; ++i) {
    if (!walked.moves[i]) continue;
    for (const OneWay* way : {&walked.low[i], &walked.high[i]}) {
      if (way->end) AddRow(*way->end->at, options, walked.slack, walked.grid);
    }
  }
  return walked;
}

RowPlace PlaceIn(const Rig& rig, const GridWalk& walked, size_t axle, double parameter) {
  if (!IsThere(*rig.vehicle, axle)) return {.motion = {}, .past = true, .folded = false};
  const OneWay& way = (parameter < 0.0 ? walked.low : walked.high)[axle];
  const AxleFrame& frame = rig.axles[axle].frame;
  if (parameter == 0.0) return {way.walk->places.front().motion, false, false};
  const double beyond = std::abs(parameter) - std::abs(way.reached);
  const bool links = way.end && way.end->limit.id.kind == LimitKind::kLinksStraight;
  RowPlace place{.motion = way.walk->places.back().motion,
                 .past = way.end && walked.moves[axle] && beyond > walked.slack,
                 .folded = links && std::abs(beyond) <= walked.slack};
  const double at = place.past ? way.reached : parameter;
  // A row within rounding beyond the last place the links follow to is that place's.
  if (const auto pose = PoseOn(rig, *way.walk, at)) place.motion = EvaluateMotion(frame, *pose);
  if (place.past && walked.motion == MotionKind::kBounce) {
    place.motion.pose.z += parameter - way.reached;
    place.motion.p[2].v += parameter - way.reached;
  }
  return place;
}

}  // namespace linkwright
