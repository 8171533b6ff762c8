// SPDX-License-Identifier: MIT
// What the curves of `sweep` say, in sentences and in one table an axle; all read from the rows
// that its CSV holds.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "io/write/json.h"
#include "solver/study/walk/axle_walk.h"

namespace linkwright {

// One end of one axle's rows.
struct RowsEnd {
  std::optional<LimitHit> hit = {};  // what ends them; absent: the range asked for, or nothing
  bool asked = false;                // as far as was asked for
  // What ends the travel for a person before the rows end: a tyre in its opening, a joint.
  std::optional<LimitHit> sooner = {};
};

// What the rows are of.
struct SweptCurves {
  const Vehicle* vehicle;
  const DataTable* rows;
  std::vector<size_t> axles;                 // that the motion moves and that are shown
  std::array<RowsEnd, 2> low, high;          // of each axle
  bool bounce = true;                        // both wheels of an axle together
  std::string wheel = {};                    // "rear-left": the one that moves; empty: not so
  const char *low_way, *high_way;            // "of droop", "of bump"; "left side down"
  const char *low_end = "", *high_end = "";  // "full droop"; empty: the parameter itself is said
  bool has_mass = true;                      // not geometry only
};

// At most eight sentences: how far each axle goes and what ends it; how angles and wheelbase change
// on the way; anti-squat and anti-dive; where something turns over.
[[nodiscard]] std::vector<std::string> CurveSentences(const SweptCurves& of);

// One sentence: how far each axle goes.
[[nodiscard]] std::string ReachSentence(const std::string& load, const SweptCurves& of);

// Which rows are printed: those `step` apart from `base`, by the first of `steps` that leaves few
// enough; every one where there is no step.
struct RowsShown {
  double base = 0.0;
  std::vector<double> steps = {};
};

// These columns of the rows, by index, beside the first; the row at 0 and the first and last that a
// column has are always there, rows with nothing in them never.
[[nodiscard]] DataTable ColumnsOfRows(const DataTable& rows, const std::vector<size_t>& columns,
                                      const RowsShown& shown);

// The curves that people steer by, a table an axle: "front axle".
[[nodiscard]] std::vector<NamedTable> CurvesAtAGlance(const SweptCurves& of,
                                                      const RowsShown& shown);

// The same of several loads: at both ends and at rest, a row each.
struct LoadRows {
  std::string load;
  const DataTable* rows;
};
[[nodiscard]] std::vector<NamedTable> CurvesByLoad(const SweptCurves& of,
                                                   const std::vector<LoadRows>& loads);

// The rows of every load in one table, the load its second column.
[[nodiscard]] DataTable RowsOfLoads(const std::vector<LoadRows>& loads);

}  // namespace linkwright
