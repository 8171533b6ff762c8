// SPDX-License-Identifier: MIT
// What keeps a wanted travel from being had, whatever stop, strap and damper are fitted.
#include <cmath>

#include "solver/study/travel_parts.h"

namespace linkwright {
namespace {

bool IsReplaced(TravelEnd end) {
  return end == TravelEnd::kDamperClosed || end == TravelEnd::kDamperOpen ||
         end == TravelEnd::kStopSolid || end == TravelEnd::kStrapTaut;
}

// What else runs out before a wheel travel that is wanted.
void AddInTheWay(const std::vector<RunOut>& run_outs, size_t axle, LimitMotion motion,
                 double wanted, std::vector<InTheWay>& to) {
  constexpr double kSame = 1e-6;  // [m] the travel as found is no shortfall
  for (const RunOut& run_out : run_outs) {
    if (run_out.event || !run_out.wheel_travel || IsReplaced(run_out.end)) continue;
    const double short_by = std::abs(wanted) - std::abs(*run_out.wheel_travel);
    if (short_by < kSame) continue;
    to.push_back({.axle = axle,
                  .motion = motion,
                  .end = run_out.end,
                  .member = run_out.member,
                  .at = *run_out.wheel_travel,
                  .wanted = wanted,
                  .short_by = short_by});
  }
}

// Crossed: with the stops and straps of the advice on it the axle goes as far as the first of them
// lets it.
void AddInTheWayCrossed(const Rig& fitted, const AxlePath& path, size_t axle, LimitMotion motion,
                        std::vector<InTheWay>& to) {
  const double far = motion == LimitMotion::kCrossUp ? kFarthestAngle : -kFarthestAngle;
  std::vector<RunOut> what = FindRunOuts(fitted, axle, path, {.far = far, .step = kAngleStep});
  std::optional<double> wanted;
  for (RunOut& each : what) {
    if (!each.at) continue;
    each.wheel_travel = 0.5 * fitted.axles[axle].frame.track * std::sin(std::abs(*each.at));
    const bool held = each.end == TravelEnd::kStopSolid || each.end == TravelEnd::kStrapTaut;
    if (held && !wanted) wanted = each.wheel_travel;
  }
  if (wanted) AddInTheWay(what, axle, motion, *wanted, to);
}

}  // namespace

std::vector<InTheWay> FindInTheWay(const Rig& rig, const std::array<double, 2>& start,
                                   const LimitsReport& limits, const PartsAdvice& advice) {
  std::vector<InTheWay> all;
  const Vehicle fitted = WithStopsAndStraps(*rig.vehicle, advice);
  const Rig alike = PrepareRig(fitted);
  const AxlePath path =
      MotionPath(alike, {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}}, start);
  for (size_t i = 0; i < 2; ++i) {
    const WantedTravel& wanted = advice.wanted[i];
    if (wanted.bump) {
      AddInTheWay(limits.bounce[i][0].run_outs, i, LimitMotion::kBump, *wanted.bump, all);
    }
    if (wanted.droop) {
      AddInTheWay(limits.bounce[i][1].run_outs, i, LimitMotion::kDroop, -*wanted.droop, all);
    }
    if (!wanted.bump || !wanted.droop) continue;
    AddInTheWayCrossed(alike, path, i, LimitMotion::kCrossUp, all);
    AddInTheWayCrossed(alike, path, i, LimitMotion::kCrossDown, all);
  }
  return all;
}

}  // namespace linkwright
