// SPDX-License-Identifier: MIT
// What each kind of finding means: what `explain` and docs/findings.md say, one entry a slug.
#pragma once

#include <string_view>

#include "solver/study/findings/finding.h"

namespace linkwright {

//   meaning      one line, no longer than kMeaningWidth
//   why          what comes of it
//   mend         what makes it go
//   aims_group   of the format table, that holds its aim; empty: no key does
//   aims_keys    keys of that group, blanks between
//   fixed        where no key does: from where on it is told, and whose choice that is
struct FindingPage {
  FindingKind kind;
  std::string_view meaning, why, mend;
  std::string_view aims_group = {}, aims_keys = {};
  std::string_view fixed = {};
};

constexpr size_t kMeaningWidth = 53;

[[nodiscard]] const FindingPage& FindingPageOf(FindingKind kind);

}  // namespace linkwright
