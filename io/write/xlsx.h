// SPDX-License-Identifier: MIT
// A result as a workbook (ECMA-376) that any spreadsheet opens: numbers are numbers whatever the
// locale, curves come with charts.
#pragma once

#include <string>

#include "io/write/json.h"

namespace linkwright {

// The bytes of a workbook. The first sheet has the answer in sentences and what is assumed; then
// every table has a sheet of its own, one whose columns stand in several groups (a sweep) a sheet a
// group. Heads carry units and stay in sight; numbers are those of the CSV. Where a group has a
// number in its first column and three rows or more, its curves are drawn beside it, one chart a
// unit.
//   errors   WriteError where no temporary file can be made
[[nodiscard]] std::string ToXlsx(const Document& document);

}  // namespace linkwright
