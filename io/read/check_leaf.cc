// SPDX-License-Identifier: MIT
// Checks of the old vehicle's leaf springs.
#include <cmath>

#include "io/read/check.h"

namespace linkwright {
namespace {

void CheckEnds(const Part& spring, Report& report) {
  const auto eye = SideOf(Find(spring.node, "fixed_eye"));
  const auto pivot = SideOf(Find(spring.node, "shackle_pivot"));
  const std::string end = TextAt(spring.node, "shackled_end");
  if (!eye || !pivot || (end != "front" && end != "rear")) return;
  if (end == "rear" ? pivot->x() < eye->x() : pivot->x() > eye->x()) return;
  AddErrorAt(report, spring, "shackle_pivot",
             "x is {}, not {} the fixed eye at {}, and the shackle is at the {} end "
             "(x points forward)",
             pivot->x(), end == "rear" ? "behind" : "ahead of", eye->x(), end);
}

void CheckArcs(const Part& spring, Report& report) {
  const double clamped = NumberOr(spring.node, "leaf_spring", "clamped");
  const double eye_up = NumberOr(spring.node, "leaf_spring", "eye_up");
  constexpr double kLargestEye = 0.2;  // of a half leaf; a truck's is a tenth or less
  for (const std::string_view key : {"arc_fixed", "arc_shackled"}) {
    const auto arc = NumberAt(spring.node, key);
    if (!arc || *arc <= 0.0) continue;
    if (clamped / 2.0 >= *arc) {
      AddErrorAt(report, spring, "clamped", "half of it, {}, is not less than {}, {}",
                 clamped / 2.0, key, *arc);
      return;
    }
    if (std::abs(eye_up) > kLargestEye * (*arc - clamped / 2.0)) {
      AddErrorAt(report, spring, "eye_up", "{} is more than a fifth of the free half leaf, {}",
                 eye_up, *arc - clamped / 2.0);
      return;
    }
  }
}

// The string between the eyes is never longer than the leaf, an eye rolled down apart.
void CheckEyes(const Part& spring, std::string_view key, Report& report) {
  const auto eyes = NumberAt(spring.node, key);
  const auto fixed = NumberAt(spring.node, "arc_fixed");
  const auto shackled = NumberAt(spring.node, "arc_shackled");
  if (!eyes || !fixed || !shackled) return;
  const double eye_up = NumberOr(spring.node, "leaf_spring", "eye_up");
  if (*eyes <= *fixed + *shackled + 2.0 * std::abs(eye_up)) return;
  AddErrorAt(report, spring, key, "it is more than the whole leaf, {}", *fixed + *shackled);
}

// A slip of a foot or of an inch mark; less is for `original` to weigh.
void CheckBolts(const Part& spring, Report& report) {
  constexpr double kFarOff = 0.1;  // of the distance between both points
  const auto apart = NumberAt(spring.node, "bolts_apart");
  const auto eye = SideOf(Find(spring.node, "fixed_eye"));
  const auto pivot = SideOf(Find(spring.node, "shackle_pivot"));
  if (!apart || !eye || !pivot) return;
  const double between = (*pivot - *eye).norm();
  if (std::abs(*apart - between) <= kFarOff * between) return;
  AddErrorAt(report, spring, "bolts_apart",
             "{} does not go with fixed_eye and shackle_pivot, which are {} apart", *apart,
             between);
}

}  // namespace

void CheckLeafOriginal(const Part& vehicle, Report& report) {
  for (const Part& spring : AxleParts(PartAt(vehicle, "leaf_original"))) {
    CheckEnds(spring, report);
    CheckArcs(spring, report);
    for (const std::string_view key : {"eyes_now", "eyes_new"}) CheckEyes(spring, key, report);
    CheckBolts(spring, report);
  }
}

}  // namespace linkwright
