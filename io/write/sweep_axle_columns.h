// SPDX-License-Identifier: MIT
// The columns of a sweep that there is one of for each axle. Private to io/write.
#pragma once

#include <vector>

#include "io/write/data_table.h"
#include "solver/study/sweep.h"

namespace linkwright {

// Which printed table of its axle a column stands in.
enum class AxlePart { kPosition, kViews, kRide };

[[nodiscard]] const char* PartName(AxlePart part);

// A column there is one of for each axle; the two may have names of their own.
struct AxleColumn {
  const char* front;  // name after the axle's own: "lateral_shift"
  const char* rear;
  const char* head_front;
  const char* head_rear;
  Dimension dimension;
  AxlePart part;
  const char* definition;
  bool needs_mass;
  bool (*applies)(const Axle&);
  std::optional<double> (*value)(const AxleRow&);
};

// In the order of the contract: what stands before the columns of the roll axis, after them, and
// last.
[[nodiscard]] const std::vector<AxleColumn>& AxleColumnsBeforeRollAxis();
[[nodiscard]] const std::vector<AxleColumn>& AxleColumnsAfterRollAxis();
[[nodiscard]] const std::vector<AxleColumn>& OpeningColumns();

}  // namespace linkwright
