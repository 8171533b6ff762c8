// SPDX-License-Identifier: MIT
#include "solver/study/travel/in_the_way.h"

#include <cmath>

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
                  .short_by = short_by,
                  .load = {}});
  }
}

// Crossed: with the stops and straps of the advice on it the axle goes as far as the first of them
// lets it.
void AddInTheWayCrossed(const Walks& fitted, size_t axle, LimitMotion motion,
                        std::vector<InTheWay>& to) {
  const double sign = motion == LimitMotion::kCrossUp ? 1.0 : -1.0;
  std::vector<LimitHit> hits =
      Walked(fitted, axle, MotionKind::kCrossed, 0, sign, Watch::kAll).hits;
  std::optional<double> wanted;
  for (LimitHit& hit : hits) {
    if (!hit.at) continue;
    hit.wheel_travel = WheelTravelCrossed(*fitted.rig, axle, *hit.at);
    const LimitKind kind = hit.limit.id.kind;
    const bool held = kind == LimitKind::kStopSolid || kind == LimitKind::kStrapTaut;
    if (held && !wanted) wanted = hit.wheel_travel;
  }
  if (wanted) AddInTheWay(hits, axle, motion, *wanted, to);
}

}  // namespace

std::vector<InTheWay> FindInTheWay(const LimitsReport& limits,
                                   const std::array<WantedTravel, 2>& wanted, const Vehicle& fitted,
                                   const Stance* stance) {
  std::vector<InTheWay> all;
  const Rig rig = PrepareRig(fitted);
  const Walks walks(rig, stance);
  for (const size_t i : AxlesOf(fitted)) {
    const std::array<AxleLimit, 2>& bounce = limits.bounce[i];
    const auto &bump = wanted[i].bump, &droop = wanted[i].droop;
    if (bump) AddInTheWay(bounce[0].hits, i, LimitMotion::kBump, *bump, all);
    if (droop) AddInTheWay(bounce[1].hits, i, LimitMotion::kDroop, -*droop, all);
    if (!bump || !droop) continue;
    AddInTheWayCrossed(walks, i, LimitMotion::kCrossUp, all);
    AddInTheWayCrossed(walks, i, LimitMotion::kCrossDown, all);
  }
  return all;
}

}  // namespace linkwright
