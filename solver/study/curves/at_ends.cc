// SPDX-License-Identifier: MIT
#include "solver/study/curves/at_ends.h"

#include <algorithm>
#include <cmath>

namespace linkwright {

AxleAtEnds RowsAtEnds(const Walks& walks, size_t axle, double droop, double bump) {
  constexpr double kLeastStep = 1e-3;  // [m] a step is above 0, also where there is no travel
  AxleAtEnds ends{.travel = {droop, 0.0, bump}, .at = {}};
  const Sweep sweep = SweepBounce(
      walks, {.from = droop, .to = bump, .step = std::max(bump - droop, kLeastStep), .axle = axle});
  const auto row_at = [&](double travel) -> std::optional<AxleRow> {
    const auto nearest = std::min_element(
        sweep.rows.begin(), sweep.rows.end(), [&](const SweepRow& a, const SweepRow& b) {
          return std::abs(a.travel - travel) < std::abs(b.travel - travel);
        });
    // A row at an end of the links lies short of it by their tolerance.
    constexpr double kSame = 1e-6;  // [m]
    if (std::abs(nearest->travel - travel) > kSame) return std::nullopt;
    return nearest->axles.at(axle);
  };
  std::transform(ends.travel.begin(), ends.travel.end(), ends.at.begin(), row_at);
  return ends;
}

}  // namespace linkwright
