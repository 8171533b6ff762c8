// SPDX-License-Identifier: MIT
// What a vehicle is pointed at for as it rests, and over the bounce of its axles from there.
#pragma once

#include "solver/study/curves/over_travel.h"
#include "solver/study/curves/sweep.h"
#include "solver/study/findings/finding.h"

namespace linkwright {

// One resting position: loads on axles, frequencies, how level, where in the openings. Of
// kMockUpHeight every load is told, past its aim or not (KeepNearestHeight).
[[nodiscard]] std::vector<Finding> RestFindings(const Rig& rig, const Stance& stance);

// It is enough that a vehicle rests as measured under one of its loads: of each axle only the load
// that comes nearest is kept, and only where it is past its aim.
void KeepNearestHeight(std::vector<Finding>& findings);

// Curves over the travel and slopes at rest.
//   sweep    from the same stance as the walks
[[nodiscard]] std::vector<Finding> CurveFindings(const Walks& walks, const Sweep& sweep);

[[nodiscard]] std::vector<Finding> GapFindings(const Vehicle& vehicle,
                                               const std::vector<GapAtLeast>& gaps);
[[nodiscard]] std::vector<Finding> FightFindings(const Vehicle& vehicle,
                                                 const std::vector<FightAtExtremes>& fights);

}  // namespace linkwright
