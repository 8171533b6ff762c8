// SPDX-License-Identifier: MIT
// What the values of the commands' options may be: lines of the same kind as the format table, and
// the very lines of the file's keys where an option takes the place of one.
#pragma once

#include <string_view>

#include "io/read/format.h"

namespace linkwright {

// The key of an option such as "--speed"; of those that come in two dimensions (--from of a travel
// or an angle), the one asked for. Asking for one that is not there is a mistake of ours.
[[nodiscard]] const Key& FindOption(std::string_view option, Dimension dimension);

// What an option wants, for one that was given nothing: "a length such as ...", "the name of a
// file"; empty for one that is not known.
[[nodiscard]] std::string WantedForOption(std::string_view option);

}  // namespace linkwright
