// SPDX-License-Identifier: MIT
// One row of a sweep from both axles' poses.
#pragma once

#include "solver/geometry/floor.h"
#include "solver/geometry/steering.h"
#include "solver/study/curves/sweep.h"

namespace linkwright {

// What stays the same in every row of one sweep.
struct SweepBasis {
  const Rig* rig;
  const Stance* stance;          // null: geometry only
  std::array<double, 2> start;   // mean travel of each axle in the row at 0 [m]
  std::array<double, 2> radius;  // loaded radius of each axle [m]
  std::array<std::optional<Knuckle>, 2> knuckles;
};

[[nodiscard]] SweepBasis PrepareSweep(const Rig& rig, const Stance* stance);

// The floor under the housings as they stand in one row, and the wheelbase along it, which takes
// both.
[[nodiscard]] Floor FloorUnder(const SweepBasis& basis, const std::array<HousingMotion, 2>& rest);
[[nodiscard]] double WheelbaseOn(const Floor& floor, const std::array<HousingMotion, 2>& motion);

// Every column that needs no other row; changes against the row at 0 are filled by SubtractRest.
//   only   this axle alone; absent: both, and what needs both
[[nodiscard]] SweepRow EvaluateRow(const SweepBasis& basis, double travel,
                                   const std::array<RowPlace, 2>& places,
                                   std::optional<size_t> only = {});

// Turns absolute values into changes against the row at 0.
void SubtractRest(const SweepRow& rest, SweepRow& row);

}  // namespace linkwright
