// SPDX-License-Identifier: MIT
#include "solver/study/findings/standing_findings.h"

#include <algorithm>
#include <cmath>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "solver/study/findings/ride_findings.h"

namespace linkwright {
namespace {

std::vector<std::string> PartOfAxle(const Axle& axle) { return {"axles", axle.name}; }

// Where the housing's turn per travel changes sign, its instant centre passes through infinity.
std::optional<double> TurnsInsideOut(const Sweep& sweep, size_t index) {
  for (size_t r = 1; r < sweep.rows.size(); ++r) {
    const auto &from = sweep.rows[r - 1].axles[index], &to = sweep.rows[r].axles[index];
    if (!from || !to) continue;
    const auto &before = from->instant_center, &after = to->instant_center;
    if (!before || !after || (before->ahead > 0.0) == (after->ahead > 0.0)) continue;
    // Through the hub instead of infinity: near it on both sides.
    if (std::abs(before->ahead) + std::abs(after->ahead) < 1.0) continue;
    return 0.5 * (sweep.rows[r - 1].travel + sweep.rows[r].travel);
  }
  return std::nullopt;
}

void AddCurves(const Rig& rig, size_t index, const Sweep& sweep, std::vector<Finding>& to) {
  const Aims& aims = rig.vehicle->aims;
  if (const auto travel = TurnsInsideOut(sweep, index)) {
    to.push_back({.kind = FindingKind::kCenterInsideOut, .axle = index, .value = *travel});
  }
  const AxleRow& rest = *AtRest(sweep).axles[index];
  double low = rest.housing_pitch, high = rest.housing_pitch;
  for (const SweepRow& row : sweep.rows) {
    if (!row.axles[index]) continue;
    low = std::min(low, row.axles[index]->housing_pitch);
    high = std::max(high, row.axles[index]->housing_pitch);
  }
  AddIfPast(Judged(FindingKind::kPitches, index, high - low, aims.pitch), to);
  if (rest.roll_steer) {
    AddIfPast(Judged(FindingKind::kRollSteers, index, *rest.roll_steer, aims.roll_steer), to);
  }
}

void AddSlopes(const Rig& rig, size_t index, const Pose& rest, std::vector<Finding>& to) {
  const Axle& axle = rig.vehicle->axles[index];
  const Eigen::Isometry3d X_CA = Transform(rest);
  for (const Link& link : axle.links) {
    const Eigen::Vector3d d =
        X_CA * OnHousing(rig.axles[index].frame, link.span.p_CQ) - link.span.p_CP;
    if (std::abs(d.x()) < std::abs(d.y())) continue;  // across: a track bar
    Finding slope = Judged(FindingKind::kLinkSlopes, index, std::atan2(d.z(), std::abs(d.x())),
                           rig.vehicle->aims.link_slope);
    slope.member = DisplayName(link.name), slope.twins = link.name.key;
    slope.part = {"axles", axle.name, "links", link.name.key};
    AddIfPast(std::move(slope), to);
  }
}

}  // namespace

std::vector<Finding> RestFindings(const Rig& rig, const Stance& stance) {
  const Vehicle& vehicle = *rig.vehicle;
  const Aims& aims = vehicle.aims;
  const StanceReport report = ReportStance(rig, stance);
  std::vector<Finding> found;
  AddIfPast(Judged(FindingKind::kLeansInward, std::nullopt, report.roll_arm, 0.0), found);
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    const AxleReport& at = report.axles[i];
    const double on_axle =
        (report.wheel_load[2 * i] + report.wheel_load[2 * i + 1]) / kStandardGravity;
    Finding rating = Judged(FindingKind::kOverRating, i, on_axle, axle.rating);
    rating.part = {"axles", axle.name, "rating"};
    AddIfPast(std::move(rating), found);
    if (at.ride_frequency) {
      AddIfPast(JudgeFrequency(i, *at.ride_frequency, StopTouches(rig, stance, i), aims), found);
    }
    AddIfPast(Judged(FindingKind::kSitsAskew, i, report.travel[2 * i] - report.travel[2 * i + 1],
                     aims.side_to_side),
              found);
    if (!at.opening_ahead) continue;
    const Eigen::Vector3d hub = 0.5 * (axle.p_CW_l + axle.p_CW_r);
    const double moved = std::hypot(*at.opening_ahead - (hub.x() - axle.opening->x),
                                    *at.opening_up - (hub.z() - axle.opening->z));
    found.push_back(Judged(FindingKind::kMockUpHeight, i, moved, aims.height_change));
    found.back().part = {"openings", axle.name};
  }
  for (Finding& finding : found) finding.load = stance.load;
  return found;
}

void KeepNearestHeight(std::vector<Finding>& findings) {
  const auto is_height = [](const Finding& f) { return f.kind == FindingKind::kMockUpHeight; };
  std::vector<Finding> kept;
  for (const Finding& finding : findings) {
    const bool nearer =
        is_height(finding) &&
        std::any_of(findings.begin(), findings.end(), [&](const Finding& other) {
          return is_height(other) && other.axle == finding.axle && other.value < finding.value;
        });
    if (!nearer && finding.past) kept.push_back(finding);
  }
  findings = std::move(kept);
}

std::vector<Finding> CurveFindings(const Walks& walks, const Sweep& sweep) {
  const Rig& rig = *walks.rig;
  std::vector<Finding> found;
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    AddCurves(rig, i, sweep, found);
    AddSlopes(rig, i, StartMotion(walks, i).pose, found);
  }
  for (Finding& finding : found) {
    if (finding.part.empty()) finding.part = PartOfAxle(rig.vehicle->axles[*finding.axle]);
  }
  return found;
}

std::vector<Finding> GapFindings(const Vehicle& vehicle, const std::vector<GapAtLeast>& gaps) {
  std::vector<Finding> found;
  for (const GapAtLeast& gap : gaps) {
    Finding closes = Judged(FindingKind::kGapCloses, gap.axle, gap.least, gap.limit);
    closes.member = gap.name;
    closes.part = {"axles", vehicle.axles[gap.axle].name, "gaps", gap.name};
    closes.place = FindingPlace{.motion = gap.rolled ? TireMotion::kRoll : TireMotion::kBounce,
                                // Of the body in roll, which is the housing's turned about.
                                .parameter = gap.rolled ? -gap.at : gap.at,
                                .wheel_travel = gap.rolled ? 0.0 : gap.at,
                                .steer = {}};
    AddIfPast(std::move(closes), found);
  }
  return found;
}

std::vector<Finding> FightFindings(const Vehicle& vehicle,
                                   const std::vector<FightAtExtremes>& fights) {
  std::vector<Finding> found;
  for (const FightAtExtremes& fight : fights) {
    Finding bind =
        Judged(FindingKind::kLinksFight, fight.axle, fight.force, vehicle.aims.link_force);
    bind.member = fight.member;
    bind.part = {"axles", vehicle.axles[fight.axle].name, "links"};
    bind.place = FindingPlace{
        .motion = TireMotion::kCrossed, .parameter = fight.cross, .wheel_travel = 0.0, .steer = {}};
    AddIfPast(std::move(bind), found);
  }
  return found;
}

}  // namespace linkwright
