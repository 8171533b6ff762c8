// SPDX-License-Identifier: MIT
// The motions that tyres are swept through, each walked to where `limits` ends it.
#pragma once

#include <array>
#include <vector>

#include "solver/study/curves/motions.h"
#include "solver/study/openings/openings.h"

namespace linkwright {

// One motion of one axle: how far, and samples from one end to the other, the stance among them.
struct SweptMotion {
  AxlePath path;
  SweptRange range;
  std::vector<WalkPlace> samples;  // parameters ascending
};

// The motion of the axle of a wheel (front left, front right, rear left, rear right); which of an
// axle's two matters to one-wheel alone.
//   errors  ModelError as PrepareKnuckle. source: docs/theory.md (71), (77)
[[nodiscard]] SweptMotion SweepTireMotion(const Walks& walks, TireMotion motion, size_t wheel);

}  // namespace linkwright
