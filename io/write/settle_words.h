// SPDX-License-Identifier: MIT
// Where a vehicle stands under each load, in sentences and in one table to read.
#pragma once

#include <string>
#include <vector>

#include "io/write/json.h"
#include "io/write/settle_columns.h"

namespace linkwright {

// One load asked about, in the file's order.
struct LoadTold {
  std::string name;
  const StanceReport* report;     // null: it found no rest
  std::vector<Contact> contacts;  // what touches or has let go
};

// At most eight sentences: where the body stands under each load, the wheels in their openings,
// what touches or has let go, the worst load.
[[nodiscard]] std::vector<std::string> SettleSentences(const Vehicle& vehicle,
                                                       const std::vector<LoadTold>& loads,
                                                       UnitSystem units);

// "rear cone left touches: squeezed 16 mm, pushing 846 N"
[[nodiscard]] std::string ContactWords(const Vehicle& vehicle, const Contact& contact,
                                       UnitSystem units);

// What is read at a glance, of the table of `settle`: heights, wheels, wheel loads, frequencies.
[[nodiscard]] NamedTable SettleGlance(const DataTable& stances);

}  // namespace linkwright
