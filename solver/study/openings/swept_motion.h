// SPDX-License-Identifier: MIT
// The motions that tyres are swept through, each walked to where `limits` ends it.
#pragma once

#include <array>
#include <vector>

#include "solver/study/curves/motions.h"
#include "solver/study/openings/openings.h"

namespace linkwright {

using SweptEnds = std::array<std::optional<SweptEnd>, 2>;  // parameter below 0, above 0
using RollEnds = std::array<SweptEnds, 2>;                 // where each axle alone ends a roll

[[nodiscard]] RollEnds FindRollEnds(const Rig& rig, const std::array<double, 2>& start);

// A place on the way.
struct SweptSample {
  double parameter;  // of the motion [m] or [rad]
  HousingMotion motion;
};

// One motion of one axle: how far, and samples from one end to the other, the stance among them.
struct SweptMotion {
  AxlePath path;
  SweptRange range;
  std::vector<SweptSample> samples;  // parameters ascending
};

// The motion of the axle of a wheel (front left, front right, rear left, rear right); which of an
// axle's two matters to one-wheel alone.
//   start   mean travel of each axle's wheels where the parameter is 0 [m]
//   roll    wanted for roll and crossed alone
//   errors  ModelError as PrepareKnuckle. source: docs/theory.md (71), (77)
[[nodiscard]] SweptMotion SweepTireMotion(const Rig& rig, const std::array<double, 2>& start,
                                          const std::optional<RollEnds>& roll, TireMotion motion,
                                          size_t wheel);

}  // namespace linkwright
