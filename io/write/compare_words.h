// SPDX-License-Identifier: MIT
// What differs between two states, greatest first, in sentences and tables; silent on what does
// not.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "io/write/comparison.h"
#include "io/write/json.h"
#include "solver/study/file/differences.h"

namespace linkwright {

// The results of two files.
struct Compared {
  const Vehicle* second;  // whose aims say what is better
  const Differences* differences;
  std::vector<ComparedValue> stances;  // rows: loads; none where either has no masses
  std::vector<CurveEnds> curves;       // those that people steer by
  std::array<std::string, 2> ends;     // how their first and last rows are called: "at full droop"
  bool same;                           // no value of any table differs
  UnitSystem units;
};

// At most eight sentences: which parts differ, how far each axle moved for it, what changed most,
// better or worse where an aim says which. One, where nothing differs.
[[nodiscard]] std::vector<std::string> CompareSentences(const Compared& of);

// Parts and places, then what a tape, a finder or a scale shows of the stances, then the curves at
// their ends and at rest; none of what has nothing to show.
[[nodiscard]] std::vector<NamedTable> CompareGlance(const Compared& of);

}  // namespace linkwright
