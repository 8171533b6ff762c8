// SPDX-License-Identifier: MIT
#include "solver/study/curves/motions.h"

#include <algorithm>
#include <cmath>

#include "solver/model/error.h"
#include "solver/rest/link_loads.h"
#include "solver/study/curves/sweep_row.h"

namespace linkwright {
namespace {

std::optional<double> MeanCoilLength(const Axle& axle, const AxleFrame& frame,
                                     const Eigen::Isometry3d& X_CA, bool left) {
  double sum = 0.0, count = 0.0;
  for (const Spring& spring : axle.springs) {
    if ((spring.span.p_CQ.y() > 0.0) != left) continue;
    sum += LengthAt(spring.span, frame, X_CA);
    count += 1.0;
  }
  if (count == 0.0) return std::nullopt;
  return sum / count;
}

void AddLinks(const Axle& axle, const RigAxle& prepared, const RowPlace& place,
              const std::optional<Eigen::Vector3d>& up_C, MotionAxleRow& row) {
  const HousingMotion& motion = place.motion;
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  std::optional<HousingBalance> balance;
  if (up_C && !place.folded) balance = BalanceHousing(axle, prepared, motion, *up_C);
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
    row.wheel[side] = X_CA * Turned(pin, turn[side], WheelCentre(frame, side));
    row.hand[side] = RoadSteer(axle, frame, X_CA, side, turn[side]);
  }
  const Knuckle knuckle = PrepareKnuckle(axle, frame);
  row.pitman_travel = FollowDragLink(axle, knuckle, X_CA, *turns).pitman_travel;
  const size_t led = LeadsLeft(*axle.steering) ? 0 : 1;
  row.steer = HeadingOf(knuckle.pin, turn[led], X_CA);
}

//   up_C   the floor's normal; absent: geometry only, no forces
MotionAxleRow EvaluateAxle(const Rig& rig, size_t index, const std::optional<Eigen::Vector3d>& up_C,
                           const RowPlace& place) {
  const HousingMotion& motion = place.motion;
  const Axle& axle = rig.vehicle->axles[index];
  const RigAxle& prepared = rig.axles[index];
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  MotionAxleRow row{};
  row.lateral_shift = motion.pose.y;
  row.axle_steer = motion.pose.steer;
  row.housing_pitch = HousingPitch(prepared.frame, motion).v;
  row.housing_roll = motion.pose.roll;
  row.wheelbase_change = index == kFront ? motion.pose.x : -motion.pose.x;
  row.wheel = {X_CA * WheelCentre(prepared.frame, 0), X_CA * WheelCentre(prepared.frame, 1)};
  row.spring_length = {MeanCoilLength(axle, prepared.frame, X_CA, true),
                       MeanCoilLength(axle, prepared.frame, X_CA, false)};
  AddLinks(axle, prepared, place, up_C, row);
  if (axle.steering) {
    const Knuckle knuckle = PrepareKnuckle(axle, prepared.frame);
    row.steer = SpindleHeading(knuckle, X_CA);
    if (const auto held = SteerOf(axle, prepared.frame, knuckle, motion)) {
      if (!place.folded) row.steer_per_roll = held->per_roll;
      row.toe_in = held->toe_in;
    }
  }
  return row;
}

// The normal of the floor in the row at 0, the chassis level sideways as everywhere in a sweep;
// absent without a stance. docs/theory.md (20)
std::optional<Eigen::Vector3d> FloorNormal(const Walks& walks) {
  if (walks.stance == nullptr) return std::nullopt;
  const SweepBasis basis = PrepareSweep(*walks.rig, walks.stance);
  return FloorUnder(basis, {StartMotion(walks, kFront), StartMotion(walks, kRear)}).n;
}

// The same as the body rolls over it: its left side goes up against the floor. docs/theory.md (50)
std::optional<Eigen::Vector3d> Tilted(const std::optional<Eigen::Vector3d>& up_C, MotionKind kind,
                                      double parameter) {
  if (!up_C || kind != MotionKind::kRoll) return up_C;
  return std::cos(parameter) * *up_C + std::sin(parameter) * Eigen::Vector3d::UnitY();
}

void SubtractRest(const MotionRow& rest, MotionRow& row) {
  for (size_t i = 0; i < 2; ++i) {
    if (!row.axles[i]) continue;
    const MotionAxleRow& from = *rest.axles[i];
    MotionAxleRow& axle = *row.axles[i];
    axle.lateral_shift -= from.lateral_shift;
    axle.wheelbase_change -= from.wheelbase_change;
    if (axle.steer && from.steer) *axle.steer -= *from.steer;
    if (axle.toe_in && from.toe_in) *axle.toe_in -= *from.toe_in;
  }
}

}  // namespace

const MotionRow& AtRest(const MotionSweep& sweep) {
  return *std::find_if(sweep.rows.begin(), sweep.rows.end(),
                       [](const MotionRow& row) { return row.parameter == 0.0; });
}

MotionSweep SweepMotion(const Walks& walks, const MotionRequest& request) {
  const Rig& rig = *walks.rig;
  const std::optional<size_t> only = OneAxleOf(request.grid, *rig.vehicle);
  const std::array<Axle, 2>& axles = rig.vehicle->axles;
  if (request.kind == MotionKind::kSteer && !axles[0].steering && !axles[1].steering) {
    throw ModelError({"axles"}, "no axle steers: steering: {drag_link: ...} is wanted at one");
  }
  const GridWalk walked = WalkToEnds(walks, request.kind, request.wheel, request.grid);
  MotionSweep sweep{.request = request, .rows = {}, .low = {}, .high = {}};
  sweep.request.grid.axle = only;
  for (size_t i = 0; i < 2; ++i) {
    if (!walked.moves[i]) continue;
    sweep.low[i] = walked.low[i].end, sweep.high[i] = walked.high[i].end;
  }
  const std::optional<Eigen::Vector3d> level = FloorNormal(walks);
  for (const double parameter : walked.grid) {
    const std::array<RowPlace, 2> places{PlaceIn(rig, walked, kFront, parameter),
                                         PlaceIn(rig, walked, kRear, parameter)};
    MotionRow row{.parameter = parameter, .diagonal_travel = {}, .axles = {}};
    if (!only && !places[0].past && !places[1].past) {
      row.diagonal_travel = DiagonalTravel(rig, {places[0].motion.pose, places[1].motion.pose});
    }
    for (size_t i = 0; i < 2; ++i) {
      if (places[i].past || only.value_or(i) != i) continue;
      MotionAxleRow& axle = row.axles[i].emplace(
          EvaluateAxle(rig, i, Tilted(level, request.kind, parameter), places[i]));
      if (request.kind == MotionKind::kSteer && axles[i].steering) {
        AddHand(axles[i], rig.axles[i].frame, Transform(places[i].motion.pose), parameter, axle);
      }
    }
    sweep.rows.push_back(std::move(row));
  }
  const MotionRow rest = AtRest(sweep);
  for (MotionRow& row : sweep.rows) SubtractRest(rest, row);
  return sweep;
}

}  // namespace linkwright
