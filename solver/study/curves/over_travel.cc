// SPDX-License-Identifier: MIT
#include "solver/study/curves/over_travel.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/numeric/minima.h"
#include "solver/study/curves/motions.h"

namespace linkwright {
namespace {

// Looks one way and keeps the least distance there, closed in on from the places looked at.
void LookForGap(const Walks& walks, size_t index, MotionKind motion, double sign, const Span& span,
                GapAtLeast& gap) {
  const Rig& rig = *walks.rig;
  const OneWay way = WalkOneWay(walks, index, motion, 0, std::nullopt, sign);
  const double to = way.reached;
  if (to == 0.0) return;
  constexpr double kClosedIn = 1e-7;  // of the way
  const AxleFrame& frame = rig.axles[index].frame;
  const auto length = [&](double share) {
    const std::optional<Pose> pose = PoseOn(rig, *way.walk, share * to);
    return pose ? LengthAt(span, frame, Transform(*pose)) : std::numeric_limits<double>::infinity();
  };
  const double step = ReachOf(*rig.vehicle, motion).step;
  const int places = std::max(3, static_cast<int>(std::ceil(2.0 * std::abs(to) / step)) + 1);
  const LeastPoint least = LeastOnInterval(length, 0.0, 1.0, places, kClosedIn);
  if (least.value >= gap.least) return;
  gap.least = least.value, gap.rolled = motion == MotionKind::kRoll;
  gap.at = gap.rolled ? -least.at * to : least.at * to;
}

void AddGaps(const Walks& walks, size_t index, std::vector<GapAtLeast>& to) {
  const Rig& rig = *walks.rig;
  const Axle& axle = rig.vehicle->axles[index];
  if (axle.gaps.empty()) return;
  const Eigen::Isometry3d X_CA = Transform(StartMotion(walks, index).pose);
  for (const Gap& given : axle.gaps) {
    const double rest = LengthAt(given.span, rig.axles[index].frame, X_CA);
    GapAtLeast gap{.axle = index,
                   .name = given.name,
                   .rest = rest,
                   .least = rest,
                   .rolled = false,
                   .at = 0.0,
                   .limit = given.least.value_or(rig.vehicle->aims.gap)};
    for (const double sign : {-1.0, 1.0}) {
      LookForGap(walks, index, MotionKind::kBounce, sign, given.span, gap);
      LookForGap(walks, index, MotionKind::kRoll, -sign, given.span, gap);
    }
    to.push_back(gap);
  }
}

FightAtExtremes FightIn(const MotionRow& row, size_t index, const Axle& axle) {
  const MotionAxleRow& at = *row.axles[index];
  FightAtExtremes fight{.axle = index,
                        .cross = row.parameter,
                        .member = {},
                        .force = at.link_strain_force,
                        .twist = 0.0,
                        .misalignment = 0.0};
  const auto look = [&fight](const JointTurn& joint) {
    fight.twist = std::max(fight.twist, std::abs(joint.twist));
    fight.misalignment = std::max(fight.misalignment, std::abs(joint.misalignment));
  };
  for (const NamedJoint& joint : at.arm_joints) look(joint.turn);
  double most = 0.0;
  for (size_t l = 0; l < at.links.size(); ++l) {
    look(at.links[l].turn.frame);
    look(at.links[l].turn.axle);
    const double force = std::abs(at.links[l].strain_force);
    if (force > most) most = force, fight.member = DisplayName(axle.links[l].name);
  }
  if (most < fight.force) fight.member = "an arm";
  return fight;
}

}  // namespace

std::vector<GapAtLeast> FindGaps(const Walks& walks) {
  std::vector<GapAtLeast> gaps;
  for (const size_t i : AxlesOf(*walks.rig->vehicle)) AddGaps(walks, i, gaps);
  return gaps;
}

std::vector<FightAtExtremes> FindFights(const Walks& walks) {
  const Rig& rig = *walks.rig;
  std::vector<FightAtExtremes> fights;
  const bool fight = std::any_of(rig.axles.begin(), rig.axles.end(),
                                 [](const RigAxle& axle) { return axle.frame.links.size() > 4; });
  if (!fight) return fights;
  MotionRequest request;
  request.kind = MotionKind::kCrossed;
  request.grid.step = 1.0;  // [rad] only the ends and 0 are wanted
  const MotionSweep crossed = SweepMotion(walks, request);
  // The first axle to end a crossing stops both.
  const std::span<const size_t> axles = AxlesOf(*rig.vehicle);
  const auto all = [&](const MotionRow& row) {
    return std::all_of(axles.begin(), axles.end(), [&](size_t i) { return row.axles[i]; });
  };
  const auto first = std::find_if(crossed.rows.begin(), crossed.rows.end(), all);
  const auto last = std::find_if(crossed.rows.rbegin(), crossed.rows.rend(), all);
  for (const size_t i : axles) {
    if (rig.axles[i].frame.links.size() <= 4) continue;
    const FightAtExtremes low = FightIn(*first, i, rig.vehicle->axles[i]);
    const FightAtExtremes high = FightIn(*last, i, rig.vehicle->axles[i]);
    fights.push_back(low.force > high.force ? low : high);
  }
  return fights;
}

}  // namespace linkwright
