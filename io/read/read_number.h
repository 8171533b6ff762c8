// SPDX-License-Identifier: MIT
// A number of the format table read from its text: the same for a key of a file and for an option
// of a command.
#pragma once

#include <string_view>

#include "io/read/format.h"

namespace linkwright {

// The value in SI, within the key's range; or what is wrong with the text and what is wanted.
[[nodiscard]] ParsedValue ReadNumber(std::string_view text, const Key& key, UnitSystem units);

}  // namespace linkwright
