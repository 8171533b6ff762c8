// SPDX-License-Identifier: MIT
#include "solver/rest/settle.h"

#include <cmath>

#include "solver/geometry/travel_limits.h"
#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/rest/rest_search.h"

namespace linkwright {
namespace {

void RequireSettleable(const Vehicle& vehicle) {
  if (vehicle.only_axle) {
    throw ModelError({"axles"},
                     "the file has the " + vehicle.axles[*vehicle.only_axle].name +
                         " axle only; how a vehicle stands, leans and rides takes both axles and "
                         "its masses, while check, sweep, limits, driveline, steering and openings "
                         "answer for the one");
  }
  if (IsGeometryOnly(vehicle)) {
    throw ModelError({},
                     "the file gives no masses, so there is nothing to settle: give a ledger, or "
                     "sprung: {mass, at}, and unsprung at both axles");
  }
  for (const Axle& axle : vehicle.axles) {
    if (!axle.unsprung) {
      throw ModelError({"axles", axle.name},
                       "unsprung: {mass, at} is wanted to settle the vehicle");
    }
    if (axle.springs.empty()) {
      throw ModelError({"axles", axle.name},
                       "no coil carries the " + axle.name + " axle: springs is wanted to settle");
    }
  }
}

Stance ToStance(const RestQuestion& question, const Load& load, const Push& push,
                const FoundRest& found) {
  const Rig& rig = question.rig;
  Stance stance;
  stance.load = load.name;
  stance.sprung = question.sprung;
  stance.push = push;
  stance.heave = found.state.heave;
  stance.up_C = UpInChassis(found.state);
  stance.motion = found.state.motion;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const Axle& axle = rig.vehicle->axles[wheel / 2];
    const double height =
        HeightOfAxlePoint(found.state, wheel / 2, WheelCentreInAxle(rig, wheel)).value;
    stance.wheel_height[wheel] = height;
    stance.wheel_load[wheel] = axle.tire.rate ? TireForce(axle.tire, wheel % 2, height) : found.force[wheel];
  }
  return stance;
}

void JudgeEnds(const Rig& rig, Stance& stance) {
  for (size_t i = 0; i < 2; ++i) {
    const LengthLimit* past = FarthestPast(rig.axles[i].ends, Transform(stance.motion[i].pose));
    if (past == nullptr) continue;
    stance.status = StanceStatus::kPastEnd;
    if (!stance.message.empty()) stance.message += "; ";
    stance.message +=
        "before it rests, " + rig.vehicle->axles[i].name + " " + Describe(past->limit);
  }
}

}  // namespace

Stance Settle(const Rig& rig, const Load& load, const Push& push, const Stance* start) {
  RequireSettleable(*rig.vehicle);
  RestQuestion question{rig, WithLoad(FinishedSprungMass(*rig.vehicle), load), push};
  question.push.ends_hold = true;  // so that nothing falls through a member and past it
  const FoundRest found = SearchRest(question, start);
  Stance stance = ToStance(question, load, push, found);
  if (!found.converged) {
    stance.message = "no position was found in which the coils, stops and tyres carry the weight";
    return stance;
  }
  stance.status = StanceStatus::kRests;
  if (!push.ends_hold) JudgeEnds(rig, stance);
  if (stance.status == StanceStatus::kRests && !IsStable(question, found)) {
    stance.status = StanceStatus::kUnstable;
    stance.message = "it balances but does not stand: the coils and tyres cannot hold it upright";
  }
  return stance;
}

double HeightAboveFloor(const Stance& stance, const Eigen::Vector3d& p_C) {
  return stance.heave + stance.up_C.dot(p_C);
}

double LoadedRadius(const Stance& stance, size_t axle) {
  return 0.5 * (stance.wheel_height[2 * axle] + stance.wheel_height[2 * axle + 1]);
}

Eigen::Vector3d Heading(const Stance& stance) {
  return (Eigen::Vector3d::UnitX() - stance.up_C.x() * stance.up_C).normalized();
}

double Rake(const Stance& stance) { return std::asin(stance.up_C.x()); }
double Roll(const Stance& stance) { return std::asin(stance.up_C.y()); }

}  // namespace linkwright
