// SPDX-License-Identifier: MIT
#include "solver/study/openings/openings.h"

#include <algorithm>
#include <cmath>

#include "solver/study/openings/nearest_tire.h"
#include "solver/study/openings/swept_motion.h"

namespace linkwright {
namespace {

WheelInOpening AtRest(const Walks& walks, size_t axle, size_t side, const TireShape& shape) {
  const Axle& of = walks.rig->vehicle->axles[axle];
  const Eigen::Isometry3d X_CA = Transform(StartMotion(walks, axle).pose);
  const TireSolid tire = TireAt(of, walks.rig->axles[axle].frame, shape, X_CA, side, 0.0);
  return {.axle = axle,
          .side = side,
          .ahead = tire.p_CW.x() - of.opening->x,
          .up = tire.p_CW.z() - of.opening->z,
          .tape = TapeAround(tire, *of.opening, side)};
}

std::vector<TireClearance> SurfacesOf(const Opening& opening, size_t axle, size_t side) {
  std::vector<TireClearance> surfaces;
  if (opening.radius) surfaces.push_back({axle, side, Surface::kLip, {}, {}});
  if (opening.inner_panel_y) surfaces.push_back({axle, side, Surface::kPanel, {}, {}});
  return surfaces;
}

void AddGaps(const Rig& rig, const SweptMotion& swept, double start, TireClearance& to,
             OpeningsReport& report) {
  const TireQuestion question{&rig, to.axle, to.side, to.surface, report.tires[to.axle]};
  const TireMotion motion = swept.range.motion;
  const auto m = static_cast<size_t>(std::find(kTireMotions.begin(), kTireMotions.end(), motion) -
                                     kTireMotions.begin());
  bool refused = false;
  to.held[m] = FindNearest(question, swept, start, std::nullopt, refused);
  const std::optional<double> lock = report.lock[to.axle];
  if (!lock) return;
  to.turned[m] = FindNearest(question, swept, start, lock, refused);
  report.steer_refused[to.axle] = report.steer_refused[to.axle] || refused;
}

void AddAxle(const Walks& walks, size_t axle, OpeningsReport& report) {
  const Opening& opening = *walks.rig->vehicle->axles[axle].opening;
  // Both wheels, the same surfaces in the same order.
  std::array<std::vector<TireClearance>, 2> found{SurfacesOf(opening, axle, 0),
                                                  SurfacesOf(opening, axle, 1)};
  for (const TireMotion motion : kTireMotions) {
    SweptMotion swept = SweepTireMotion(walks, motion, 2 * axle);
    report.ranges[axle].push_back(swept.range);
    for (size_t side = 0; side < 2; ++side) {
      if (side == 1 && motion == TireMotion::kOneWheel) {
        swept = SweepTireMotion(walks, motion, 2 * axle + side);
      }
      for (TireClearance& each : found[side]) {
        AddGaps(*walks.rig, swept, walks.start[axle], each, report);
      }
    }
  }
  for (size_t side = 0; side < 2; ++side) {
    report.wheels.push_back(AtRest(walks, axle, side, report.tires[axle]));
    report.clearances.insert(report.clearances.end(), found[side].begin(), found[side].end());
  }
}

}  // namespace

const NearestTire* LeastOf(const TireClearance& clearance) {
  const NearestTire* least = nullptr;
  for (const auto& list : {&clearance.held, &clearance.turned}) {
    for (const std::optional<NearestTire>& each : *list) {
      if (!each) continue;
      constexpr double kAlike = 1e-9;  // [m] of two alike the first motion's is told
      if (least == nullptr || each->gap.distance < least->gap.distance - kAlike) least = &*each;
    }
  }
  return least;
}

OpeningsReport SweepOpenings(const Walks& walks, std::optional<double> lock) {
  OpeningsReport report;
  const Vehicle& vehicle = *walks.rig->vehicle;
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    report.tires[i] = ShapeOfTire(vehicle, i);
    if (axle.kingpin && axle.kingpin->p_CK) {
      report.lock[i] = lock;
      if (!lock && axle.steering) report.lock[i] = axle.steering->lock;
    }
    if (axle.opening) AddAxle(walks, i, report);
  }
  return report;
}

}  // namespace linkwright
