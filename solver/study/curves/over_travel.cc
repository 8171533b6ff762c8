// SPDX-License-Identifier: MIT
#include "solver/study/curves/over_travel.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/numeric/minima.h"
#include "solver/study/curves/motions.h"

namespace linkwright {
namespace {

// Walks one way and keeps the least distance on it, closed in on from the places looked at.
//   path   bounce, or the housing rolled about its place at rest
void WalkGap(const Rig& rig, size_t index, const AxlePath& path, bool up, const Span& span,
             GapAtLeast& gap, bool rolled) {
  const MotionReach reach = ReachOf(*rig.vehicle, rolled ? MotionKind::kRoll : MotionKind::kBounce);
  const AxleWalk walk = WalkAxle(rig, index, path,
                                 {.far = up ? reach.real : -reach.real,
                                  .step = reach.step,
                                  .watch = Watch::kRows,
                                  .to_first = true});
  const LimitHit* end = LastRow(walk.hits);
  const double to = end != nullptr ? *end->at : std::copysign(reach.unlimited, up ? 1.0 : -1.0);
  if (to == 0.0) return;
  constexpr double kClosedIn = 1e-7;  // of the way
  const AxleFrame& frame = rig.axles[index].frame;
  const auto length = [&](double share) {
    const std::optional<Pose> pose = PoseOn(rig, walk, share * to);
    return pose ? LengthAt(span, frame, Transform(*pose)) : std::numeric_limits<double>::infinity();
  };
  const int places = std::max(3, static_cast<int>(std::ceil(2.0 * std::abs(to) / reach.step)) + 1);
  const LeastPoint least = LeastOnInterval(length, 0.0, 1.0, places, kClosedIn);
  if (least.value < gap.least) gap.least = least.value, gap.at = least.at * to, gap.rolled = rolled;
}

// The housing rolled about its place at rest.
AxlePath RollFrom(const Rig& rig, const AxlePath& bounce) {
  return {.place =
              [&rig, &bounce](double roll, size_t axle) {
                const AxlePlace rest = bounce.place(0.0, axle);
                return AxlePlace{.z = rest.z, .roll = rig.axles[axle].frame.measured.roll + roll};
              },
          .refuse = {}};
}

void AddGaps(const Rig& rig, size_t index, const AxlePath& path, std::vector<GapAtLeast>& to) {
  const Axle& axle = rig.vehicle->axles[index];
  if (axle.gaps.empty()) return;
  const AxlePath rolled = RollFrom(rig, path);
  const Eigen::Isometry3d X_CA = Transform(StartMotion(rig, index, path).pose);
  for (const Gap& given : axle.gaps) {
    const double rest = LengthAt(given.span, rig.axles[index].frame, X_CA);
    GapAtLeast gap{.axle = index,
                   .name = given.name,
                   .rest = rest,
                   .least = rest,
                   .rolled = false,
                   .at = 0.0,
                   .limit = given.least.value_or(rig.vehicle->aims.gap)};
    for (const bool up : {false, true}) {
      WalkGap(rig, index, path, up, given.span, gap, false);
      WalkGap(rig, index, rolled, up, given.span, gap, true);
    }
    to.push_back(gap);
  }
}

FightAtExtremes FightIn(const MotionRow& row, size_t index, const Axle& axle) {
  const MotionAxleRow& at = row.axles[index];
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

std::vector<GapAtLeast> FindGaps(const Rig& rig, const Stance* stance) {
  const AxlePath path = PathOf(rig, StartOf(rig, stance), MotionKind::kBounce);
  std::vector<GapAtLeast> gaps;
  for (size_t i = 0; i < 2; ++i) AddGaps(rig, i, path, gaps);
  return gaps;
}

std::vector<FightAtExtremes> FindFights(const Rig& rig, const Stance* stance) {
  std::vector<FightAtExtremes> fights;
  const bool fight = std::any_of(rig.axles.begin(), rig.axles.end(),
                                 [](const RigAxle& axle) { return axle.frame.links.size() > 4; });
  if (!fight) return fights;
  MotionRequest request;
  request.kind = MotionKind::kCrossed;
  request.grid.step = 1.0;  // [rad] only the ends and 0 are wanted
  const MotionSweep crossed = SweepMotion(rig, stance, request);
  for (size_t i = 0; i < 2; ++i) {
    if (rig.axles[i].frame.links.size() <= 4) continue;
    const FightAtExtremes low = FightIn(crossed.rows.front(), i, rig.vehicle->axles[i]);
    const FightAtExtremes high = FightIn(crossed.rows.back(), i, rig.vehicle->axles[i]);
    fights.push_back(low.force > high.force ? low : high);
  }
  return fights;
}

}  // namespace linkwright
