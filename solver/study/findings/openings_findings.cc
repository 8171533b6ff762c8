// SPDX-License-Identifier: MIT
#include "solver/study/findings/openings_findings.h"

#include <algorithm>
#include <cmath>

namespace linkwright {

std::vector<Finding> OpeningsFindings(const Vehicle& vehicle, const OpeningsReport& report) {
  std::vector<Finding> found;
  const auto add = [&](Finding finding, size_t axle) {
    finding.part = {"openings", vehicle.axles[axle].name};
    AddIfPast(std::move(finding), found);
  };
  for (const WheelInOpening& wheel : report.wheels) {
    if (wheel.side != 0) continue;  // both sides of an axle stand alike
    Finding off =
        Judged(FindingKind::kWheelOffCenter, wheel.axle,
               std::max(std::abs(wheel.ahead), std::abs(wheel.up)), vehicle.aims.wheel_off_center);
    off.more = {wheel.ahead, wheel.up};
    add(std::move(off), wheel.axle);
  }
  for (const TireClearance& clearance : report.clearances) {
    const NearestTire* least = LeastOf(clearance);
    if (least == nullptr) continue;
    Finding near = Judged(FindingKind::kTireNear, clearance.axle, least->gap.distance,
                          vehicle.aims.tire_clearance);
    near.member = clearance.surface == Surface::kLip ? "lip" : "inner panel";
    near.detail = clearance.side == 0 ? "left" : "right";
    near.place = FindingPlace{.motion = least->motion,
                              .parameter = least->parameter,
                              .wheel_travel = least->wheel_travel,
                              .steer = least->steer};
    add(std::move(near), clearance.axle);
  }
  for (const size_t axle : AxlesOf(vehicle)) {
    if (!report.steer_refused[axle]) continue;
    found.push_back({.kind = FindingKind::kSteerFollowsNot,
                     .axle = axle,
                     .part = {"axles", vehicle.axles[axle].name, "steering"}});
  }
  KeepWorst(found);
  return found;
}

std::vector<Finding> PlanFindings(const std::vector<CentringPlan>& plans) {
  std::vector<Finding> found;
  for (const CentringPlan& plan : plans) {
    if (plan.found) continue;
    found.push_back({.kind = FindingKind::kNoCentringPlan, .detail = plan.message});
  }
  return found;
}

}  // namespace linkwright
