// SPDX-License-Identifier: MIT
// Tables to read in a terminal: units in the head, numbers aligned, sane digits; lengths in inches
// also to the nearest 1/16.
#pragma once

#include <string>

#include "io/write/data_table.h"

namespace linkwright {

// One printed table a group, each beginning with the first column: for many rows (a sweep).
[[nodiscard]] std::string ToGroupedText(const DataTable& table);

// One printed table of every column, under a title.
[[nodiscard]] std::string ToTitledText(const std::string& title, const DataTable& table);

// The same no wider than a page of 100 characters: turned on its side where that fits and it does
// not, else in parts that each begin with the first column.
constexpr size_t kPageWidth = 100;
[[nodiscard]] std::string ToFittingText(const std::string& title, const DataTable& table);

// Turned on its side, one line a column and one column a row: for few rows (a settle). Groups are
// headings between lines.
[[nodiscard]] std::string ToTurnedText(const DataTable& table);

}  // namespace linkwright
