// SPDX-License-Identifier: MIT
// Tables to read in a terminal: units in the head, numbers aligned, sane digits; lengths in inches
// to the nearest 1/16, as a tape shows them.
#pragma once

#include <string>

#include "io/write/data_table.h"

namespace linkwright {

// A table under its title, no line of it wider than `width` [characters] unless one row's name and
// one number are. As it stands where that fits; else one with fewer rows than columns is turned on
// its side, a line a column, and others are split into parts that each begin with the first column.
// Two columns of words that do not fit are sentences, a line or more a row.
// Columns of several groups are always turned or split, with the groups' names for titles.
[[nodiscard]] std::string ToText(const std::string& title, const DataTable& table, size_t width);

}  // namespace linkwright
