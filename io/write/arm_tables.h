// SPDX-License-Identifier: MIT
// The table of arms, of `check` and of `settle`.
#pragma once

#include <string>
#include <vector>

#include "io/write/data_table.h"
#include "solver/study/file/check.h"

namespace linkwright {

// As the arms hold the axles at their measured height.
[[nodiscard]] DataTable ArmTable(const Vehicle& vehicle, const std::vector<ArmCheck>& arms,
                                 UnitSystem units);

// One arm at rest under one load.
struct ArmAtRest {
  std::string load;
  ArmCheck of;
};

// The same with what links fighting one another put into each.
[[nodiscard]] DataTable ArmsAtRestTable(const Vehicle& vehicle, const std::vector<ArmAtRest>& arms,
                                        UnitSystem units);

// One sentence an axle whose arms are more than four and do not all fit their holes: how hard they
// then pull on one another.
//   arms    as they stand in one place
//   where   "at rest", "at its measured height"
[[nodiscard]] std::vector<std::string> PullNotes(const Vehicle& vehicle,
                                                 const std::vector<ArmCheck>& arms,
                                                 const std::string& where, UnitSystem units);

}  // namespace linkwright
