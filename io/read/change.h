// SPDX-License-Identifier: MIT
// Makes one variant's changes in the document of its base.
#pragma once

#include "io/read/document.h"
#include "io/read/report.h"

namespace linkwright {

// Applies `title`, `change`, `add` and `remove` of a variant, in that order.
//   variant   its document; parts of the wrong kind are passed over (Validate reports them)
//   root      the base's document, changed in place
//   report    takes paths that are not there, already there, or name two things
// Numbers in brackets always count the items as they stand in the base.
void ApplyVariant(const Node& variant, Node& root, Report& report);

}  // namespace linkwright
