// SPDX-License-Identifier: MIT
#include "solver/study/sweep.h"

#include <algorithm>

#include "solver/study/sweep_row.h"

namespace linkwright {
namespace {

constexpr double kSearchStep = 0.005;  // [m] a row spacing that no member's end can hide in
constexpr double kSearchFar = 0.6;     // [m] beyond any road vehicle's travel
constexpr double kUnlimited = 0.1;     // [m] default range where nothing sets an end

}  // namespace

Sweep SweepBounce(const Rig& rig, const Stance* stance, const SweepOptions& options) {
  const SweepBasis basis = PrepareSweep(rig, stance);
  const AxlePath path{.place =
                          [&](double travel, size_t axle) {
                            const Pose& measured = rig.axles[axle].frame.measured;
                            return AxlePlace{.z = measured.z + basis.start[axle] + travel,
                                             .roll = measured.roll};
                          },
                      .refuse = {}};
  Sweep sweep;
  if (stance != nullptr) sweep.stance = *stance;
  for (size_t i = 0; i < 2; ++i) {
    const Walker start = StartWalk(rig, i, path);
    const double down = options.from ? std::min(*options.from, 0.0) : -kSearchFar;
    const double up = options.to ? std::max(*options.to, 0.0) : kSearchFar;
    sweep.droop[i] = FindEnd(start, down, kSearchStep);
    sweep.bump[i] = FindEnd(start, up, kSearchStep);
  }
  const double from = options.from.value_or(Nearest(sweep.droop, -kUnlimited));
  const double to = options.to.value_or(Nearest(sweep.bump, kUnlimited));
  sweep.rows =
      WalkGrid<SweepRow>(rig, path, Between(sweep.droop, sweep.bump, Grid(from, to, options)),
                         [&](double travel, const std::array<HousingMotion, 2>& motion) {
                           return EvaluateRow(basis, travel, motion);
                         });
  const auto zero = std::find_if(sweep.rows.begin(), sweep.rows.end(),
                                 [](const SweepRow& row) { return row.travel == 0.0; });
  const SweepRow rest = *zero;
  for (SweepRow& row : sweep.rows) SubtractRest(rest, row);
  return sweep;
}

}  // namespace linkwright
