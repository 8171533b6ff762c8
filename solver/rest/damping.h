// SPDX-License-Identifier: MIT
// What the dampers do about a stance, at their motion ratios.
#pragma once

#include <optional>

#include "solver/rest/total_energy.h"

namespace linkwright {

// A damper in a linear model: the mean of bump and rebound, which takes as much energy from a full
// stroke in and out; either alone where only one is given; absent without any. [N s/m]
[[nodiscard]] std::optional<double> LinearDamping(const Damper& damper);

// Sum of c (dL/dq)(dL/dq)' over all dampers, by the seven unknowns. source: docs/theory.md (94)
[[nodiscard]] RestMatrix DampingMatrix(const Rig& rig, const Stance& stance);

// Of one axle: change of damper length per wheel travel, and rates at the wheel. With dampers that
// differ, the ratio is the root of the mean square.
struct AxleDamping {
  double motion_ratio;                  // per wheel travel in bounce [-]
  std::optional<double> bump, rebound;  // at each wheel in bounce [N s/m]
  std::optional<double> mean;           // the linear model's, per wheel [N s/m]
  double roll = 0.0;                    // by housing roll against the body [N m s/rad]
};

//   returns   absent where the axle has no damper.  source   docs/theory.md (94)
[[nodiscard]] std::optional<AxleDamping> DampingOf(const Rig& rig, const Stance& stance,
                                                   size_t axle);

}  // namespace linkwright
