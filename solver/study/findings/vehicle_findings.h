// SPDX-License-Identifier: MIT
// Everything that a vehicle is pointed at for, whichever question it belongs to.
#pragma once

#include "solver/study/curves/over_travel.h"
#include "solver/study/file/check.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

struct VehicleFindings {
  std::vector<Finding> findings;  // past their aims alone, each the worst case
  // Of a vehicle whose links hold it and that stands:
  std::vector<GapAtLeast> gaps;
  std::vector<FightAtExtremes> fights;
};

// Judges the file, settles every load, and looks at travel, openings, shafts and steering from the
// first that rests. What needs more than the file gives is left out.
//   report   on the vehicle of the rig
//   only     looks at this one of the vehicle's loads alone; null: at every one
//   errors   ModelError as SweepBounce. source: docs/theory.md (105)
[[nodiscard]] VehicleFindings FindAll(const Rig& rig, const CheckReport& report,
                                      const Load* only = nullptr);

}  // namespace linkwright
