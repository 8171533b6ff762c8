// SPDX-License-Identifier: MIT
// Everything that a vehicle is pointed at for, whichever question it belongs to.
#pragma once

#include "solver/study/curves/over_travel.h"
#include "solver/study/file/check.h"
#include "solver/study/findings/accepted.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

struct VehicleFindings {
  std::vector<Finding> findings;  // past their aims alone, each the worst case, none accepted
  std::vector<AcceptedFinding> accepted = {};  // by the file
  // Of a vehicle whose links hold it and that stands:
  std::vector<GapAtLeast> gaps;
  std::vector<FightAtExtremes> fights;
};

// Every load settled, at rest or not, in the order of the file; none of a file without masses.
//   only   this one of the vehicle's loads alone; null: every one
[[nodiscard]] std::vector<Stance> SettleEach(const Rig& rig, const Load* only = nullptr);

// The rest that a vehicle is looked at from: under that load, else the first; null: none rests.
[[nodiscard]] const Stance* RestFirst(const std::vector<Stance>& stances, const Load& load);

// Judges the file and every load, and looks at travel, openings, shafts and steering from where the
// walks begin. What needs more than the file gives is left out, and so is all travel where the
// vehicle has masses and finds no rest.
//   walks     from one of the stances, or as measured where the file has no masses
//   stances   as of SettleEach
//   report    on the vehicle of the rig
//   errors    ModelError as SweepBounce. source: docs/theory.md (105)
[[nodiscard]] VehicleFindings FindAll(const Walks& walks, const std::vector<Stance>& stances,
                                      const CheckReport& report);

// The same from the default load's rest, settled for it.
[[nodiscard]] VehicleFindings FindAll(const Rig& rig, const CheckReport& report,
                                      const Load* only = nullptr);

}  // namespace linkwright
