// SPDX-License-Identifier: MIT
#include "solver/study/steering/steering_report.h"

#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/study/curves/sweep_row.h"
#include "solver/study/steering/track_bar.h"

namespace linkwright {
namespace {
// Where a kingpin axis passes the height of the wheel centres.
Eigen::Vector3d AtHubHeight(const KingpinAxis& pin) {
  return pin.p_AK - pin.p_AK.z() / pin.axis_A.z() * pin.axis_A;
}

std::vector<HandRow> LockToLock(const SteeredAxle& steered, std::optional<double> wheelbase) {
  std::vector<HandRow> rows;
  for (const MotionRow& row : steered.hand.rows) {
    const auto& hand = row.axles[steered.axle]->hand;
    if (!hand[0] || !hand[1]) continue;
    HandRow entry{.left = *hand[0], .right = *hand[1], .difference = 0.0, .wanted = std::nullopt};
    const bool to_left = entry.left > 0.0;
    const double inner = std::abs(to_left ? entry.left : entry.right);
    const double outer = std::abs(to_left ? entry.right : entry.left);
    entry.difference = inner - outer;
    if (row.parameter != 0.0 && wheelbase) {
      entry.wanted = AckermannDifference(inner, steered.kingpin_spacing, *wheelbase);
    }
    rows.push_back(entry);
  }
  return rows;
}

SteeredAxle ReportAxle(const Walks& walks, const Standing& standing, const Load* load, size_t axle,
                       double step, bool cures) {
  const Rig& rig = *walks.rig;
  const Axle& part = rig.vehicle->axles[axle];
  const AxleFrame& frame = rig.axles[axle].frame;
  SteeredAxle steered{};
  steered.axle = axle;
  steered.tie_rod = part.steering->tie_rod.has_value();
  steered.travel = SweepBounce(walks, {.from = {}, .to = {}, .step = step, .axle = axle});
  steered.match = MatchBar(rig, standing, axle);
  if (!cures) return steered;
  const GridOptions roll{.from = {}, .to = {}, .step = kOneDegree, .axle = axle};
  steered.roll = SweepMotion(walks, {.kind = MotionKind::kRoll, .wheel = 0, .grid = roll});
  GridOptions hand{
      .from = std::nullopt, .to = std::nullopt, .step = 5.0 * kOneDegree, .axle = axle};
  if (!part.steering->lock) hand.from = -30.0 * kOneDegree, hand.to = 30.0 * kOneDegree;
  steered.hand = SweepMotion(walks, {.kind = MotionKind::kSteer, .wheel = 0, .grid = hand});
  steered.kingpin_spacing = (AtHubHeight(PrepareKingpin(part, frame, 1.0)) -
                             AtHubHeight(PrepareKingpin(part, frame, -1.0)))
                                .norm();
  std::optional<double> wheelbase;
  if (!rig.vehicle->only_axle) {
    const Floor floor = FloorUnder(PrepareSweep(rig, walks.stance), standing.level);
    wheelbase = WheelbaseOn(floor, standing.level);
  }
  steered.lock = LockToLock(steered, wheelbase);
  if (steered.match) steered.moves = MoveBar(rig, standing, load, axle, steered.match->link);
  return steered;
}

}  // namespace

SteeringReport ReportSteering(const Walks& walks, const Standing& standing, const Load* load,
                              double step, bool cures) {
  const Rig& rig = *walks.rig;
  SteeringReport report;
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    report.sideways.push_back(CentreAxle(rig, standing, load, i, cures));
    if (!rig.vehicle->axles[i].steering) continue;
    report.axles.push_back(ReportAxle(walks, standing, load, i, step, cures));
  }
  return report;
}

}  // namespace linkwright
