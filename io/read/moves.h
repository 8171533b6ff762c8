// SPDX-License-Identifier: MIT
// A variant's `stretch` and `body`, carried out in the document of its base: every place that goes
// along is written anew, so that what a later variant gives counts from there.
#pragma once

#include <optional>
#include <string_view>

#include "io/read/document.h"
#include "io/read/report.h"

namespace linkwright {

// What a point of the file goes along with.
enum class GoesWith {
  kChassis,
  kHousing,  // of its axle
  kBody,
  kMass,   // as its `fixed_to` says
  kCrank,  // the body that a Watt's link has its pivot on
  kFar,    // the other one
  kStays,  // stands in other axes
};

// Of a key that is a point, or a point in side view; absent for one that is not known here.
[[nodiscard]] std::optional<GoesWith> GoesWithOf(std::string_view group, std::string_view key);

// Stretches the chassis, then sets the body, as far as the variant says so.
//   variant   its document; values that Validate refuses are passed over
//   root      the base's document with the variant's changes in it; does nothing where its wheel
//             centres cannot be read
//   report    takes a cut that parts nothing, and a body of which the file has nothing
//   source    docs/theory.md (78a), (78b)
void ApplyMoves(const Node& variant, Node& root, Report& report);

}  // namespace linkwright
