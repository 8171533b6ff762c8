// SPDX-License-Identifier: MIT
// The answer of `driveline` in sentences: whether each shaft fits and runs, what to turn, what to
// order.
#pragma once

#include <string>
#include <vector>

#include "io/write/driveline_tables.h"

namespace linkwright {

struct DrivelineAsked {
  std::string load;                  // told about first; empty: geometry only
  bool one_load;                     // of several in the file one alone was asked for
  size_t loads;                      // that the orders are for
  std::vector<std::string> no_rest;  // loads under which it finds none
};

// At most eight.
[[nodiscard]] std::vector<std::string> DrivelineSentences(const Vehicle& vehicle,
                                                          const DrivelineAsked& asked,
                                                          const std::vector<ShaftReport>& reports,
                                                          const std::vector<ShaftOrder>& orders,
                                                          UnitSystem units);

}  // namespace linkwright
