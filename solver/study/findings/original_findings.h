// SPDX-License-Identifier: MIT
// What readings of the leaf-sprung original are pointed at for.
#pragma once

#include "solver/study/file/original.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// What is judged is told, past its aim or not; the vehicle has a leaf_original.
[[nodiscard]] std::vector<Finding> OriginalFindings(const Vehicle& vehicle,
                                                    const OriginalReport& report);

}  // namespace linkwright
