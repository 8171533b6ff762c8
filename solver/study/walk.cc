// SPDX-License-Identifier: MIT
#include "solver/study/walk.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/geometry/travel_limits.h"

namespace linkwright {
namespace {

constexpr double kEndFound = 1e-10;  // [m, rad] bisection stops

// What the member nearest to its end has left, the drag link among them [m].
double LeastLeft(const Walker& walker, const std::vector<TravelMargin>& margins,
                 const Eigen::Isometry3d& X_CA) {
  double least = std::numeric_limits<double>::infinity();
  for (const TravelMargin& margin : margins) least = std::min(least, margin.left);
  if (walker.knuckle) least = std::min(least, ReachLeft(*walker.knuckle, X_CA));
  return least;
}

}  // namespace

Walker StartWalk(const Rig& rig, size_t axle, const AxlePath& path) {
  const RigAxle& prepared = rig.axles[axle];
  Walker walker{
      .rig = &rig, .axle = axle, .path = &path, .knuckle = std::nullopt, .here = prepared.measured};
  const AxlePlace start = path.place(0.0, axle);
  const PoseSolution pose = MovePose(prepared.frame, prepared.measured, start.z, start.roll);
  walker.here = EvaluateMotion(prepared.frame, pose.pose);
  if (rig.vehicle->axles[axle].steering) {
    walker.knuckle = PrepareKnuckle(rig.vehicle->axles[axle], prepared.frame);
  }
  const Eigen::Isometry3d X_CA = Transform(walker.here.pose);
  walker.least =
      LeastLeft(walker, TravelMargins(rig.vehicle->axles[axle], prepared.frame, X_CA), X_CA);
  return walker;
}

std::optional<std::string> WalkTo(Walker& walker, double parameter) {
  const RigAxle& prepared = walker.rig->axles[walker.axle];
  const Axle& axle = walker.rig->vehicle->axles[walker.axle];
  const AxlePlace place = walker.path->place(parameter, walker.axle);
  const PoseSolution moved = MovePose(prepared.frame, walker.here, place.z, place.roll);
  if (moved.status != SolveStatus::kConverged) {
    const FrameLink& link = prepared.frame.links[moved.blocking_link.value_or(0)];
    return Describe({TravelEnd::kLinksStraight, link.name, 0.0});
  }
  const Eigen::Isometry3d X_CA = Transform(moved.pose);
  const std::vector<TravelMargin> margins = TravelMargins(axle, prepared.frame, X_CA);
  if (const auto past = PastEnd(margins)) return Describe(*past);
  if (walker.knuckle && !KnuckleTurn(*walker.knuckle, X_CA)) {
    return Describe({TravelEnd::kDragLinkOutOfReach, "drag link", 0.0});
  }
  if (walker.path->refuse) {
    if (auto reason = walker.path->refuse(parameter, walker.axle, X_CA)) return reason;
  }
  walker.here = EvaluateMotion(prepared.frame, moved.pose);
  walker.parameter = parameter;
  walker.least = LeastLeft(walker, margins, X_CA);
  return std::nullopt;
}

namespace {

// Whether a member might be past its end between two places and back before the second: it can fall
// by no more than its bend allows. docs/theory.md (53a)
bool MightDip(const Walker& from, const Walker& to) {
  constexpr double kBend = 40.0;       // [1/m] of a member's length over wheel travel, at the most
  if (from.least < 0.0) return false;  // in a stance past an end: this way leads out of it
  const double half_track = 0.5 * from.rig->axles[from.axle].frame.track;
  const double way = std::abs(to.here.pose.z - from.here.pose.z) +
                     half_track * std::abs(to.here.pose.roll - from.here.pose.roll);
  return std::min(from.least, to.least) < kBend * way * way / 8.0;
}

struct Refusal {
  double parameter;
  std::string reason;
};

// Walks to a parameter by halves of the way where an end could hide in it; stays before the first
// place that is refused.
std::optional<Refusal> WalkClosely(Walker& walker, double parameter, int halvings) {
  const Walker from = walker;
  const std::optional<std::string> reason = WalkTo(walker, parameter);
  if (halvings == 0 && reason) return Refusal{parameter, *reason};
  if (halvings == 0 || (!reason && !MightDip(from, walker))) return std::nullopt;
  walker = from;
  if (auto first = WalkClosely(walker, 0.5 * (from.parameter + parameter), halvings - 1)) {
    return first;
  }
  return WalkClosely(walker, parameter, halvings - 1);
}

}  // namespace

std::optional<SweepEnd> FindEnd(Walker walker, double limit, double step) {
  const double direction = limit < 0.0 ? -1.0 : 1.0;
  while (walker.parameter != limit) {
    double next = walker.parameter + direction * step;
    if (std::abs(next) > std::abs(limit)) next = limit;
    constexpr int kHalvings = 6;  // of 5 mm: a dip of 3e-8 m is left
    std::optional<Refusal> refusal = WalkClosely(walker, next, kHalvings);
    if (!refusal) continue;
    double out = refusal->parameter;
    std::string reason = refusal->reason;
    while (std::abs(out - walker.parameter) > kEndFound) {
      const double middle = 0.5 * (walker.parameter + out);
      if (const auto refused = WalkTo(walker, middle)) {
        out = middle;
        reason = *refused;
      }
    }
    return SweepEnd{.travel = walker.parameter, .axle = walker.axle, .reason = reason};
  }
  return std::nullopt;
}

std::vector<double> Grid(double low, double high, const GridOptions& options) {
  std::vector<double> grid;
  const double step = options.step;
  const double slack = 1e-9 * step;
  const double first = options.from ? low : std::ceil(low / step - 1e-9) * step;
  if (!options.from && first - low > slack) grid.push_back(low);
  const auto count = static_cast<long>(std::floor((high - first) / step + 1e-9));
  for (long i = 0; i <= count; ++i) {
    const double t = first + static_cast<double>(i) * step;
    grid.push_back(std::abs(t) < slack ? 0.0 : t);
  }
  if (!options.to && (grid.empty() || high - grid.back() > slack)) grid.push_back(high);
  if (std::find(grid.begin(), grid.end(), 0.0) == grid.end()) grid.push_back(0.0);
  std::sort(grid.begin(), grid.end());
  return grid;
}

std::vector<double> Between(const std::array<std::optional<SweepEnd>, 2>& low,
                            const std::array<std::optional<SweepEnd>, 2>& high,
                            std::vector<double> grid) {
  constexpr double kSlack = 2e-9;  // [m, rad] a row at an end is a row: bisection and kEndTolerance
  constexpr double kFar = std::numeric_limits<double>::infinity();
  const double first = std::min(0.0, Nearest(low, -kFar) - kSlack);
  const double last = std::max(0.0, Nearest(high, kFar) + kSlack);
  std::erase_if(grid, [&](double parameter) { return parameter < first || parameter > last; });
  return grid;
}

double Nearest(const std::array<std::optional<SweepEnd>, 2>& ends, double unlimited) {
  std::optional<double> nearest;
  for (const std::optional<SweepEnd>& end : ends) {
    if (end && (!nearest || std::abs(end->travel) < std::abs(*nearest))) nearest = end->travel;
  }
  return nearest.value_or(unlimited);
}

}  // namespace linkwright
