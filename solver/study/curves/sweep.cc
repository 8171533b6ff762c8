// SPDX-License-Identifier: MIT
#include "solver/study/curves/sweep.h"

#include <algorithm>

#include "solver/study/curves/sweep_row.h"

namespace linkwright {

const SweepRow& AtRest(const Sweep& sweep) {
  return *std::find_if(sweep.rows.begin(), sweep.rows.end(),
                       [](const SweepRow& row) { return row.travel == 0.0; });
}

Sweep SweepBounce(const Walks& walks, const SweepOptions& options) {
  const Rig& rig = *walks.rig;
  const SweepBasis basis = PrepareSweep(rig, walks.stance);
  const GridWalk walked = WalkToEnds(walks, MotionKind::kBounce, 0, options);
  Sweep sweep;
  sweep.axle = OneAxleOf(options, *rig.vehicle);
  if (walks.stance != nullptr) sweep.stance = *walks.stance;
  for (size_t i = 0; i < 2; ++i) {
    if (!walked.moves[i]) continue;
    sweep.droop[i] = walked.low[i].end, sweep.bump[i] = walked.high[i].end;
  }
  for (const double travel : walked.grid) {
    sweep.rows.push_back(EvaluateRow(
        basis, travel, {PlaceIn(rig, walked, kFront, travel), PlaceIn(rig, walked, kRear, travel)},
        sweep.axle));
  }
  const SweepRow rest = AtRest(sweep);
  for (SweepRow& row : sweep.rows) SubtractRest(rest, row);
  return sweep;
}

}  // namespace linkwright
