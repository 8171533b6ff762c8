// SPDX-License-Identifier: MIT
// Track bars: which link is one, how it lies beside the drag link, where else it could go.
#pragma once

#include "solver/study/steering/steering_report.h"

namespace linkwright {

// The link that lies most nearly across the vehicle, if it lies across at all (within 45 degrees).
[[nodiscard]] std::optional<size_t> TrackBarOf(const Axle& axle);

//   source   docs/theory.md (69)
[[nodiscard]] std::optional<BarMatch> MatchBar(const Rig& rig, const Standing& standing,
                                               size_t axle);

// The bar as it is and every other place within kMostMove that there is an answer for.
[[nodiscard]] std::vector<BarMove> MoveBar(const Rig& rig, const Standing& standing,
                                           const Load* load, size_t axle, size_t link);

[[nodiscard]] SidewaysCure CentreAxle(const Rig& rig, const Standing& standing, const Load* load,
                                      size_t axle, bool cures = true);

}  // namespace linkwright
