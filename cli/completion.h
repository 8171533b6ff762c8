// SPDX-License-Identifier: MIT
// What a shell completes: commands, options, their choices, and names from the vehicle file, all
// from the tables that the program itself goes by. The scripts ask the program.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace linkwright {

constexpr const char* kCompletionName = "completion";  // prints the script of a shell
constexpr const char* kCompleteName = "__complete";    // what the scripts ask

//   words    the shell: bash, zsh or fish
//   errors   UsageError for another
[[nodiscard]] std::string CompletionScript(const std::vector<std::string>& words);

// What the last word may become.
//   words     those of the command line after the program's name, the last perhaps empty
//   returns   none where the name of a file is wanted, or nothing is known
[[nodiscard]] std::vector<std::string> Complete(const std::vector<std::string>& words,
                                                const std::vector<Command>& commands);

}  // namespace linkwright
