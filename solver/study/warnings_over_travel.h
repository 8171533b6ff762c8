// SPDX-License-Identifier: MIT
// Warnings that only the travel shows. Private to the warnings.
#pragma once

#include "solver/study/warnings.h"

namespace linkwright {

// From the stance, or from the measured one for a file without masses (null).
void AddOverTravel(const Rig& rig, const Stance* stance, WarningReport& report);

// Joints near their misalignment limits and tyres near their openings, as FindLimits and
// SweepOpenings have them.
void AddWatched(const Rig& rig, const Stance* stance, std::vector<Warning>& to);

}  // namespace linkwright
