// SPDX-License-Identifier: MIT
// Every way a unit may be written in a value string. Private to io/units*.cc.
#pragma once

#include <span>
#include <string_view>

#include "io/units.h"

namespace linkwright {

struct UnitSpelling {
  std::string_view text;  // "N*s/mm"
  Dimension dimension;
  double si;   // one of it, in the SI unit of its dimension
  bool shown;  // named in errors and documents
};

// All of them; the same text may stand under two dimensions ("lb": mass, force).
[[nodiscard]] std::span<const UnitSpelling> UnitSpellings();

}  // namespace linkwright
