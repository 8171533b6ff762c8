// SPDX-License-Identifier: MIT
#include "solver/study/findings/vehicle_findings.h"

#include <algorithm>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/study/findings/driveline_findings.h"
#include "solver/study/findings/file_findings.h"
#include "solver/study/findings/limits_findings.h"
#include "solver/study/findings/openings_findings.h"
#include "solver/study/findings/ride_findings.h"
#include "solver/study/findings/standing_findings.h"
#include "solver/study/findings/steering_findings.h"

namespace linkwright {
namespace {

void Append(const std::vector<Finding>& from, std::vector<Finding>& to) {
  for (const Finding& finding : from) {
    if (finding.past) to.push_back(finding);
  }
}

// Every load's rest, the worst of each kind; the first load that rests, the default one before all
// others.
const Load* SettleAll(const Rig& rig, const Load* only, std::optional<Stance>& first,
                      std::vector<Finding>& to) {
  const Load* rests = nullptr;
  std::vector<Finding> at_rest;
  for (const Load& load : rig.vehicle->loads) {
    if (only != nullptr && &load != only) continue;
    Stance stance = Settle(rig, load);
    if (stance.status != StanceStatus::kRests) {
      to.push_back({.kind = FindingKind::kNoRest,
                    .member = load.name,
                    .load = load.name,
                    .part = {"loads", load.name},
                    .detail = stance.message});
      continue;
    }
    const std::vector<Finding> found = RestFindings(rig, stance);
    at_rest.insert(at_rest.end(), found.begin(), found.end());
    if (rests == nullptr || &load == &DefaultLoad(*rig.vehicle)) {
      rests = &load, first = std::move(stance);
    }
  }
  KeepNearestHeight(at_rest);
  Append(at_rest, to);
  return rests;
}

}  // namespace

VehicleFindings FindAll(const Rig& rig, const CheckReport& report, const Load* only) {
  const Vehicle& vehicle = *rig.vehicle;
  VehicleFindings found{.findings = FileFindings(vehicle, report), .gaps = {}, .fights = {}};
  std::erase_if(found.findings, [](const Finding& finding) { return !finding.past; });
  std::optional<Stance> first;
  const Load* load = nullptr;
  if (!IsGeometryOnly(vehicle)) {
    load = SettleAll(rig, only, first, found.findings);
    if (load == nullptr) return found;
  }
  const Stance* stance = first ? &*first : nullptr;
  const Standing standing{.stance = first,
                          .level = stance
                                       ? LevelMotion(rig, *stance)
                                       : std::array{rig.axles[0].measured, rig.axles[1].measured}};
  const Walks walks(rig, stance, Watch::kAll);
  constexpr double kCurveStep = 0.01, kStep = 0.02;  // [m] between the places looked at
  const Sweep sweep = SweepBounce(walks, {.from = {}, .to = {}, .step = kCurveStep});
  found.gaps = FindGaps(walks);
  found.fights = FindFights(walks);
  Append(LimitsFindings(vehicle, FindLimits(walks)), found.findings);
  Append(GapFindings(vehicle, found.gaps), found.findings);
  Append(CurveFindings(walks, sweep), found.findings);
  Append(FightFindings(vehicle, found.fights), found.findings);
  Append(OpeningsFindings(vehicle, SweepOpenings(walks, std::nullopt)), found.findings);
  DrivelineRequest driveline;
  driveline.load = load, driveline.step = kStep, driveline.cures = false;
  Append(DrivelineFindings(vehicle, ReportDriveline(walks, standing, driveline)), found.findings);
  Append(SteeringFindings(vehicle, ReportSteering(walks, standing, load, kStep, false)),
         found.findings);
  if (stance != nullptr) {
    Append(RideFindings(vehicle, stance->load, ReportRide(rig, *stance)), found.findings);
  }
  KeepWorst(found.findings);
  return found;
}

}  // namespace linkwright
