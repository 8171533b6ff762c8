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

// What each load's rest shows, the worst of each kind.
void AddRestFindings(const Rig& rig, const std::vector<Stance>& stances, std::vector<Finding>& to) {
  std::vector<Finding> at_rest;
  for (const Stance& stance : stances) {
    if (stance.status != StanceStatus::kRests) {
      to.push_back({.kind = FindingKind::kNoRest,
                    .member = stance.load,
                    .load = stance.load,
                    .part = {"loads", stance.load},
                    .detail = stance.message});
      continue;
    }
    const std::vector<Finding> found = RestFindings(rig, stance);
    at_rest.insert(at_rest.end(), found.begin(), found.end());
  }
  KeepNearestHeight(at_rest);
  Append(at_rest, to);
}

const Load* LoadOf(const Vehicle& vehicle, const Stance* stance) {
  for (const Load& load : vehicle.loads) {
    if (stance != nullptr && load.name == stance->load) return &load;
  }
  return nullptr;
}

}  // namespace

std::vector<Stance> SettleEach(const Rig& rig, const Load* only) {
  std::vector<Stance> stances;
  if (IsGeometryOnly(*rig.vehicle)) return stances;
  for (const Load& load : rig.vehicle->loads) {
    if (only != nullptr && &load != only) continue;
    stances.push_back(Settle(rig, load));
  }
  return stances;
}

const Stance* RestFirst(const std::vector<Stance>& stances, const Load& load) {
  const Stance* first = nullptr;
  for (const Stance& stance : stances) {
    if (stance.status != StanceStatus::kRests) continue;
    if (stance.load == load.name) return &stance;
    if (first == nullptr) first = &stance;
  }
  return first;
}

VehicleFindings FindAll(const Walks& walks, const std::vector<Stance>& stances,
                        const CheckReport& report) {
  const Rig& rig = *walks.rig;
  const Vehicle& vehicle = *rig.vehicle;
  VehicleFindings found{.findings = FileFindings(vehicle, report), .gaps = {}, .fights = {}};
  std::erase_if(found.findings, [](const Finding& finding) { return !finding.past; });
  AddRestFindings(rig, stances, found.findings);
  const Stance* stance = walks.stance;
  if (stance == nullptr && !IsGeometryOnly(vehicle)) {
    found.accepted = TakeAccepted(vehicle, found.findings);
    return found;
  }
  const Load* load = LoadOf(vehicle, stance);
  const Standing standing{.stance = stance ? std::optional(*stance) : std::nullopt,
                          .level = stance
                                       ? LevelMotion(rig, *stance)
                                       : std::array{rig.axles[0].measured, rig.axles[1].measured}};
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
  found.accepted = TakeAccepted(vehicle, found.findings);
  if (stances.size() == vehicle.loads.size())
    Append(IdleAcceptances(vehicle, found.accepted), found.findings);
  return found;
}

VehicleFindings FindAll(const Rig& rig, const CheckReport& report, const Load* only) {
  const std::vector<Stance> stances = SettleEach(rig, only);
  const Stance* stance = RestFirst(stances, DefaultLoad(*rig.vehicle));
  return FindAll(Walks(rig, stance, Watch::kAll), stances, report);
}

}  // namespace linkwright
