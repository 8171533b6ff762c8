// SPDX-License-Identifier: MIT
#include "solver/study/curves/sweep.h"

#include <algorithm>

#include "solver/study/curves/sweep_row.h"

namespace linkwright {

Sweep SweepBounce(const Walks& walks, const SweepOptions& options) {
  const Rig& rig = *walks.rig;
  const SweepBasis basis = PrepareSweep(rig, walks.stance);
  const GridWalk walked = WalkToEnds(walks, MotionKind::kBounce, 0, options);
  Sweep sweep;
  if (walks.stance != nullptr) sweep.stance = *walks.stance;
  sweep.droop = walked.low_end, sweep.bump = walked.high_end;
  for (const double travel : walked.grid) {
    sweep.rows.push_back(
        EvaluateRow(basis, travel,
                    {MotionAt(rig, walked, kFront, travel), MotionAt(rig, walked, kRear, travel)}));
  }
  const auto zero = std::find_if(sweep.rows.begin(), sweep.rows.end(),
                                 [](const SweepRow& row) { return row.travel == 0.0; });
  const SweepRow rest = *zero;
  for (SweepRow& row : sweep.rows) SubtractRest(rest, row);
  return sweep;
}

}  // namespace linkwright
