// SPDX-License-Identifier: MIT
// Holds a document against the format table.
#pragma once

#include <string_view>

#include "io/read/document.h"
#include "io/read/report.h"

namespace linkwright {

// Reports every key that is missing or unknown, every value of the wrong kind, dimension or range,
// and leaves the SI value in Node::si of every good number.
//   root    the whole document
//   group   "vehicle" or "variant"
void Validate(Node& root, std::string_view group, Report& report);

}  // namespace linkwright
