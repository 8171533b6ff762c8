// SPDX-License-Identifier: MIT
// What to order of a driveshaft so that it does under every load.
#pragma once

#include <span>

#include "solver/study/driveline/driveline.h"

namespace linkwright {

// Every shaft under one load.
struct ShaftsUnder {
  std::string load;  // empty: geometry only
  std::vector<ShaftReport> reports;
};

// Over travel, crossed and one wheel alone under every load.
struct ShaftOrder {
  size_t shaft;                              // index into Vehicle::driveshafts
  std::optional<double> front_length;        // of the front piece of a two-piece shaft [m]
  double rest;                               // length at rest under the first load [m]
  double least, most;                        // [m]
  std::string least_under, most_under;       // the load that decides; empty: all come to the same
  std::vector<double> greatest;              // working angle of each joint, output first [rad]
  std::optional<double> to_bottom, to_part;  // least left of its slip [m]; absent: no slip given
};

// One a shaft. each: one or more loads, every shaft in each.
[[nodiscard]] std::vector<ShaftOrder> OrderShafts(std::span<const ShaftsUnder> each);

}  // namespace linkwright
