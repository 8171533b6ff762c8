// SPDX-License-Identifier: MIT
#include "solver/study/openings/after_plan.h"

#include <algorithm>

#include "solver/geometry/driveshaft.h"
#include "solver/rest/settle.h"

namespace linkwright {
namespace {

bool IsTire(LimitKind kind) {
  return kind == LimitKind::kTireOnLip || kind == LimitKind::kTireOnPanel;
}

void KeepLess(std::optional<double>& least, const std::optional<NearestTire>& tire) {
  if (tire) least = std::min(least.value_or(tire->gap.distance), tire->gap.distance);
}

// A cut does not lengthen a shaft: its spline then has more or less left, as in the plan's file.
void KeepShafts(const Vehicle& before, Vehicle& now) {
  const Rig rig = PrepareRig(before);
  for (size_t i = 0; i < before.driveshafts.size(); ++i) {
    const Driveshaft& shaft = before.driveshafts[i];
    const auto axle = static_cast<size_t>(shaft.axle);
    if (!before.axles[axle].pinion) continue;
    now.driveshafts[i].length = MadeLength(shaft, before.axles[axle], rig.axles[axle].frame);
  }
}

}  // namespace

std::optional<AfterPlan> CarryOut(const Vehicle& vehicle, const Load* load, const BodyMove& move,
                                  std::optional<double> lock) {
  AfterPlan after{.vehicle = WithBodyMoved(vehicle, move), .report = {}};
  KeepShafts(vehicle, after.vehicle);
  const Rig rig = PrepareRig(after.vehicle);
  std::optional<Stance> stance;
  if (load != nullptr) {
    stance = Settle(rig, WithBodyMoved(*load, move, vehicle));
    if (stance->status != StanceStatus::kRests) return std::nullopt;
  }
  after.report = SweepOpenings({rig, stance ? &*stance : nullptr, Watch::kAll}, lock);
  return after;
}

std::vector<FirstTouch> FirstTouches(const Walks& walks, const OpeningsReport& report) {
  std::vector<FirstTouch> touches;
  for (const size_t axle : AxlesOf(*walks.rig->vehicle)) {
    for (const SweptRange& range : report.ranges[axle]) {
      if (range.motion != TireMotion::kBounce) continue;
      const AxleWalk& walk = Walked(walks, axle, MotionKind::kBounce, 0, 1.0, Watch::kAll);
      const auto hit = std::find_if(walk.hits.begin(), walk.hits.end(), [&](const LimitHit& each) {
        return each.at && IsTire(each.limit.id.kind) && *each.at <= range.high;
      });
      if (hit == walk.hits.end()) continue;
      const LimitId& id = hit->limit.id;
      touches.push_back(
          {.axle = axle,
           .side = id.side,
           .surface = id.kind == LimitKind::kTireOnLip ? Surface::kLip : Surface::kPanel,
           .travel = *hit->at});
    }
  }
  return touches;
}

std::vector<BodyTrim> TrimsWanted(const Vehicle& vehicle, const OpeningsReport& report) {
  std::vector<BodyTrim> trims;
  for (const TireClearance& clearance : report.clearances) {
    const NearestTire* least = LeastOf(clearance);
    if (least == nullptr) continue;
    const double by = vehicle.aims.tire_clearance - least->gap.distance;
    if (by <= 0.0) continue;
    const Opening& opening = *vehicle.axles[clearance.axle].opening;
    const BodyTrim trim{
        .axle = clearance.axle,
        .side = clearance.side,
        .surface = clearance.surface,
        .by = by,
        .nearest = *least,
        .from_center = {least->gap.p_CB.x() - opening.x, least->gap.p_CB.z() - opening.z}};
    const auto other = std::find_if(trims.begin(), trims.end(), [&](const BodyTrim& each) {
      return each.axle == trim.axle && each.surface == trim.surface;
    });
    if (other == trims.end()) {
      trims.push_back(trim);
    } else if (trim.by > other->by) {
      *other = trim;
    }
  }
  std::stable_sort(trims.begin(), trims.end(), [](const BodyTrim& a, const BodyTrim& b) {
    return a.axle != b.axle ? a.axle < b.axle : a.surface < b.surface;
  });
  return trims;
}

std::optional<double> LeastGap(const OpeningsReport& report, size_t axle,
                               std::optional<TireMotion> motion) {
  std::optional<double> least;
  for (const TireClearance& clearance : report.clearances) {
    if (clearance.axle != axle) continue;
    if (motion) {
      KeepLess(least, clearance.held[static_cast<size_t>(*motion)]);
      continue;
    }
    for (const std::optional<NearestTire>& tire : clearance.turned) KeepLess(least, tire);
  }
  return least;
}

}  // namespace linkwright
