// SPDX-License-Identifier: MIT
// Warnings that only the travel shows. Private to the warnings.
#pragma once

#include "solver/study/warnings.h"

namespace linkwright {

// From the stance, or from the measured one for a file without masses (null).
void AddOverTravel(const Rig& rig, const Stance* stance, WarningReport& report);

}  // namespace linkwright
