// SPDX-License-Identifier: MIT
// What keeps a wanted travel from being had, whatever stop, strap and damper are fitted.
#include <cmath>

#include "solver/study/travel/travel_parts.h"

namespace linkwright {
namespace {

bool IsReplaced(const LimitHit& hit) {
  const LimitKind kind = hit.limit.id.kind;
  return kind == LimitKind::kDamperClosed || kind == LimitKind::kDamperOpen ||
         kind == LimitKind::kStopSolid || kind == LimitKind::kStrapTaut;
}

// What else runs out before a wheel travel that is wanted.
void AddInTheWay(const std::vector<LimitHit>& hits, size_t axle, LimitMotion motion, double wanted,
                 std::vector<InTheWay>& to) {
  constexpr double kSame = 1e-6;  // [m] the travel as found is no shortfall
  for (const LimitHit& hit : hits) {
    const bool ends = hit.limit.role != LimitRole::kPassed;
    if (!ends || !hit.wheel_travel || IsReplaced(hit)) continue;
    const double short_by = std::abs(wanted) - std::abs(*hit.wheel_travel);
    if (short_by < kSame) continue;
    to.push_back({.axle = axle,
                  .motion = motion,
                  .limit = hit.limit,
                  .parameter = *hit.at,
                  .at = *hit.wheel_travel,
                  .wanted = wanted,
                  .short_by = short_by});
  }
}

// Crossed: with the stops and straps of the advice on it the axle goes as far as the first of them
// lets it.
void AddInTheWayCrossed(const Rig& fitted, const AxlePath& path, size_t axle, LimitMotion motion,
                        std::vector<InTheWay>& to) {
  const MotionReach reach = ReachOf(*fitted.vehicle, MotionKind::kCrossed);
  AxleWalk walk = WalkAxle(
      fitted, axle, path,
      {.far = motion == LimitMotion::kCrossUp ? reach.far : -reach.far, .step = reach.step});
  std::optional<double> wanted;
  for (LimitHit& hit : walk.hits) {
    if (!hit.at) continue;
    hit.wheel_travel = 0.5 * fitted.axles[axle].frame.track * std::sin(std::abs(*hit.at));
    const LimitKind kind = hit.limit.id.kind;
    const bool held = kind == LimitKind::kStopSolid || kind == LimitKind::kStrapTaut;
    if (held && !wanted) wanted = hit.wheel_travel;
  }
  if (wanted) AddInTheWay(walk.hits, axle, motion, *wanted, to);
}

}  // namespace

std::vector<InTheWay> FindInTheWay(const Rig& rig, const std::array<double, 2>& start,
                                   const LimitsReport& limits, const PartsAdvice& advice) {
  std::vector<InTheWay> all;
  const Vehicle fitted = WithStopsAndStraps(*rig.vehicle, advice);
  const Rig alike = PrepareRig(fitted);
  const AxlePath path = PathOf(alike, start, MotionKind::kCrossed);
  for (size_t i = 0; i < 2; ++i) {
    const WantedTravel& wanted = advice.wanted[i];
    if (wanted.bump) {
      AddInTheWay(limits.bounce[i][0].hits, i, LimitMotion::kBump, *wanted.bump, all);
    }
    if (wanted.droop) {
      AddInTheWay(limits.bounce[i][1].hits, i, LimitMotion::kDroop, -*wanted.droop, all);
    }
    if (!wanted.bump || !wanted.droop) continue;
    AddInTheWayCrossed(alike, path, i, LimitMotion::kCrossUp, all);
    AddInTheWayCrossed(alike, path, i, LimitMotion::kCrossDown, all);
  }
  return all;
}

}  // namespace linkwright
