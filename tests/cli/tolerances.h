// SPDX-License-Identifier: MIT
// How far a column may be from the independent formulation's value.
#pragma once

#include <string>

namespace linkwright::check {

struct Tolerance {
  double absolute;  // in the column's unit
  double relative;  // of the value; the larger of both counts
};

// What the column's unit and quantity allow. errors: std::runtime_error for an unknown unit
[[nodiscard]] Tolerance ToleranceOf(const std::string& column);

}  // namespace linkwright::check
