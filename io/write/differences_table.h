// SPDX-License-Identifier: MIT
// Which parts and places differ between two states, in words and as a table.
#pragma once

#include "io/write/json.h"
#include "solver/study/file/differences.h"

namespace linkwright {

// One row a part or place: what, first, second, change, as text with units.
[[nodiscard]] DataTable DifferencesTable(const Differences& differences, UnitSystem units);

// One part or place, or a pair of them that changed alike, as mirror images.
struct PartChange {
  std::string what;  // "rear lower arm left and right, frame end"
  std::string
      change;  // "5 mm ahead, 41 mm down"; "522.0 kg, then 533.0 kg"; "only the first has it"
};

// The greatest first, by how many times what a tape or a scale shows; what only one of them has
// before all.
[[nodiscard]] std::vector<PartChange> PartChanges(const Differences& differences, UnitSystem units);

// How far the arms alone move each axle of the vehicle, at its measured height; none where they
// move it by less than a tape or a finder shows.
[[nodiscard]] std::vector<std::string> AxleMovedSentences(const Vehicle& vehicle,
                                                          const Differences& differences,
                                                          UnitSystem units);

}  // namespace linkwright
