// SPDX-License-Identifier: MIT
#include "solver/study/ride/cornering.h"

#include <algorithm>
#include <set>

#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

// Half of what the left-right difference of an axle's wheel loads has changed by [N].
std::array<double, 2> MovedRight(const Stance& rest, const Stance& stance) {
  std::array<double, 2> moved{};
  for (size_t i = 0; i < 2; ++i) {
    const auto right_less_left = [&](const Stance& of) {
      return of.wheel_load[2 * i + 1] - of.wheel_load[2 * i];
    };
    moved[i] = 0.5 * (right_less_left(stance) - right_less_left(rest));
  }
  return moved;
}

}  // namespace

Corner TakeCorner(const Rig& rig, const Load& load, const Stance& rest, double lateral) {
  Corner corner;
  corner.stance = PushedBy(rig, load, rest, {.lateral = lateral, .shaft_torque = {}});
  corner.at_end = MemberAtEnd(rig, corner.stance);
  corner.handbook = TransferByHandbook(rig, rest, lateral);
  const std::optional<double> gradient = ReportStance(rig, rest).roll_gradient;
  if (gradient) corner.handbook_roll = *gradient * lateral;
  corner.moved = MovedRight(rest, corner.stance);
  corner.body_roll = Roll(corner.stance) - Roll(rest);
  for (size_t i = 0; i < 2; ++i) {
    corner.axle_steer[i] = corner.stance.motion[i].pose.steer - rest.motion[i].pose.steer;
  }
  return corner;
}

TippingPoint StiffTippingPoint(const Rig& rig, const Stance& rest, bool left_turn) {
  const StanceReport report = ReportStance(rig, rest);
  const Eigen::Vector3d n = rest.up_C;
  const auto hub = [&](size_t axle, double side) {
    const double half = 0.5 * rig.axles[axle].frame.track;
    return Eigen::Vector3d(Transform(rest.motion[axle].pose) *
                           Eigen::Vector3d(0.0, side * half, 0.0));
  };
  const auto on_floor = [&](const Eigen::Vector3d& v) { return Eigen::Vector3d(v - v.dot(n) * n); };
  const Eigen::Vector3d ahead = on_floor(hub(0, 0.0) - hub(1, 0.0)).normalized();
  const Eigen::Vector3d outward = (left_turn ? 1.0 : -1.0) * ahead.cross(n);
  const double side = left_turn ? -1.0 : 1.0;
  const Eigen::Vector3d rear = hub(1, side), line = on_floor(hub(0, side) - rear);
  const Eigen::Vector3d to_centre = on_floor(report.cg_C - rear);
  // From the centre of mass straight outward to the line.
  const double along = to_centre.dot(ahead) / line.dot(ahead);
  TippingPoint point{};
  point.inside = (along * line - to_centre).dot(outward);
  point.height = report.cg_height;
  if (point.height > 0.0 && point.inside > 0.0) {
    point.lateral = kStandardGravity * point.inside / point.height;
  }
  return point;
}

PushEnds TightenTurn(const Rig& rig, const Load& load, const Stance& rest, bool left_turn) {
  const Push push{.lateral = left_turn ? kStandardGravity : -kStandardGravity, .shaft_torque = {}};
  return FollowPush(rig, load, rest, push, kMostLateralInG);
}

TorqueLift LiftByTorque(const Rig& rig, const Load& load, const Stance& rest, size_t axle,
                        double torque) {
  Push push;
  push.shaft_torque[axle] = torque;
  TorqueLift lift;
  lift.axle = axle;
  lift.stance = PushedBy(rig, load, rest, push);
  const std::array<double, 2> right = MovedRight(rest, lift.stance);
  lift.moved = {-right[0], -right[1]};
  std::array<double, 2> stiffness{};
  for (size_t i = 0; i < 2; ++i) stiffness[i] = SplitRollStiffness(rig, rest, i).whole;
  for (size_t i = 0; i < 2; ++i) {
    lift.share[i] = stiffness[i] / (stiffness[0] + stiffness[1]);
    const double moment = (i == axle ? torque : 0.0) - lift.share[i] * torque;
    lift.handbook[i] = moment / rig.axles[i].frame.track;
  }
  lift.body_roll = Roll(lift.stance) - Roll(rest);
  constexpr double kMost = 20.0;  // a first gear's torque is some times what most people ask about
  lift.ends = FollowPush(rig, load, rest, push, kMost, true);
  return lift;
}

std::vector<size_t> DrivenAxles(const Vehicle& vehicle) {
  std::set<size_t> axles;
  for (const Driveshaft& shaft : vehicle.driveshafts) axles.insert(static_cast<size_t>(shaft.axle));
  if (axles.empty()) {
    for (size_t i = 0; i < 2; ++i) {
      if (vehicle.axles[i].drive_share.value_or(0.0) > 0.0) axles.insert(i);
    }
  }
  return {axles.begin(), axles.end()};
}

RollStudy StudyRoll(const Rig& rig, const Load& load, const Stance& rest, double lateral,
                    std::optional<double> torque) {
  RollStudy study{.rest = rest,
                  .report = ReportStance(rig, rest),
                  .geometry = RollGeometryOf(rig, rest),
                  .stiffness = {},
                  .spread = {},
                  .corner = TakeCorner(rig, load, rest, lateral),
                  .turns = {},
                  .tipping = {},
                  .lateral = lateral,
                  .torque = torque,
                  .torques = {}};
  for (size_t i = 0; i < 2; ++i) {
    study.stiffness[i] = SplitRollStiffness(rig, rest, i);
    study.spread[i] = SpreadOfCoils(rig, rest, i);
    const bool left_turn = i == 0;
    study.turns[i] = TightenTurn(rig, load, rest, left_turn);
    study.tipping[i] = StiffTippingPoint(rig, rest, left_turn);
  }
  if (!torque) return study;
  for (const size_t axle : DrivenAxles(*rig.vehicle)) {
    study.torques.push_back(LiftByTorque(rig, load, rest, axle, *torque));
  }
  return study;
}

}  // namespace linkwright
