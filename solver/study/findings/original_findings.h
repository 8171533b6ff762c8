// SPDX-License-Identifier: MIT
// What readings of the leaf-sprung original are pointed at for.
#pragma once

#include "solver/study/file/original.h"
#include "solver/study/file/weigh_original.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// What is judged is told, past its aim or not; the vehicle has a leaf_original.
[[nodiscard]] std::vector<Finding> OriginalFindings(const Vehicle& vehicle,
                                                    const OriginalReport& report);

// Readings that the rest contradicts, the first left out first; and those that nothing tells apart.
[[nodiscard]] std::vector<Finding> WeighedFindings(const Vehicle& vehicle,
                                                   const WeighedOriginal& weighed);

}  // namespace linkwright
