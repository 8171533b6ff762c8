// SPDX-License-Identifier: MIT
#include "solver/study/ride/ride_study.h"

#include <cmath>

#include "solver/model/masses.h"
#include "solver/rest/roll.h"
#include "solver/rest/settle.h"

namespace linkwright {
namespace {

std::optional<double> Hertz(double stiffness, double mass) {
  if (!(stiffness > 0.0) || !(mass > 0.0)) return std::nullopt;
  return std::sqrt(stiffness / mass) / (2.0 * M_PI);
}

// c / (2 sqrt(k m)); absent without a damper or a frequency.
std::optional<double> DampingRatio(std::optional<double> damping, double stiffness, double mass) {
  if (!damping || !(stiffness > 0.0) || !(mass > 0.0)) return std::nullopt;
  return *damping / (2.0 * std::sqrt(stiffness * mass));
}

std::optional<double> Times(double factor, std::optional<double> value) {
  if (!value) return std::nullopt;
  return factor * *value;
}

std::optional<double> CoilRatio(const RigAxle& prepared, const HousingMotion& motion) {
  double squares = 0.0, count = 0.0;
  for (const Pusher& pusher : prepared.pushers) {
    if (pusher.cone) continue;
    const double slope = DistanceTo(motion, pusher.p_CP, pusher.p_AQ).z;
    squares += slope * slope;
    count += 1.0;
  }
  if (count == 0.0) return std::nullopt;
  return std::sqrt(squares / count);
}

AxleRide ReportAxleRide(const Rig& rig, const Stance& stance, size_t i) {
  const Axle& axle = rig.vehicle->axles[i];
  const RigAxle& prepared = rig.axles[i];
  const HousingMotion& motion = stance.motion[i];
  AxleRide ride{};
  ride.sprung_mass = SprungMassOn(rig, stance, i);
  ride.coil_ratio = CoilRatio(prepared, motion);
  ride.wheel_rate = WheelRate(StoredEnergy(axle, prepared.frame, prepared.pushers, motion));
  ride.ride_rate = RideRate(ride.wheel_rate, axle.tire);
  ride.frequency = RideFrequency(ride.ride_rate, ride.sprung_mass);
  ride.stop_touches = StopTouches(rig, stance, i);
  ride.dampers = DampingOf(rig, stance, i);
  if (!ride.dampers) return ride;
  const auto ratio = [&](std::optional<double> per_wheel) {
    return DampingRatio(Times(2.0, per_wheel), 2.0 * ride.wheel_rate, ride.sprung_mass);
  };
  ride.damping = ratio(ride.dampers->mean);
  ride.damping_bump = ratio(ride.dampers->bump);
  ride.damping_rebound = ratio(ride.dampers->rebound);
  return ride;
}

// Both wheels' linear damping of an axle in bounce [N s/m].
double BounceDamping(const AxleRide& ride) {
  return ride.dampers ? 2.0 * ride.dampers->mean.value_or(0.0) : 0.0;
}

// The two-degree model's mode of which Z/theta is `node`: rise of either end per unit of pitch.
TextbookMode SideViewMode(const RideReport& report, const Stance& stance, double hertz,
                          double node) {
  TextbookMode mode{.frequency = hertz, .damping = std::nullopt, .centre_ahead = std::nullopt};
  if (std::isfinite(node)) mode.centre_ahead = -node;
  if (!report.damped) return mode;
  const AxleArms& arms = report.arms;
  const double z = std::isfinite(node) ? node : 1.0, theta = std::isfinite(node) ? 1.0 : 0.0;
  const double front = z + arms.behind_front * theta, rear = z - arms.ahead_of_rear * theta;
  const double c =
      BounceDamping(report.axles[0]) * front * front + BounceDamping(report.axles[1]) * rear * rear;
  const double m = stance.sprung.mass * z * z + report.inertias.pitch * theta * theta;
  mode.damping = c / (2.0 * 2.0 * M_PI * hertz * m);
  return mode;
}

// A body on a roll axis; an axle between coils and tyres, up and down and about its contacts.
std::optional<TextbookMode> SingleMode(double stiffness, double mass, double damping, bool damped) {
  const std::optional<double> hertz = Hertz(stiffness, mass);
  if (!hertz) return std::nullopt;
  TextbookMode mode{.frequency = *hertz, .damping = std::nullopt, .centre_ahead = std::nullopt};
  if (damped) mode.damping = DampingRatio(damping, stiffness, mass);
  return mode;
}

std::optional<TextbookMode> RollMode(const Rig& rig, const Stance& stance,
                                     const RideReport& report) {
  const double arm = RollGeometryOf(rig, stance).arm, mass = stance.sprung.mass;
  double stiffness = -mass * kStandardGravity * arm, damping = 0.0;
  for (size_t i = 0; i < 2; ++i) {
    stiffness += SplitRollStiffness(rig, stance, i).whole;
    if (report.axles[i].dampers) damping += report.axles[i].dampers->roll;
  }
  return SingleMode(stiffness, report.inertias.roll + mass * arm * arm, damping, report.damped);
}

std::optional<TextbookMode> HopMode(const Rig& rig, const RideReport& report, size_t i) {
  const Axle& axle = rig.vehicle->axles[i];
  return SingleMode(2.0 * (report.axles[i].wheel_rate + axle.tire.rate.value_or(0.0)),
                    axle.unsprung->mass, BounceDamping(report.axles[i]), report.damped);
}

std::optional<TextbookMode> TrampMode(const Rig& rig, const Stance& stance,
                                      const RideReport& report, size_t i) {
  const RollParts parts = SplitRollStiffness(rig, stance, i);
  const double damping = report.axles[i].dampers ? report.axles[i].dampers->roll : 0.0;
  return SingleMode(parts.suspension + parts.tires.value_or(0.0), report.inertias.axle[i], damping,
                    report.damped);
}

std::optional<BodyModes> TwoDegreeModes(const RideReport& report, const Stance& stance) {
  return TwoModes(2.0 * report.axles[0].ride_rate, 2.0 * report.axles[1].ride_rate,
                  report.arms.behind_front, report.arms.ahead_of_rear, stance.sprung.mass,
                  report.inertias.pitch);
}

void AddTextbook(const Rig& rig, const Stance& stance, const std::optional<BodyModes>& two,
                 RideReport& report) {
  for (ModeReport& row : report.modes) {
    switch (row.mode.part) {
      case kBodyHeave:
        if (two) row.textbook = SideViewMode(report, stance, two->bounce, two->bounce_node);
        break;
      case kBodyPitch:
        if (two) row.textbook = SideViewMode(report, stance, two->pitch, two->pitch_node);
        break;
      case kBodyRoll:
        row.textbook = RollMode(rig, stance, report);
        break;
      case kFrontHop:
      case kRearHop:
        row.textbook = HopMode(rig, report, row.mode.part == kFrontHop ? 0 : 1);
        break;
      case kFrontTramp:
      case kRearTramp:
        row.textbook = TrampMode(rig, stance, report, row.mode.part == kFrontTramp ? 0 : 1);
        break;
      case kBodySway:
      case kBodyYaw:
        break;
    }
  }
}

}  // namespace

RideReport ReportRide(const Rig& rig, const Stance& stance, const RideGuesses& guesses) {
  RideReport report{};
  for (size_t i = 0; i < 2; ++i) report.axles[i] = ReportAxleRide(rig, stance, i);
  report.inertias = InertiasOf(rig, stance, guesses);
  report.arms = ArmsOf(stance);
  report.gyration = std::sqrt(report.inertias.pitch / stance.sprung.mass);
  const double product = report.arms.behind_front * report.arms.ahead_of_rear;
  if (product > 0.0) report.dynamic_index = report.gyration * report.gyration / product;
  if (report.axles[0].frequency && report.axles[1].frequency) {
    report.rear_over_front = *report.axles[1].frequency / *report.axles[0].frequency;
  }
  const LinearModel model = Linearise(rig, stance, report.inertias, guesses);
  report.damped = model.damped;
  std::vector<Mode> modes = FindModes(model);
  const std::optional<BodyModes> two = TwoDegreeModes(report, stance);
  if (two) NameAsBody(model, *two, report.gyration, modes);
  for (Mode& mode : modes) {
    ModeReport row{.mode = std::move(mode), .centre_ahead = std::nullopt, .textbook = std::nullopt};
    const double node = HeavePerPitch(model, row.mode);
    const bool side_view = row.mode.part == kBodyHeave || row.mode.part == kBodyPitch;
    if (side_view && std::isfinite(node)) row.centre_ahead = -node;
    report.modes.push_back(std::move(row));
  }
  AddTextbook(rig, stance, two, report);
  return report;
}

std::vector<LoadedRide> RideOverPayload(const Rig& rig, const Load& load, double most, int steps,
                                        const Eigen::Vector3d& p_CM) {
  std::vector<LoadedRide> rides;
  for (int step = 0; step <= steps; ++step) {
    const double payload = most * step / steps;
    Load loaded = load;
    if (payload > 0.0) loaded.items.push_back({"payload", payload, p_CM});
    const Stance stance = Settle(rig, loaded);
    LoadedRide ride{
        .name = load.name, .payload = payload, .stance = std::nullopt, .message = stance.message};
    if (stance.status == StanceStatus::kRests) ride.stance = ReportStance(rig, stance);
    rides.push_back(std::move(ride));
  }
  return rides;
}

}  // namespace linkwright
