// SPDX-License-Identifier: MIT
// Warnings that only the travel shows. Private to the warnings.
#pragma once

#include "solver/study/warnings.h"

namespace linkwright {

// From the stance, or from the measured one for a file without masses (null).
void AddOverTravel(const Rig& rig, const Stance* stance, WarningReport& report);

// Joints near their misalignment limits and tyres near their openings, as FindLimits and
// SweepOpenings have them.
//   limits  as FindWarnings
//   least   with the nearest that a tyre comes; else the same warnings, each with some gap below
//           the aim
void AddWatched(const Rig& rig, const Stance* stance, const LimitsReport* limits, bool least,
                std::vector<Warning>& to);

}  // namespace linkwright
