// SPDX-License-Identifier: MIT
#include "solver/study/motions.h"

#include <algorithm>
#include <cmath>

#include "solver/model/error.h"
#include "solver/rest/link_loads.h"
#include "solver/study/paths.h"
#include "solver/study/sweep_row.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;  // [rad] steps of a search, not a unit of the interface

// How far a motion is searched for ends, in what steps, and how far it goes where nothing ends it.
struct Reach {
  double far, step, unlimited;
};

Reach ReachOf(const Vehicle& vehicle, MotionKind kind) {
  double hand = 30.0 * kDegree;
  for (const Axle& axle : vehicle.axles) {
    if (axle.steering && axle.steering->lock) hand = 60.0 * kDegree;  // what the file may give
  }
  switch (kind) {
    case MotionKind::kOneWheel:
      return {.far = 0.6, .step = 0.005, .unlimited = 0.1};  // [m]
    case MotionKind::kSteer:
      return {.far = hand, .step = 1.0 * kDegree, .unlimited = 30.0 * kDegree};
    default:
      return {.far = 40.0 * kDegree, .step = 0.5 * kDegree, .unlimited = 10.0 * kDegree};
  }
}

// Height and roll of a housing whose wheels travel by left and right from the axle's mean stance.
AxlePlace PlaceAt(const AxleFrame& frame, double mean_travel, double left, double right) {
  return {.z = frame.measured.z + mean_travel + 0.5 * (left + right),
          .roll = std::asin(std::sin(frame.measured.roll) + (left - right) / frame.track)};
}

// Steer of one road wheel against straight ahead [rad].
double RoadSteer(const Axle& axle, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
                 size_t side, double turn) {
  const KingpinAxis pin = PrepareKingpin(axle, frame, side == 0 ? 1.0 : -1.0);
  return HeadingOf(pin, turn, X_CA) - HeadingOf(pin, 0.0, X_CA);
}

// Under a turned steering wheel: whether the linkage follows, and short of the lock.
std::optional<std::string> RefuseHand(const Rig& rig, double hand, size_t index,
                                      const Eigen::Isometry3d& X_CA) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  if (!axle.steering) return std::nullopt;
  const auto turns = TurnByHand(axle, frame, X_CA, hand);
  if (!turns) return "the tie rod cannot follow";
  if (axle.steering->lock) {
    const double inside = hand >= 0.0 ? hand : -RoadSteer(axle, frame, X_CA, 1, turns->right);
    constexpr double kAtLock = 1e-9;  // [rad] a row at the lock is a row
    if (inside > *axle.steering->lock + kAtLock) return "the steering is at its lock";
  }
  if (FollowDragLink(axle, PrepareKnuckle(axle, frame), X_CA, *turns).over_centre) {
    return "the drag link stands in line with its knuckle arm and turns the wheel no further";
  }
  return std::nullopt;
}

std::optional<double> MeanCoilLength(const Axle& axle, const AxleFrame& frame,
                                     const Eigen::Isometry3d& X_CA, bool left) {
  double sum = 0.0, count = 0.0;
  for (const Spring& spring : axle.springs) {
    if ((spring.span.p_CQ.y() > 0.0) != left) continue;
    sum += (X_CA * OnHousing(frame, spring.span.p_CQ) - spring.span.p_CP).norm();
    count += 1.0;
  }
  if (count == 0.0) return std::nullopt;
  return sum / count;
}

void AddLinks(const Axle& axle, const RigAxle& prepared, const HousingMotion& motion,
              const std::optional<Eigen::Vector3d>& up_C, MotionAxleRow& row) {
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  std::optional<HousingBalance> balance;
  if (up_C) balance = BalanceHousing(axle, prepared, motion, *up_C);
  for (size_t i = 0; i < axle.links.size(); ++i) {
    const FrameLink& link = prepared.frame.links[i];
    LinkRow entry{.strain_force = motion.link_forces.empty() ? 0.0 : motion.link_forces[i],
                  .force = std::nullopt,
                  .turn = TurnOfLink(prepared.frame, link, UsualBolt(link, prepared.frame), X_CA)};
    if (balance) entry.force = balance->link_force[i];
    row.links.push_back(entry);
  }
  row.arm_joints = TurnsOfArms(axle, prepared.frame, motion.pose);
  row.link_strain_force = GreatestMemberForce(prepared.frame, motion.pose, motion.link_forces);
  if (!balance) return;
  // Links come first among the members, arms and cranks after them.
  const auto after_links = [&](const std::vector<double>& tension) {
    std::vector<MemberForce> all = MemberForces(prepared.frame, motion.pose, tension);
    all.erase(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(axle.links.size()));
    return all;
  };
  row.arms = after_links(balance->link_force);
  row.arms_strain =
      after_links(motion.link_forces.empty() ? std::vector<double>(prepared.frame.links.size(), 0.0)
                                             : motion.link_forces);
}

// Where the wheels stand when the left one has been steered by `hand`.
void AddHand(const Axle& axle, const AxleFrame& frame, const Eigen::Isometry3d& X_CA, double hand,
             MotionAxleRow& row) {
  const auto turns = TurnByHand(axle, frame, X_CA, hand);
  if (!turns) return;
  const std::array<double, 2> turn{turns->left, turns->right};
  for (size_t side = 0; side < 2; ++side) {
    const double sign = side == 0 ? 1.0 : -1.0;
    const KingpinAxis pin = PrepareKingpin(axle, frame, sign);
    row.wheel[side] = X_CA * Turned(pin, turn[side], {0.0, sign * 0.5 * frame.track, 0.0});
    row.hand[side] = RoadSteer(axle, frame, X_CA, side, turn[side]);
  }
  const Knuckle knuckle = PrepareKnuckle(axle, frame);
  row.pitman_travel = FollowDragLink(axle, knuckle, X_CA, *turns).pitman_travel;
  const size_t led = axle.steering->drag_link.p_CQ.y() >= 0.0 ? 0 : 1;
  row.steer = HeadingOf(knuckle.pin, turn[led], X_CA);
}

//   up_C   the floor's normal; absent: geometry only, no forces
MotionAxleRow EvaluateAxle(const Rig& rig, size_t index, const std::optional<Eigen::Vector3d>& up_C,
                           const HousingMotion& motion) {
  const Axle& axle = rig.vehicle->axles[index];
  const RigAxle& prepared = rig.axles[index];
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  const double half = 0.5 * prepared.frame.track;
  MotionAxleRow row{};
  row.lateral_shift = motion.pose.y;
  row.axle_steer = motion.pose.steer;
  row.housing_pitch = HousingPitch(prepared.frame, motion).v;
  row.housing_roll = motion.pose.roll;
  row.wheelbase_change = index == kFront ? motion.pose.x : -motion.pose.x;
  row.wheel = {X_CA * Eigen::Vector3d(0.0, half, 0.0), X_CA * Eigen::Vector3d(0.0, -half, 0.0)};
  row.spring_length = {MeanCoilLength(axle, prepared.frame, X_CA, true),
                       MeanCoilLength(axle, prepared.frame, X_CA, false)};
  AddLinks(axle, prepared, motion, up_C, row);
  if (axle.steering) {
    const Knuckle knuckle = PrepareKnuckle(axle, prepared.frame);
    row.steer = SpindleHeading(knuckle, X_CA);
    if (const auto held = SteerOf(axle, prepared.frame, knuckle, motion)) {
      row.steer_per_roll = held->per_roll;
      row.toe_in = held->toe_in;
    }
  }
  return row;
}

// The normal of the floor in the row at 0, the chassis level sideways as everywhere in a sweep;
// absent without a stance. docs/theory.md (20)
std::optional<Eigen::Vector3d> FloorNormal(const Rig& rig, const Stance* stance,
                                           const AxlePath& path) {
  if (stance == nullptr) return std::nullopt;
  const std::array<Pose, 2> pose{StartWalk(rig, 0, path).here.pose,
                                 StartWalk(rig, 1, path).here.pose};
  return FloorUnder({Transform(pose[0]).translation(), Transform(pose[1]).translation()},
                    PrepareSweep(rig, stance).radius)
      .n;
}

// The same as the body rolls over it: its left side goes up against the floor. docs/theory.md (50)
std::optional<Eigen::Vector3d> Tilted(const std::optional<Eigen::Vector3d>& up_C, MotionKind kind,
                                      double parameter) {
  if (!up_C || kind != MotionKind::kRoll) return up_C;
  return std::cos(parameter) * *up_C + std::sin(parameter) * Eigen::Vector3d::UnitY();
}

void SubtractRest(const MotionRow& rest, MotionRow& row) {
  for (size_t i = 0; i < 2; ++i) {
    MotionAxleRow& axle = row.axles[i];
    axle.lateral_shift -= rest.axles[i].lateral_shift;
    axle.wheelbase_change -= rest.axles[i].wheelbase_change;
    if (axle.steer && rest.axles[i].steer) *axle.steer -= *rest.axles[i].steer;
    if (axle.toe_in && rest.axles[i].toe_in) *axle.toe_in -= *rest.axles[i].toe_in;
  }
}

}  // namespace

AxlePath MotionPath(const Rig& rig, const MotionRequest& request,
                    const std::array<double, 2>& start) {
  AxlePath path;
  if (request.kind == MotionKind::kSteer) {
    path.refuse = [&rig](double hand, size_t axle, const Eigen::Isometry3d& X_CA) {
      return RefuseHand(rig, hand, axle, X_CA);
    };
  }
  path.place = [&rig, request, start](double s, size_t axle) {
    const AxleFrame& frame = rig.axles[axle].frame;
    double left = 0.0, right = 0.0;
    if (request.kind == MotionKind::kRoll || request.kind == MotionKind::kCrossed) {
      const double phi = request.kind == MotionKind::kCrossed && axle == kRear ? -s : s;
      left = -0.5 * frame.track * std::sin(phi);
      right = -left;
    } else if (request.kind == MotionKind::kOneWheel && request.wheel / 2 == axle) {
      (request.wheel % 2 == 0 ? left : right) = s;
    }
    return PlaceAt(frame, start[axle], left, right);
  };
  return path;
}

MotionSweep SweepMotion(const Rig& rig, const Stance* stance, const MotionRequest& request) {
  const std::array<Axle, 2>& axles = rig.vehicle->axles;
  if (request.kind == MotionKind::kSteer && !axles[0].steering && !axles[1].steering) {
    throw ModelError({"axles"}, "no axle steers: steering: {drag_link: ...} is wanted at one");
  }
  const AxlePath path = MotionPath(rig, request, StartOf(rig, stance));
  const Reach reach = ReachOf(*rig.vehicle, request.kind);
  const GridOptions& grid = request.grid;
  MotionSweep sweep{.request = request, .rows = {}, .low = {}, .high = {}};
  for (size_t i = 0; i < 2; ++i) {
    const Walker start = StartWalk(rig, i, path);
    sweep.low[i] = FindEnd(start, grid.from ? std::min(*grid.from, 0.0) : -reach.far, reach.step);
    sweep.high[i] = FindEnd(start, grid.to ? std::max(*grid.to, 0.0) : reach.far, reach.step);
  }
  const double from = grid.from.value_or(Nearest(sweep.low, -reach.unlimited));
  const double to = grid.to.value_or(Nearest(sweep.high, reach.unlimited));
  const std::optional<Eigen::Vector3d> level = FloorNormal(rig, stance, path);
  sweep.rows = WalkGrid<MotionRow>(
      rig, path, Between(sweep.low, sweep.high, Grid(from, to, grid)),
      [&](double parameter, const std::array<HousingMotion, 2>& motion) {
        MotionRow row{.parameter = parameter,
                      .diagonal_travel = DiagonalTravel(rig, {motion[0].pose, motion[1].pose}),
                      .axles = {}};
        for (size_t i = 0; i < 2; ++i) {
          row.axles[i] = EvaluateAxle(rig, i, Tilted(level, request.kind, parameter), motion[i]);
          const Axle& axle = rig.vehicle->axles[i];
          if (request.kind == MotionKind::kSteer && axle.steering) {
            AddHand(axle, rig.axles[i].frame, Transform(motion[i].pose), parameter, row.axles[i]);
          }
        }
        return row;
      });
  const auto zero = std::find_if(sweep.rows.begin(), sweep.rows.end(),
                                 [](const MotionRow& row) { return row.parameter == 0.0; });
  const MotionRow rest = *zero;
  for (MotionRow& row : sweep.rows) SubtractRest(rest, row);
  return sweep;
}

}  // namespace linkwright
