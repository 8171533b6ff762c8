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

namespace {

// A place that a walker looks at.
struct Look {
  Pose pose;
  Eigen::Isometry3d X_CA;
  std::vector<TravelMargin> margins;
};

// What is in the way at a parameter, or nothing; the walker stays.
std::optional<std::string> LookAt(const Walker& walker, double parameter, Look& look) {
  look.margins.clear();
  const RigAxle& prepared = walker.rig->axles[walker.axle];
  const Axle& axle = walker.rig->vehicle->axles[walker.axle];
  const AxlePlace place = walker.path->place(parameter, walker.axle);
  const PoseSolution moved = MovePose(prepared.frame, walker.here, place.z, place.roll);
  if (moved.status != SolveStatus::kConverged) {
    const FrameLink& link = prepared.frame.links[moved.blocking_link.value_or(0)];
    return Describe({TravelEnd::kLinksStraight, link.name, 0.0});
  }
  const Eigen::Isometry3d X_CA = Transform(moved.pose);
  look = {moved.pose, X_CA, TravelMargins(axle, prepared.frame, X_CA)};
  if (const auto past = PastEnd(look.margins)) return Describe(*past);
  if (walker.knuckle && !KnuckleTurn(*walker.knuckle, X_CA)) {
    return Describe({TravelEnd::kDragLinkOutOfReach, "drag link", 0.0});
  }
  return walker.path->refuse ? walker.path->refuse(parameter, walker.axle, X_CA) : std::nullopt;
}

}  // namespace

std::optional<std::string> WalkTo(Walker& walker, double parameter) {
  Look look;
  if (auto reason = LookAt(walker, parameter, look)) return reason;
  walker.here = EvaluateMotion(walker.rig->axles[walker.axle].frame, look.pose);
  walker.parameter = parameter;
  walker.least = LeastLeft(walker, look.margins, look.X_CA);
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

// What is left of the first member to end, counted from where it is past its end; above 0 where the
// way is clear. Absent where something else is in the way.
std::optional<double> LeftOf(const Look& look, bool refused) {
  std::optional<double> least;
  for (const TravelMargin& margin : look.margins) {
    if (!margin.event && (!least || margin.left < *least)) least = margin.left;
  }
  if (!least) return std::nullopt;
  const double left = *least + kEndTolerance;
  return refused == (left < 0.0) ? std::optional(left) : std::nullopt;
}

// A place inside (in, out): by the chord between what is left at both, else the middle.
double NextLook(double in, double out, std::optional<double> left_in,
                std::optional<double> left_out) {
  if (!left_in || !left_out) return 0.5 * (in + out);
  const double way = std::abs(out - in), least = std::min(kEndFound, 0.5 * way);
  const double part = std::clamp(way * *left_in / (*left_in - *left_out), least, way - least);
  return in + std::copysign(part, out - in);
}

// The end between where a walker stands and where it is refused: regula falsi on what is left
// (Illinois), each look at least kEndFound inside so that both sides close in; then halving.
SweepEnd CloseIn(const Walker& walker, Refusal refusal) {
  constexpr int kChords = 12;  // where a chord has not done by then, members take turns
  double in = walker.parameter, out = refusal.parameter;
  std::optional<double> left_in, left_out;
  std::optional<bool> was_refused;
  Look look;
  for (int i = 0; std::abs(out - in) > kEndFound; ++i) {
    const bool chord = i < kChords;
    const double at = NextLook(in, out, chord ? left_in : std::nullopt, left_out);
    if (auto refused = LookAt(walker, at, look)) {
      out = at;
      refusal.reason = *std::move(refused);
      left_out = LeftOf(look, true);
      if (was_refused == true && left_in) *left_in *= 0.5;
      was_refused = true;
    } else {
      in = at;
      left_in = LeftOf(look, false);
      if (was_refused == false && left_out) *left_out *= 0.5;
      was_refused = false;
    }
  }
  return {.travel = in, .axle = walker.axle, .reason = refusal.reason};
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
    return CloseIn(walker, *std::move(refusal));
  }
  return std::nullopt;
}

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
