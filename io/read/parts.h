// SPDX-License-Identifier: MIT
// What stays what it is through variants: arms, weighed coils, tyres and shafts keep what the
// measurement gave them, unless a variant swaps them.
#pragma once

#include "io/read/variant.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// The vehicle of a document's last stage, its parts as the stages before made them.
//   stages   validated, the measurement first
//   report   takes what a variant leaves open: the free length of a weighed coil of another rate
//   errors   ModelError of a part that a stage cannot make
//   source   docs/vehicle-file.md, "Places and parts"
[[nodiscard]] Vehicle BuildFromStages(const std::vector<Stage>& stages, Report& report);

}  // namespace linkwright
