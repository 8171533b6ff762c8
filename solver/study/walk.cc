// SPDX-License-Identifier: MIT
#include "solver/study/walk.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/travel_limits.h"

namespace linkwright {
namespace {

constexpr double kEndFound = 1e-10;  // [m, rad] bisection stops

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
  if (const auto past = PastEnd(TravelMargins(axle, prepared.frame, X_CA))) return Describe(*past);
  if (walker.knuckle && !KnuckleTurn(*walker.knuckle, X_CA)) {
    return Describe({TravelEnd::kDragLinkOutOfReach, "drag link", 0.0});
  }
  if (walker.path->refuse) {
    if (auto reason = walker.path->refuse(parameter, walker.axle, X_CA)) return reason;
  }
  walker.here = EvaluateMotion(prepared.frame, moved.pose);
  walker.parameter = parameter;
  return std::nullopt;
}

std::optional<SweepEnd> FindEnd(Walker walker, double limit, double step) {
  const double direction = limit < 0.0 ? -1.0 : 1.0;
  while (walker.parameter != limit) {
    double next = walker.parameter + direction * step;
    if (std::abs(next) > std::abs(limit)) next = limit;
    std::optional<std::string> reason = WalkTo(walker, next);
    if (!reason) continue;
    double out = next;
    while (std::abs(out - walker.parameter) > kEndFound) {
      const double middle = 0.5 * (walker.parameter + out);
      if (const auto refused = WalkTo(walker, middle)) {
        out = middle;
        reason = refused;
      }
    }
    return SweepEnd{.travel = walker.parameter, .axle = walker.axle, .reason = *reason};
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

double Nearest(const std::array<std::optional<SweepEnd>, 2>& ends, double unlimited) {
  std::optional<double> nearest;
  for (const std::optional<SweepEnd>& end : ends) {
    if (end && (!nearest || std::abs(end->travel) < std::abs(*nearest))) nearest = end->travel;
  }
  return nearest.value_or(unlimited);
}

}  // namespace linkwright
