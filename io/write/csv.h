// SPDX-License-Identifier: MIT
// CSV after RFC 4180: one header row, CR LF line ends, `.` decimals whatever the locale.
#pragma once

#include <string>

#include "io/write/data_table.h"

namespace linkwright {

// Twelve significant digits; an absent value, or one that is
// no finite number, is an empty field. Text (headers too) that a
// spreadsheet would run as a formula gets an apostrophe before it.
[[nodiscard]] std::string ToCsv(const DataTable& table);

}  // namespace linkwright
