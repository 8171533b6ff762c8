// SPDX-License-Identifier: MIT
// Arms of lengths of their own put between their holes: where the housing then stands.
#pragma once

#include <optional>

#include "solver/pose/axle_frame.h"

namespace linkwright {

// The pose found, or why there is none.
struct FittedPose {
  std::optional<Pose> pose;  // absent: the arms cannot be put together
  size_t worst = 0;          // index into AxleFrame::links: what is farthest from fitting
  // What it lacks where the others got to [m]; below 0: it is too long; absent: it does not reach
  // at all, as a link too short for its crank.
  std::optional<double> short_by = 0.0;
};

// The pose at a start's height and roll in which the links hold the housing, walked to from one in
// which other lengths did, so that the links stay assembled as they are. Four links keep their
// lengths; more settle where the strain between them is least.
//   fitting   the same axle with lengths that fit the start
//   wanted    with the lengths that the arms have; differs in lengths and shapes of arms alone
//   source    docs/theory.md (107)
[[nodiscard]] FittedPose FitLinks(const AxleFrame& fitting, const AxleFrame& wanted,
                                  const Pose& start);

// Where the links hold the housing at its measured height and roll: the measured pose itself where
// every arm is as long as its holes are apart, as in a measurement.
[[nodiscard]] FittedPose MeasuredPose(const Axle& axle, const AxleFrame& frame);

}  // namespace linkwright
