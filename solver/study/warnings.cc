// SPDX-License-Identifier: MIT
#include "solver/study/warnings.h"

#include <algorithm>
#include <cmath>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "solver/study/warnings_over_travel.h"

namespace linkwright {
namespace {

void AddStops(const Axle& axle, size_t index, double crush, std::vector<Warning>& to) {
  if (axle.bump_stops.empty()) to.push_back({WarningKind::kNoStop, index, "", "", 0.0, 0.0});
  for (const Stop& stop : axle.bump_stops) {
    if (stop.law.curve.empty()) continue;
    const double share = stop.law.curve.back().deflection / stop.law.free_length;
    if (share < crush) {
      to.push_back({WarningKind::kStopTakenRigid, index, DisplayName(stop.name), "", share, crush});
    }
  }
}

void AddTire(const Vehicle& vehicle, size_t index, std::vector<Warning>& to) {
  const Axle& axle = vehicle.axles[index];
  if (!axle.tire.radius) return;
  const double hub = 0.5 * (axle.p_CW_l.z() + axle.p_CW_r.z()) - vehicle.floor_z;
  const double share = (*axle.tire.radius - hub) / *axle.tire.radius;
  if (share >= vehicle.aims.tire_squash) return;
  to.push_back({WarningKind::kNominalTire, index, "", "", share, vehicle.aims.tire_squash});
}

// Direction of a link seen from above, of no length where it stands upright.
Eigen::Vector2d FromAbove(const Link& link) { return (link.span.p_CQ - link.span.p_CP).head<2>(); }

bool LiesAcross(const Link& link) {
  const Eigen::Vector2d d = FromAbove(link);
  return std::abs(d.y()) > std::abs(d.x());
}

// Where nothing lies across and no arm or crank holds it sideways, the widest-splayed pair does.
void AddTriangle(const Axle& axle, size_t index, double least, std::vector<Warning>& to) {
  if (!axle.watts_links.empty() || !axle.a_arms.empty() || axle.links.size() < 4) return;
  if (std::any_of(axle.links.begin(), axle.links.end(), LiesAcross)) return;
  double widest = 0.0;
  std::string name;
  for (const Link& left : axle.links) {
    for (const Link& right : axle.links) {
      if (left.name.key != right.name.key || left.name.side != Side::kLeft ||
          right.name.side != Side::kRight) {
        continue;
      }
      const Eigen::Vector2d a = FromAbove(left), b = FromAbove(right);
      const double angle = std::abs(std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b)));
      if (angle > widest) widest = angle, name = left.name.key;
    }
  }
  if (!name.empty() && widest < least) {
    to.push_back({WarningKind::kNarrowTriangle, index, name, "", widest, least});
  }
}

void AddLoad(const Rig& rig, const Stance& stance, std::vector<Warning>& to) {
  const Vehicle& vehicle = *rig.vehicle;
  const StanceReport report = ReportStance(rig, stance);
  if (report.roll_arm < 0.0) {
    to.push_back({WarningKind::kLeansInward, 0, "", stance.load, report.roll_arm, 0.0});
  }
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    const AxleReport& at = report.axles[i];
    const double on_axle =
        (report.wheel_load[2 * i] + report.wheel_load[2 * i + 1]) / kStandardGravity;
    if (axle.rating && on_axle > *axle.rating) {
      to.push_back({WarningKind::kOverRating, i, "", stance.load, on_axle, *axle.rating});
    }
    if (at.ride_frequency && *at.ride_frequency > vehicle.aims.frequency) {
      const bool stop = StopTouches(rig, stance, i);
      to.push_back({stop ? WarningKind::kStopRaisesRate : WarningKind::kRidesStiff, i, "",
                    stance.load, *at.ride_frequency, vehicle.aims.frequency});
    }
    const double askew = report.travel[2 * i] - report.travel[2 * i + 1];
    if (std::abs(askew) > vehicle.aims.side_to_side) {
      to.push_back({WarningKind::kSitsAskew, i, "", stance.load, askew, vehicle.aims.side_to_side});
    }
    if (!at.opening_ahead) continue;
    const Eigen::Vector3d hub = 0.5 * (axle.p_CW_l + axle.p_CW_r);
    const double moved = std::hypot(*at.opening_ahead - (hub.x() - axle.opening->x),
                                    *at.opening_up - (hub.z() - axle.opening->z));
    // Of every load, within the aim or not: KeepWorst needs the nearest of all.
    to.push_back(
        {WarningKind::kMockUpHeight, i, "", stance.load, moved, vehicle.aims.height_change});
  }
}

// Of one kind at one axle, only the worst load is told; of the height in the opening the nearest,
// for it is enough that the vehicle rests as measured under one of its loads.
void KeepWorst(std::vector<Warning>& warnings) {
  std::vector<Warning> kept;
  for (const Warning& warning : warnings) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Warning& other) {
      return other.kind == warning.kind && other.axle == warning.axle &&
             other.member == warning.member;
    });
    if (same == kept.end()) {
      kept.push_back(warning);
    } else {
      const double now = std::abs(warning.value), before = std::abs(same->value);
      const bool nearest = warning.kind == WarningKind::kMockUpHeight;
      if (nearest ? now < before : now > before) *same = warning;
    }
  }
  std::erase_if(kept, [](const Warning& warning) {
    return warning.kind == WarningKind::kMockUpHeight && warning.value <= warning.limit;
  });
  warnings = kept;
}

}  // namespace

WarningReport FindWarnings(const Rig& rig, const Load* only, bool least,
                           const LimitsReport* limits) {
  const Vehicle& vehicle = *rig.vehicle;
  WarningReport report;
  for (size_t i = 0; i < 2; ++i) {
    AddStops(vehicle.axles[i], i, vehicle.aims.stop_crush, report.warnings);
    AddTire(vehicle, i, report.warnings);
    AddTriangle(vehicle.axles[i], i, vehicle.aims.triangulation, report.warnings);
  }
  if (IsGeometryOnly(vehicle)) {
    AddOverTravel(rig, nullptr, report);
    AddWatched(rig, nullptr, limits, least, report.warnings);
    return report;
  }
  std::vector<Warning> at_rest;
  std::optional<Stance> first;
  for (const Load& load : vehicle.loads) {
    if (only != nullptr && &load != only) continue;
    const Stance stance = Settle(rig, load);
    if (stance.status != StanceStatus::kRests) {
      report.unrested.push_back({load.name, stance.message});
      continue;
    }
    AddLoad(rig, stance, at_rest);
    if (!first) first = stance;
  }
  KeepWorst(at_rest);
  report.warnings.insert(report.warnings.end(), at_rest.begin(), at_rest.end());
  if (first) {
    AddOverTravel(rig, &*first, report);
    AddWatched(rig, &*first, limits, least, report.warnings);
  }
  return report;
}

}  // namespace linkwright
