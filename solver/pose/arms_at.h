// SPDX-License-Identifier: MIT
// Each arm of an axle where its housing stands: how it lies, whether it fits its holes, and what
// the others do to it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/pose/axle_frame.h"

namespace linkwright {

// As ArmsOf (solver/model/arms_kept.h) has them: links, legs of A-arms, radius arms, links of
// Watt's links.
struct ArmAt {
  std::string name;               // "lower arm left"
  std::vector<std::string> part;  // where it stands in the file
  double length;                  // eye to eye, its own [m]
  double longer;  // than its two holes are apart with the housing as measured; - shorter [m]
  // Slope from the side, frame end up +, and from above, frame end to the left +, against the
  // chassis x axis, whichever way it reaches [rad].
  double side, plan;
  std::optional<double> turns;  // of its adjuster that make up `longer`; absent without a thread
  // Along it from links fighting one another, tension + [N]; absent where four links hold the
  // housing, which cannot.
  std::optional<double> strain_force;
};

//   pose     where the links hold the housing: a root of the link equations
//   source   docs/theory.md (4), (107), (107a)
[[nodiscard]] std::vector<ArmAt> ArmsAt(const Axle& axle, const AxleFrame& frame, const Pose& pose);

}  // namespace linkwright
