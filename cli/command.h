// SPDX-License-Identifier: MIT
// A command as data, and the one way in which every command is run.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/answer.h"

namespace spdlog {
class logger;
}

namespace linkwright {

struct Streams {
  std::ostream& out;
  std::ostream& err;
  spdlog::logger& log;
};

// What it is called, what it answers, and how.
struct Command {
  std::string name, help;
  std::vector<Option> options;  // without those that every command has
  // errors: UsageError; NoRest; InputErrors; ModelError about the only or first file
  Answer (*answer)(const Question&);
};

// Reads the files, answers and hands out.
//   returns   the exit status; errors: InputErrors, UsageError, WriteError
[[nodiscard]] int RunCommand(const Command& command, std::vector<Given> given,
                             const Streams& streams);

[[nodiscard]] Command CheckCommand();
[[nodiscard]] Command SettleCommand();
[[nodiscard]] Command SweepCommand();
[[nodiscard]] Command CompareCommand();
[[nodiscard]] Command DrivelineCommand();
[[nodiscard]] Command SteeringCommand();
[[nodiscard]] Command OriginalCommand();
[[nodiscard]] Command RollCommand();
[[nodiscard]] Command RideCommand();
[[nodiscard]] Command LimitsCommand();
[[nodiscard]] Command OpeningsCommand();

}  // namespace linkwright
