// SPDX-License-Identifier: MIT
// What is meant by options and their words that are spelled otherwise than here.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace linkwright {

// Puts the option's own name for each that is spelled otherwise: --center-split.
//   errors   UsageError for one that the command does not have, with the nearest that it has
void UnderstandOptions(const Command& command, std::vector<std::string>& arguments);

// Puts the choice that is meant: "inches" is inch, "left-front" front-left, "bump" bounce.
//   option    one with choices
//   returns   what is wrong with a word that means none of them, empty where it does
[[nodiscard]] std::string TakeChoice(const Option& option, std::string& word);

}  // namespace linkwright
