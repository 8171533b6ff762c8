// SPDX-License-Identifier: MIT
// What answers are read in: how wide, and whether a person sees it as it comes.
#pragma once

#include <cstddef>

#include "io/write/wrap.h"

namespace linkwright {

struct Window {
  size_t width = kUsualWidth;  // [characters]
  bool color = false;          // standard output is a terminal that shows it, and may
  bool progress = false;       // standard error is a terminal: what lasts says so
};

// COLUMNS, as shells and pagers set it; else that of the terminal that standard output is; else the
// usual.
[[nodiscard]] size_t WindowWidth();

// Of the standard streams. No colour under NO_COLOR (no-color.org) or on a terminal called dumb.
[[nodiscard]] Window FindWindow();

}  // namespace linkwright
