// SPDX-License-Identifier: MIT
// The columns of `settle`: name, unit, definition and value of each, in one list.
#pragma once

#include "io/write/data_table.h"
#include "solver/rest/stance_report.h"

namespace linkwright {

struct SettledLoad {
  std::string load;
  StanceReport report;
};

// One row a load that found its rest.
[[nodiscard]] DataTable SettleTable(const Vehicle& vehicle, const std::vector<SettledLoad>& loads,
                                    UnitSystem units);

}  // namespace linkwright
