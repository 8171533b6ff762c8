// SPDX-License-Identifier: MIT
// --help and the manual, both made of what the commands say of themselves.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace linkwright {

constexpr const char* kManualName = "--man";

// What it answers, an example with how its output begins, its options, what the exit status means.
//   width   of the window [characters]
[[nodiscard]] std::string HelpOf(const Command& command, size_t width);

// All commands, a line each.
[[nodiscard]] std::string HelpOf(const std::vector<Command>& commands, size_t width);

// A manual page, for man(7) macros.
//   words    the name of one command, or nothing: all of them
//   errors   UsageError for a command that is not there
[[nodiscard]] std::string ManualOf(const std::vector<std::string>& words,
                                   const std::vector<Command>& commands);

// "linkwright settle harbour_van.yaml --load driver"
[[nodiscard]] std::string ExampleLine(const Command& command);

}  // namespace linkwright
