// SPDX-License-Identifier: MIT
// The answer of `limits` in sentences: how much bump and droop are left, what ends them and what
// should, which dampers, stops and straps to order.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/units.h"
#include "solver/study/travel/travel_parts.h"

namespace linkwright {

struct LimitsAsked {
  std::span<const TravelCase> cases;  // as for AdviseParts
  bool one_load;                      // of several in the file one alone was asked for
  bool planned;                       // a travel other than the one found is wanted
  std::vector<std::string> no_rest;   // loads under which it finds none
  std::vector<std::string> no_stops;  // of several loads those that no stops give what is wanted
};

// At most eight.
[[nodiscard]] std::vector<std::string> LimitsSentences(const Vehicle& vehicle,
                                                       const LimitsAsked& asked,
                                                       const PartsAdvice& advice, UnitSystem units);

}  // namespace linkwright
