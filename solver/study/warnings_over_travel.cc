// SPDX-License-Identifier: MIT
#include "solver/study/warnings_over_travel.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/numeric/minima.h"
#include "solver/study/motions.h"

namespace linkwright {
namespace {

constexpr double kStep = 0.01;  // [m] between the places looked at

double LengthAt(const Span& span, const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return (X_CA * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

// Coils where rows end.
void AddCoilsAt(const Rig& rig, size_t index, const Pose& pose, bool bump,
                std::vector<Warning>& to) {
  const Aims& aims = rig.vehicle->aims;
  const Eigen::Isometry3d X_CA = Transform(pose);
  for (const Spring& spring : rig.vehicle->axles[index].springs) {
    const double length = LengthAt(spring.span, rig.axles[index].frame, X_CA);
    const std::string name = DisplayName(spring.name);
    const double squeeze = spring.law.free_length - length;
    if (!bump && squeeze < aims.coil_preload) {
      to.push_back({WarningKind::kCoilUnseats, index, name, "", squeeze, aims.coil_preload});
    }
    const std::optional<double> bound = BoundLength(spring);
    if (bump && bound && length - *bound < aims.coil_gap) {
      to.push_back({WarningKind::kCoilNearSolid, index, name, "", length - *bound, aims.coil_gap});
    }
  }
}

bool IsDamper(const TravelLimit& limit) {
  return limit.id.kind == LimitKind::kDamperClosed || limit.id.kind == LimitKind::kDamperOpen;
}

// What ends the rows of one axle, and how much bump is left before anything ends it, as `limits`
// has it.
void AddEnds(const Rig& rig, size_t index, const AxlePath& path, const Sweep& sweep,
             std::vector<Warning>& to) {
  for (const bool up : {false, true}) {
    const std::optional<LimitHit>& end = up ? sweep.bump[index] : sweep.droop[index];
    if (!end) continue;
    const AxleWalk walk =
        WalkAxle(rig, index, path, {.far = *end->at, .step = kStep, .watch = Watch::kRows});
    AddCoilsAt(rig, index, walk.places.back().motion.pose, up, to);
    if (!IsDamper(end->limit)) continue;
    to.push_back({up ? WarningKind::kDamperEndsBump : WarningKind::kDamperEndsDroop, index,
                  Describe(end->limit), "", *end->at, 0.0});
  }
  const double least = rig.vehicle->aims.bump_left;
  const MotionReach reach = ReachOf(*rig.vehicle, MotionKind::kBounce);
  const AxleWalk walk =
      WalkAxle(rig, index, path, {.far = reach.far, .step = reach.step, .to_first = true});
  const LimitHit* first = FirstEnd(walk.hits, reach.real);
  if (first != nullptr && *first->at < least) {
    to.push_back({WarningKind::kShortBump, index, Describe(first->limit), "", *first->at, least});
  }
}

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

void AddGaps(const Rig& rig, size_t index, const AxlePath& path, WarningReport& report) {
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
    if (gap.least < gap.limit) {
      report.warnings.push_back(
          {WarningKind::kGapCloses, index, gap.name, "", gap.least, gap.limit});
    }
    report.gaps.push_back(gap);
  }
}

// Where the housing's turn per travel changes sign, its instant centre passes through infinity.
std::optional<double> TurnsInsideOut(const Sweep& sweep, size_t index) {
  for (size_t r = 1; r < sweep.rows.size(); ++r) {
    const auto& before = sweep.rows[r - 1].axles[index].instant_center;
    const auto& after = sweep.rows[r].axles[index].instant_center;
    if (!before || !after || (before->ahead > 0.0) == (after->ahead > 0.0)) continue;
    // Through the hub instead of infinity: near it on both sides.
    if (std::abs(before->ahead) + std::abs(after->ahead) < 1.0) continue;
    return 0.5 * (sweep.rows[r - 1].travel + sweep.rows[r].travel);
  }
  return std::nullopt;
}

void AddCurves(const Rig& rig, size_t index, const Sweep& sweep, std::vector<Warning>& to) {
  const Aims& aims = rig.vehicle->aims;
  if (const auto travel = TurnsInsideOut(sweep, index)) {
    to.push_back({WarningKind::kCenterInsideOut, index, "", "", *travel, 0.0});
  }
  const auto pitch = [&](const SweepRow& row) { return row.axles[index].housing_pitch; };
  const auto [low, high] = std::minmax_element(
      sweep.rows.begin(), sweep.rows.end(),
      [&](const SweepRow& a, const SweepRow& b) { return pitch(a) < pitch(b); });
  const double turn = pitch(*high) - pitch(*low);
  if (turn > aims.pitch) {
    to.push_back({WarningKind::kPitches, index, "", "", turn, aims.pitch});
  }
  for (const SweepRow& row : sweep.rows) {
    const double steer = row.axles[index].roll_steer;
    if (row.travel != 0.0 || std::abs(steer) <= aims.roll_steer) continue;
    to.push_back({WarningKind::kRollSteers, index, "", "", steer, aims.roll_steer});
  }
}

void AddSlopes(const Rig& rig, size_t index, const AxlePath& path, std::vector<Warning>& to) {
  const double most = rig.vehicle->aims.link_slope;
  const AxleFrame& frame = rig.axles[index].frame;
  const Eigen::Isometry3d X_CA = Transform(StartMotion(rig, index, path).pose);
  for (const Link& link : rig.vehicle->axles[index].links) {
    const Eigen::Vector3d d = X_CA * OnHousing(frame, link.span.p_CQ) - link.span.p_CP;
    if (std::abs(d.x()) < std::abs(d.y())) continue;  // across: a track bar
    const double slope = std::atan2(d.z(), std::abs(d.x()));
    if (std::abs(slope) <= most) continue;
    to.push_back({WarningKind::kLinkSlopes, index, DisplayName(link.name), "", slope, most});
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

void AddFights(const Rig& rig, const Stance* stance, WarningReport& report) {
  const bool fights = std::any_of(rig.axles.begin(), rig.axles.end(),
                                  [](const RigAxle& axle) { return axle.frame.links.size() > 4; });
  if (!fights) return;
  MotionRequest request;
  request.kind = MotionKind::kCrossed;
  request.grid.step = 1.0;  // [rad] only the ends and 0 are wanted
  const MotionSweep crossed = SweepMotion(rig, stance, request);
  for (size_t i = 0; i < 2; ++i) {
    if (rig.axles[i].frame.links.size() <= 4) continue;
    const FightAtExtremes low = FightIn(crossed.rows.front(), i, rig.vehicle->axles[i]);
    const FightAtExtremes high = FightIn(crossed.rows.back(), i, rig.vehicle->axles[i]);
    const FightAtExtremes& worst = low.force > high.force ? low : high;
    report.fights.push_back(worst);
    const std::optional<double>& most = rig.vehicle->aims.link_force;
    if (most && worst.force > *most) {
      report.warnings.push_back(
          {WarningKind::kLinksFight, i, worst.member, "", worst.force, *most});
    }
  }
}

}  // namespace

void AddOverTravel(const Rig& rig, const Stance* stance, WarningReport& report) {
  const AxlePath path = PathOf(rig, StartOf(rig, stance), MotionKind::kBounce);
  const Sweep sweep = SweepBounce(rig, stance, {.from = {}, .to = {}, .step = kStep});
  for (size_t i = 0; i < 2; ++i) {
    AddEnds(rig, i, path, sweep, report.warnings);
    AddGaps(rig, i, path, report);
    AddCurves(rig, i, sweep, report.warnings);
    AddSlopes(rig, i, path, report.warnings);
  }
  AddFights(rig, stance, report);
}

}  // namespace linkwright
