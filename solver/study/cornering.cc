// SPDX-License-Identifier: MIT
#include "solver/study/cornering.h"

#include <algorithm>
#include <set>

#include "solver/model/masses.h"
#include "solver/rest/ride.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

constexpr int kLooks = 60;  // shares looked at before an end is bisected

Push Scaled(const Push& push, double share) {
  return {.lateral = share * push.lateral,
          .shaft_torque = {share * push.shaft_torque[0], share * push.shaft_torque[1]},
          .contact_radius = {}};
}

PushLimit Ended(LimitKind kind, const Stance& stance) {
  PushLimit limit;
  limit.kind = kind;
  limit.message = stance.message;
  return limit;
}

// What a stance under a push has come to; kNotReached where all holds.
PushLimit Judge(const Stance& stance) {
  switch (stance.status) {
    case StanceStatus::kPastEnd:
      return Ended(LimitKind::kTravelEnds, stance);
    case StanceStatus::kUnstable:
    case StanceStatus::kNotFound:
      return Ended(LimitKind::kNoEquilibrium, stance);
    case StanceStatus::kRests:
      break;
  }
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    if (stance.wheel_load[wheel] <= 0.0) {
      PushLimit limit;
      limit.kind = LimitKind::kWheelLifts;
      limit.wheel = wheel;
      return limit;
    }
  }
  return {};
}

// Where no position is found beyond one at which a wheel carries next to nothing, the wheel lifts
// and takes it over.
void AddLifting(const Stance& last, PushLimit& limit) {
  constexpr double kNothing = 1e-2;  // of a wheel's load by then [N]; kShareMet of 1e5 N, times 100
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    if (last.wheel_load[wheel] > kNothing) continue;
    limit.kind = LimitKind::kWheelLifts;
    limit.wheel = wheel;
    limit.goes_over = true;
  }
}

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

PushLimit FindLimit(const Rig& rig, const Load& load, const Push& push, double most) {
  // Each equilibrium is looked for from the last one that held: near the end another valley of the
  // energy, the vehicle on its side, is not far.
  Stance last = Settle(rig, load);
  const auto look = [&](double share) {
    Stance stance = Settle(rig, load, Scaled(push, share), &last);
    const PushLimit limit = Judge(stance);
    if (limit.kind == LimitKind::kNotReached) last = std::move(stance);
    return limit;
  };
  double good = 0.0, bad = 0.0;
  PushLimit limit;
  for (int i = 0; i <= kLooks && limit.kind == LimitKind::kNotReached; ++i) {
    good = bad;
    bad = most * i / kLooks;
    limit = look(bad);
  }
  if (limit.kind == LimitKind::kNotReached) return limit;
  while (bad - good > kShareMet * most) {
    const double middle = 0.5 * (good + bad);
    const PushLimit there = look(middle);
    if (there.kind == LimitKind::kNotReached) {
      good = middle;
    } else {
      bad = middle;
      limit = there;
    }
  }
  limit.share = bad;
  if (limit.kind == LimitKind::kNoEquilibrium) AddLifting(last, limit);
  return limit;
}

Corner TakeCorner(const Rig& rig, const Load& load, const Stance& rest, double lateral) {
  constexpr int kSteps = 10;
  Corner corner;
  corner.stance = rest;
  for (int step = 1; step <= kSteps; ++step) {
    const Push push{.lateral = lateral * step / kSteps, .shaft_torque = {}, .contact_radius = {}};
    corner.stance = Settle(rig, load, push, &corner.stance);
    if (corner.stance.status == StanceStatus::kNotFound) break;
  }
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

double StiffTippingPoint(const Rig& rig, const Stance& rest) {
  const double track = std::min(rig.axles[0].frame.track, rig.axles[1].frame.track);
  return kStandardGravity * 0.5 * track / ReportStance(rig, rest).cg_height;
}

TorqueLift LiftByTorque(const Rig& rig, const Load& load, const Stance& rest, size_t axle,
                        double torque) {
  Push push;
  push.shaft_torque[axle] = torque;
  TorqueLift lift;
  lift.axle = axle;
  lift.stance = Settle(rig, load, push, &rest);
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
  lift.limit = FindLimit(rig, load, push, kMost);
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

}  // namespace linkwright
