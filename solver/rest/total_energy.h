// SPDX-License-Identifier: MIT
// The vehicle's total energy about a state, with its exact gradient and Hessian.
#pragma once

#include <vector>

#include "solver/rest/stance.h"

namespace linkwright {

// Order of the seven unknowns of a rest.
enum RestUnknown { kHeave, kSlopeX, kSlopeY, kFrontHeight, kFrontRoll, kRearHeight, kRearRoll };
constexpr int kRestUnknowns = 7;
using RestVector = Eigen::Matrix<double, kRestUnknowns, 1>;
using RestMatrix = Eigen::Matrix<double, kRestUnknowns, kRestUnknowns>;

// A state of the whole vehicle: body on the floor, housings in the body.
struct RestState {
  double heave;           // height of Co above the floor [m]
  Eigen::Vector2d slope;  // x and y component of the floor's normal in C [-]
  std::array<HousingMotion, 2> motion;
};

[[nodiscard]] Eigen::Vector3d UpInChassis(const RestState& state);

// A height above the floor as a function of the seven unknowns [m].
struct Height {
  double value;
  RestVector gradient;
  RestMatrix hessian;
};

// Of a point fixed in C, and of one that rides on a housing. source: docs/theory.md (32)
[[nodiscard]] Height HeightOfBodyPoint(const RestState& state, const Eigen::Vector3d& p_C);
[[nodiscard]] Height HeightOfAxlePoint(const RestState& state, size_t axle,
                                       const Eigen::Vector3d& p_AQ);

struct Energy {
  double value = 0.0;  // [J]
  RestVector gradient = RestVector::Zero();
  RestMatrix hessian = RestMatrix::Zero();
};

// Coils, stops, bars, link strain, tyres with a rate, gravity. source: docs/theory.md (33)
[[nodiscard]] Energy TotalEnergy(const Rig& rig, const SprungMass& sprung, const RestState& state);

// Wheel centre of one wheel (0 to 3) from Ao in A [m].
[[nodiscard]] Eigen::Vector3d WheelCentreInAxle(const Rig& rig, size_t wheel);

// Force of the floor on a tyre that has a rate, at a wheel-centre height above the floor [N].
[[nodiscard]] double TireForce(const Tire& tire, double height);

}  // namespace linkwright
