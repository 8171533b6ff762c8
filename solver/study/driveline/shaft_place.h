// SPDX-License-Identifier: MIT
// A driveshaft with its axle's housing at one pose.
#pragma once

#include "solver/study/driveline/driveline.h"

namespace linkwright {

// What stays the same for one shaft in every place.
struct ShaftBasis {
  const Rig* rig;
  const Driveshaft* shaft;
  size_t axle;
  double measured_length;       // of the piece that slides, in the measured stance [m]
  double rest_height;           // of the housing centre at rest [m]
  std::optional<double> speed;  // [rad/s]
};

[[nodiscard]] ShaftBasis PrepareShaft(const Rig& rig, const Driveshaft& shaft, double rest_height,
                                      std::optional<double> speed);

[[nodiscard]] ShaftPlace EvaluateShaft(const ShaftBasis& basis, ShaftPlaceKind kind,
                                       const Pose& pose);

}  // namespace linkwright
