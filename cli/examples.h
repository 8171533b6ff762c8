// SPDX-License-Identifier: MIT
// How the example of each command begins: made from the program's own output, and held by a test.
#pragma once

#include <string_view>

namespace linkwright {

// The first lines under the heading; empty for a command without an example.
[[nodiscard]] std::string_view ExampleOutput(std::string_view command);

}  // namespace linkwright
