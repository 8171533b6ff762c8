// SPDX-License-Identifier: MIT
// Which parts and places differ between two states, in words and as a table.
#pragma once

#include "io/write/json.h"
#include "solver/study/file/differences.h"

namespace linkwright {

// One row a part or place: what, first, second, change, as text with units.
[[nodiscard]] DataTable DifferencesTable(const Differences& differences, UnitSystem units);

// How far the arms alone move each axle of the vehicle, at its measured height; none said where
// they move it by less than a tape or a finder shows.
[[nodiscard]] std::vector<std::string> AxleMovedNotes(const Vehicle& vehicle,
                                                      const Differences& differences,
                                                      UnitSystem units);

}  // namespace linkwright
