// SPDX-License-Identifier: MIT
// A plan as a variant file: what a command advises, to be read again, changed by hand and kept.
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "io/units.h"

namespace linkwright {

// A key or a path, and its value as it stands in the file.
struct PlanLine {
  std::string key, value;
};

struct Plan {
  std::string title;
  std::vector<std::string> says;      // what it is, one sentence each, for the head of the file
  std::vector<PlanLine> keys;         // of the variant itself: stretch, body
  std::vector<PlanLine> change, add;  // by path
};

// True where it holds nothing to carry out.
[[nodiscard]] inline bool IsEmpty(const Plan& plan) {
  return plan.keys.empty() && plan.change.empty() && plan.add.empty();
}

// The variant's text.
//   base   of the file it is a variant of, seen from its own folder
[[nodiscard]] std::string ToYaml(const Plan& plan, const std::string& base);

// A value in the file's own unit, without it; what is left off is below a nanometre, or what that
// is at the end of a vehicle. A point as [x, y, z].
[[nodiscard]] std::string PlanLength(double length, UnitSystem units);
[[nodiscard]] std::string PlanAngle(double angle, UnitSystem units);
[[nodiscard]] std::string PlanPoint(const Eigen::Vector3d& p_C, UnitSystem units);

// A text, or a key, as YAML reads it again: bare where nothing in it means something else there.
[[nodiscard]] std::string PlanText(const std::string& text);

// How `input` is named in a variant at `output`: from its folder, or from the root where that does
// not lead there.
[[nodiscard]] std::string BaseFrom(const std::string& output, const std::string& input);

}  // namespace linkwright
