// SPDX-License-Identifier: MIT
// The columns of a sweep that there is one of for each axle. Private to io/write.
#pragma once

#include "io/write/table_of.h"
#include "solver/study/sweep.h"

namespace linkwright {

// What columns there are depends on.
struct AxleInSweep {
  const Axle& axle;
  bool has_mass;  // not geometry only
};

struct AxleColumn {
  ColumnOf<AxleRow> column;  // its name as it follows the axle's own; its group without the axle
  bool (*there)(const AxleInSweep&) = [](const AxleInSweep&) { return true; };
  std::optional<size_t> only = {};  // the one axle that has it
};

// In the order of the contract: what stands before the columns of the roll axis, after them, and
// last.
[[nodiscard]] std::vector<AxleColumn> AxleColumnsBeforeRollAxis();
[[nodiscard]] std::vector<AxleColumn> AxleColumnsAfterRollAxis();
[[nodiscard]] std::vector<AxleColumn> OpeningColumns();

}  // namespace linkwright
