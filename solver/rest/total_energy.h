// SPDX-License-Identifier: MIT
// The vehicle's total energy about a state, with its exact gradient and Hessian.
#pragma once

#include <vector>

#include "solver/rest/rest_function.h"
#include "solver/rest/stance.h"

namespace linkwright {

// A state of the whole vehicle: body on the floor, housings in the body.
struct RestState {
  double heave;           // height of Co above the floor [m]
  Eigen::Vector2d slope;  // x and y component of the floor's normal in C [-]
  std::array<HousingMotion, 2> motion;
};

[[nodiscard]] Eigen::Vector3d UpInChassis(const RestState& state);

// The state a stance stands in.
[[nodiscard]] RestState StateOf(const Stance& stance);

// A height above the floor as a function of the seven unknowns [m].
using Height = RestFunction;

// Of a point fixed in C, and of one that rides on a housing. source: docs/theory.md (32)
[[nodiscard]] Height HeightOfBodyPoint(const RestState& state, const Eigen::Vector3d& p_C);
[[nodiscard]] Height HeightOfAxlePoint(const RestState& state, size_t axle,
                                       const Eigen::Vector3d& p_AQ);

using Energy = RestFunction;  // [J]

// Coils, stops, bars, link strain, tyres with a rate, gravity; under a push what shaft torque does
// and what members at their ends hold. Not what cornering does, which is no energy: PullOfCorner.
//   source    docs/theory.md (33), (88), (89)
[[nodiscard]] Energy TotalEnergy(const Rig& rig, const SprungMass& sprung, const RestState& state,
                                 const Push& push = {});

// Wheel centre of one wheel (0 to 3) from Ao in A [m].
[[nodiscard]] Eigen::Vector3d WheelCentreInAxle(const Rig& rig, size_t wheel);

// Force of the floor on a tyre that has a rate, at a wheel-centre height above the floor [N].
[[nodiscard]] double TireForce(const Tire& tire, size_t side, double height);

}  // namespace linkwright
