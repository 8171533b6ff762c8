// SPDX-License-Identifier: MIT
#include "solver/rest/ride.h"

#include <cmath>
#include <limits>

#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"

namespace linkwright {

double WheelRate(const AxleEnergy& energy) { return 0.5 * energy.springs.zz; }

double RideRate(double wheel_rate, const Tire& tire) {
  if (!tire.rate) return wheel_rate;
  return wheel_rate * *tire.rate / (wheel_rate + *tire.rate);
}

std::optional<double> RideFrequency(double ride_rate, double mass) {
  if (!(ride_rate > 0.0) || !(mass > 0.0)) return std::nullopt;
  return std::sqrt(2.0 * ride_rate / mass) / (2.0 * M_PI);
}

double SprungMassOn(const Rig& rig, const Stance& stance, size_t axle) {
  const double load = stance.wheel_load[2 * axle] + stance.wheel_load[2 * axle + 1];
  return load / kStandardGravity - rig.vehicle->axles[axle].unsprung->mass;
}

AxleArms ArmsOf(const Stance& stance) {
  const Eigen::Vector3d heading = Heading(stance);
  return {.behind_front = heading.dot(CentreOf(stance.motion[0]) - stance.sprung.p_CM),
          .ahead_of_rear = heading.dot(stance.sprung.p_CM - CentreOf(stance.motion[1]))};
}

// Z up, theta nose up: the front end rises Z + b theta, the rear one Z - c theta. Scaling theta by
// the radius of gyration makes the mass matrix the identity times the mass.
std::optional<BodyModes> TwoModes(double front, double rear, double b, double c, double mass,
                                  std::optional<double> inertia) {
  const double pitch_inertia = inertia.value_or(mass * b * c);
  if (!(pitch_inertia > 0.0)) return std::nullopt;
  const double gyration = std::sqrt(pitch_inertia / mass);
  Eigen::Matrix2d K;
  K << front + rear, (front * b - rear * c) / gyration,  //
      (front * b - rear * c) / gyration, (front * b * b + rear * c * c) / (gyration * gyration);
  const SymmetricModes modes = SymmetricModesOf(K / mass, Eigen::Matrix2d::Identity());
  if (!(modes.values[0] > 0.0)) return std::nullopt;
  std::array<double, 2> hertz{}, node{};
  for (int i = 0; i < 2; ++i) {
    const Eigen::Vector2d shape = modes.vectors.col(i);
    hertz[static_cast<size_t>(i)] = std::sqrt(modes.values[i]) / (2.0 * M_PI);
    node[static_cast<size_t>(i)] =
        shape[1] == 0.0 ? std::numeric_limits<double>::infinity() : gyration * shape[0] / shape[1];
  }
  // Equal reach (a dynamic index of 1 with the centre midway) makes the lower one bounce.
  constexpr double kEqual = 1e-9;
  const size_t bounce = std::abs(node[1]) > std::abs(node[0]) * (1.0 + kEqual) ? 1 : 0;
  return BodyModes{.bounce = hertz[bounce],
                   .pitch = hertz[1 - bounce],
                   .bounce_node = node[bounce],
                   .pitch_node = node[1 - bounce],
                   .inertia_assumed = !inertia};
}

double RollStiffness(const AxleEnergy& energy, const HousingMotion& motion) {
  return energy.springs.rr + energy.bar.rr + motion.strain.rr;
}

double WithTires(double roll_stiffness, const Tire& tire, double track) {
  if (!tire.rate) return roll_stiffness;
  const double tires = 0.5 * *tire.rate * track * track;
  return roll_stiffness * tires / (roll_stiffness + tires);
}

std::optional<double> RollGradient(double stiffness, double sprung_mass, double arm) {
  const double overturning = sprung_mass * kStandardGravity * arm;
  if (!(stiffness > overturning)) return std::nullopt;
  return sprung_mass * arm / (stiffness - overturning);
}

}  // namespace linkwright
