// SPDX-License-Identifier: MIT
#include "solver/study/warnings_over_travel.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/geometry/least.h"
#include "solver/rest/stance_report.h"
#include "solver/study/motions.h"
#include "solver/study/run_outs.h"

namespace linkwright {
namespace {

constexpr double kStep = 0.01;        // [m] between the places looked at
constexpr double kFar = kRealTravel;  // [m] an end farther off is none: only the links set it
constexpr double kEnough = 0.1;       // [m] looked at where there is no end
constexpr double kEnoughRoll = 10.0 * M_PI / 180.0;  // [rad] the same, as in a sweep

AxlePath BounceFrom(const Rig& rig, const Stance* stance) {
  std::array<double, 2> height{};
  for (size_t i = 0; i < 2; ++i) {
    height[i] =
        stance != nullptr ? LevelMotion(rig, *stance)[i].pose.z : rig.axles[i].frame.measured.z;
  }
  return {.place =
              [height, &rig](double travel, size_t axle) {
                return AxlePlace{.z = height[axle] + travel,
                                 .roll = rig.axles[axle].frame.measured.roll};
              },
          .refuse = {}};
}

double LengthAt(const Span& span, const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return (X_CA * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

// Coils at one end of the travel; a walker that cannot quite get there stays within 1e-9 m.
void AddCoilsAt(const Rig& rig, size_t index, const AxlePath& path, const SweepEnd& end,
                std::vector<Warning>& to) {
  const Aims& aims = rig.vehicle->aims;
  Walker walker = StartWalk(rig, index, path);
  constexpr double kInside = 1e-9;  // [m] short of an end found to 1e-10
  (void)WalkTo(walker, end.travel - std::copysign(kInside, end.travel));
  const Eigen::Isometry3d X_CA = Transform(walker.here.pose);
  for (const Spring& spring : rig.vehicle->axles[index].springs) {
    const double length = LengthAt(spring.span, rig.axles[index].frame, X_CA);
    const std::string name = DisplayName(spring.name);
    const double squeeze = spring.law.free_length - length;
    if (end.travel < 0.0 && squeeze < aims.coil_preload) {
      to.push_back({WarningKind::kCoilUnseats, index, name, "", squeeze, aims.coil_preload});
    }
    const std::optional<double> bound = BoundLength(spring);
    if (end.travel < 0.0 || !bound) continue;
    const double left = length - *bound;
    if (left < aims.coil_gap) {
      to.push_back({WarningKind::kCoilNearSolid, index, name, "", left, aims.coil_gap});
    }
  }
}

bool IsDamper(const Axle& axle, const std::string& reason) {
  return std::any_of(axle.dampers.begin(), axle.dampers.end(), [&](const Damper& damper) {
    return reason.starts_with(DisplayName(damper.name) + " is fully");
  });
}

void AddEnds(const Rig& rig, size_t index, const AxlePath& path, const Sweep& sweep,
             std::vector<Warning>& to) {
  const Axle& axle = rig.vehicle->axles[index];
  const std::optional<SweepEnd>& droop = sweep.droop[index];
  const std::optional<SweepEnd>& bump = sweep.bump[index];
  if (droop) {
    AddCoilsAt(rig, index, path, *droop, to);
    if (IsDamper(axle, droop->reason)) {
      to.push_back({WarningKind::kDamperEndsDroop, index, droop->reason, "", droop->travel, 0.0});
    }
  }
  if (!bump) return;
  AddCoilsAt(rig, index, path, *bump, to);
  if (IsDamper(axle, bump->reason)) {
    to.push_back({WarningKind::kDamperEndsBump, index, bump->reason, "", bump->travel, 0.0});
  }
  const double least = rig.vehicle->aims.bump_left;
  if (bump->travel < least) {
    to.push_back({WarningKind::kShortBump, index, bump->reason, "", bump->travel, least});
  }
}

// Where nothing ends a motion it is looked at so far; links alone end nothing farther than `far`.
struct Reach {
  double enough, far, step;
};
constexpr Reach kBounceReach{kEnough, kFar, 0.2 * kStep};
constexpr Reach kRollReach{kEnoughRoll, kRealAngle, 0.25 * M_PI / 180.0};

// Walks one way and keeps the least distance on it, closed in on from the places looked at.
void WalkGap(const Walker& start, const Reach& reach, bool up, const Span& span, GapAtLeast& gap,
             bool rolled) {
  const std::optional<SweepEnd> end = FindEnd(start, up ? reach.far : -reach.far, reach.step);
  const double to = end ? end->travel : (up ? reach.enough : -reach.enough);
  constexpr double kClosedIn = 1e-7;  // of the way
  Walker walker = start;
  const auto length = [&](double share) {
    if (WalkTo(walker, share * to)) return std::numeric_limits<double>::infinity();
    return LengthAt(span, start.rig->axles[start.axle].frame, Transform(walker.here.pose));
  };
  const int places = std::max(3, static_cast<int>(std::ceil(std::abs(to) / reach.step)) + 1);
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
  const Walker bounce_start = StartWalk(rig, index, path);
  const Walker roll_start = StartWalk(rig, index, rolled);
  for (const Gap& given : axle.gaps) {
    const double rest =
        LengthAt(given.span, rig.axles[index].frame, Transform(bounce_start.here.pose));
    GapAtLeast gap{.axle = index,
                   .name = given.name,
                   .rest = rest,
                   .least = rest,
                   .rolled = false,
                   .at = 0.0,
                   .limit = given.least.value_or(rig.vehicle->aims.gap)};
    for (const bool up : {false, true}) {
      WalkGap(bounce_start, kBounceReach, up, given.span, gap, false);
      WalkGap(roll_start, kRollReach, up, given.span, gap, true);
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
  const Eigen::Isometry3d X_CA = Transform(StartWalk(rig, index, path).here.pose);
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
  MotionSweep crossed = SweepMotion(rig, stance, request);
  // Beyond kRealAngle nothing but links lining up is to be met.
  const auto real = [](double angle) { return std::abs(angle) <= kRealAngle; };
  if (!real(crossed.rows.front().parameter) || !real(crossed.rows.back().parameter)) {
    request.grid = {.from = -kEnoughRoll, .to = kEnoughRoll, .step = kEnoughRoll};
    crossed = SweepMotion(rig, stance, request);
  }
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

// Bounce between the ends that members set, and as far as is enough where they set none.
Sweep SweepWithin(const Rig& rig, const Stance* stance) {
  const Sweep ends = SweepBounce(rig, stance, {.from = -kFar, .to = kFar, .step = 2.0 * kFar});
  const double from = Nearest(ends.droop, -kEnough), to = Nearest(ends.bump, kEnough);
  Sweep sweep = SweepBounce(rig, stance, {.from = from, .to = to, .step = kStep});
  sweep.droop = ends.droop;
  sweep.bump = ends.bump;
  return sweep;
}

}  // namespace

void AddOverTravel(const Rig& rig, const Stance* stance, WarningReport& report) {
  const AxlePath path = BounceFrom(rig, stance);
  const Sweep sweep = SweepWithin(rig, stance);
  for (size_t i = 0; i < 2; ++i) {
    AddEnds(rig, i, path, sweep, report.warnings);
    AddGaps(rig, i, path, report);
    AddCurves(rig, i, sweep, report.warnings);
    AddSlopes(rig, i, path, report.warnings);
  }
  AddFights(rig, stance, report);
}

}  // namespace linkwright
