// SPDX-License-Identifier: MIT
// Energy that an axle's coils, stops and anti-roll bar hold, along its height and roll.
#pragma once

#include <optional>

#include "solver/geometry/travel_limits.h"
#include "solver/model/force_law.h"
#include "solver/pose/motion.h"

namespace linkwright {

// Coils and stops, with their housing ends expressed in A once.
struct Pusher {
  const ForceLaw* law;           // of the vehicle the rig was made from, which must outlive it
  Eigen::Vector3d p_CP;          // chassis seat [m]
  Eigen::Vector3d p_AQ;          // housing seat [m]
  std::optional<StopCone> cone;  // of a stop; absent: a coil
};

[[nodiscard]] std::vector<Pusher> PreparePushers(const Axle& axle, const AxleFrame& frame);

struct AxleEnergy {
  Taylor springs;  // coils and stops [J]
  Taylor stops;    // the stops' part of it [J]
  Taylor bar;      // anti-roll bar [J]
};

// source: docs/theory.md (30), (31), (38)
[[nodiscard]] AxleEnergy StoredEnergy(const Axle& axle, const AxleFrame& frame,
                                      const std::vector<Pusher>& pushers,
                                      const HousingMotion& motion);

// Rate of a member past its end: it gives a millimetre under 10 kN, as its brackets would [N/m].
constexpr double kEndRate = 1e7;

// What members past their ends hold, those of EndLengths [J]. source: docs/theory.md (88)
[[nodiscard]] Taylor HeldEnds(const std::vector<LengthLimit>& ends, const HousingMotion& motion);

// Mean length [m] and mean force [N] of the axle's coils; absent without coils.
struct MeanCoil {
  double length, force;
};
[[nodiscard]] std::optional<MeanCoil> MeanOfCoils(const std::vector<Pusher>& pushers,
                                                  const HousingMotion& motion);

}  // namespace linkwright
