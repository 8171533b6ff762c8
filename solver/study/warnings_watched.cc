// SPDX-License-Identifier: MIT
// Joints at their limits and tyres near their openings: what `limits` and `openings` find, for
// `check`.
#include <algorithm>

#include "solver/study/limits.h"
#include "solver/study/openings.h"
#include "solver/study/warnings_over_travel.h"

namespace linkwright {
namespace {

bool WatchesJoints(const Vehicle& vehicle) {
  return std::any_of(vehicle.axles.begin(), vehicle.axles.end(), [](const Axle& axle) {
    return std::any_of(axle.links.begin(), axle.links.end(),
                       [](const Link& link) { return link.misalignment_limit.has_value(); });
  });
}

// One way of one axle: `ends` where this axle's own end is the end of the motion.
struct Way {
  const AxleLimit* limit;
  bool ends;
  const char* name;
};

// Of one member only the least is told.
void KeepNearest(Warning warning, std::vector<Warning>& to) {
  const auto same = std::find_if(to.begin(), to.end(), [&](const Warning& other) {
    return other.kind == warning.kind && other.axle == warning.axle &&
           other.member == warning.member;
  });
  if (same == to.end()) {
    to.push_back(std::move(warning));
  } else if (warning.value < same->value) {
    *same = std::move(warning);
  }
}

void AddJoints(const Way& way, double reserve, std::vector<Warning>& to) {
  const AxleLimit& limit = *way.limit;
  for (size_t i = 0; i < limit.hits.size(); ++i) {
    const LimitHit& hit = limit.hits[i];
    if (hit.limit.id.kind != LimitKind::kJointAtLimit) continue;
    if (hit.at_rest && *hit.at_rest < 0.0) {
      KeepNearest({WarningKind::kJointNearLimit, limit.axle, hit.limit.name, "", *hit.at_rest,
                   reserve, "at rest"},
                  to);
    } else if (way.ends && limit.ended_by == i) {
      to.push_back({WarningKind::kJointEndsTravel, limit.axle, hit.limit.name, "", limit.parameter,
                    reserve, way.name});
    } else if (hit.left && *hit.left < reserve) {
      KeepNearest({WarningKind::kJointNearLimit, limit.axle, hit.limit.name, "", *hit.left, reserve,
                   way.name},
                  to);
    }
  }
}

void AddJointsOf(const LimitsReport& limits, double reserve, std::vector<Warning>& to) {
  for (size_t axle = 0; axle < 2; ++axle) {
    AddJoints({&limits.bounce[axle][0], true, "at full bump"}, reserve, to);
    AddJoints({&limits.bounce[axle][1], true, "at full droop"}, reserve, to);
    for (const CrossedLimit& crossed : limits.crossed) {
      AddJoints({&crossed.axles[axle], crossed.first == axle, "crossed"}, reserve, to);
    }
  }
}

std::string WhereOf(const NearestTire& nearest) {
  std::string where;
  switch (nearest.motion) {
    case TireMotion::kRest:
      where = "at rest";
      break;
    case TireMotion::kBounce:
      where = nearest.wheel_travel > 0.0 ? "in bump" : "in droop";
      break;
    case TireMotion::kRoll:
      where = "in roll";
      break;
    case TireMotion::kCrossed:
      where = "crossed";
      break;
    case TireMotion::kOneWheel:
      where = "with one wheel moved";
      break;
  }
  return where + (nearest.steer ? ", steered" : "");
}

// Both sides of an axle stand alike or nearly so: the nearer one is told.
void AddTires(const OpeningsReport& openings, double aim, std::vector<Warning>& to) {
  for (const TireClearance& clearance : openings.clearances) {
    const NearestTire* least = LeastOf(clearance);
    if (least == nullptr || least->gap.distance >= aim) continue;
    const std::string member = clearance.surface == Surface::kLip ? "lip" : "inner panel";
    KeepNearest({WarningKind::kTireNear, clearance.axle, member, "", least->gap.distance, aim,
                 WhereOf(*least)},
                to);
  }
}

}  // namespace

void AddWatched(const Rig& rig, const Stance* stance, const LimitsReport* limits, bool least,
                std::vector<Warning>& to) {
  const Aims& aims = rig.vehicle->aims;
  if (WatchesJoints(*rig.vehicle)) {
    AddJointsOf(limits ? *limits : FindLimits(rig, stance), aims.joint_reserve, to);
  }
  const auto& axles = rig.vehicle->axles;
  if (axles[0].opening || axles[1].opening) {
    const double aim = aims.tire_clearance;
    const std::optional<double> enough = least ? std::nullopt : std::optional(aim);
    AddTires(SweepOpenings(rig, stance, std::nullopt, enough), aim, to);
  }
}

}  // namespace linkwright
