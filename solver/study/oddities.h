// SPDX-License-Identifier: MIT
// Measurements that are possible but most likely slips: a lost minus, a swapped end, a track for
// half a track. Each limit is far from what is built, so that what it names is worth a second look.
#pragma once

#include <string>
#include <vector>

#include "solver/model/vehicle.h"

namespace linkwright {

enum class OddityKind {
  kBelowFloor,     // a point lies under the floor
  kLongLink,       // longer than half the wheelbase
  kShortLink,      // shorter than 100 mm
  kEndsSwapped,    // its housing end is farther from the axle than its chassis end
  kLooseCoil,      // longer as measured than its free length
  kTracksDiffer,   // the tracks differ by more than a quarter
  kHeavyUnsprung,  // more than the scales showed under that axle
};

struct Oddity {
  OddityKind kind;
  size_t axle;
  std::string member;  // display name; empty where it concerns the axle itself
  double value;        // what was found: a height, a length, a ratio, a mass, in SI
};

// source: common practice; the limits are those beside OddityKind
[[nodiscard]] std::vector<Oddity> FindOddities(const Vehicle& vehicle);

}  // namespace linkwright
