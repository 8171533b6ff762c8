// SPDX-License-Identifier: MIT
// What `check` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/check.h"
#include "solver/study/warnings.h"

namespace linkwright {

// "axles", "coils", and where there are masses "masses" and "weights".
[[nodiscard]] std::vector<NamedTable> CheckTables(const Vehicle& vehicle, const CheckReport& report,
                                                  UnitSystem units);

// A finding for the reader: something to look at, or that all is well.
struct Finding {
  bool warning;
  std::string text;
};
[[nodiscard]] std::vector<Finding> CheckFindings(const Vehicle& vehicle, const CheckReport& report,
                                                 UnitSystem units);

// "gaps": each at its nearest.
[[nodiscard]] DataTable GapTable(const Vehicle& vehicle, const WarningReport& report,
                                 UnitSystem units);

// What the finished vehicle is pointed at for, and what links fighting one another must take.
[[nodiscard]] std::vector<Finding> WarningFindings(const Vehicle& vehicle,
                                                   const WarningReport& report, UnitSystem units);

// That a body leans inward: "the body's centre of mass lies 41.3 mm below the roll axis, ...".
//   arm   sprung centre of mass above the roll axis, below 0 [m]
[[nodiscard]] std::string LeansInward(double arm, UnitSystem units);

}  // namespace linkwright
