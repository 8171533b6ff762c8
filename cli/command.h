// SPDX-License-Identifier: MIT
// A command as data, and the one way in which every command is run.
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "cli/window.h"

namespace spdlog {
class logger;
}

namespace linkwright {

struct Streams {
  std::ostream& out;
  std::ostream& err;
  spdlog::logger& log;
  Window window;  // that `out` is read in
};

// What it is called, what it answers, and how. The manual, --help and what shells complete are all
// made of this.
struct Command {
  std::string name, help;
  std::string asks = {};        // the question that it answers
  std::string example = {};     // words after its name: of the vehicles in fixtures/vehicles
  std::vector<Option> options;  // without those that every command has
  // errors: UsageError; NoRest; InputErrors; ModelError about the only or first file
  Answer (*answer)(const Question&) = nullptr;
  // In its place for one that asks about no vehicle, and has none of the options of the others:
  // what it prints into a window of that width. errors: UsageError
  std::string (*say)(const Question&, size_t width) = nullptr;
};

// Reads the files, answers and hands out.
//   returns   the exit status; errors: InputErrors, UsageError, WriteError
[[nodiscard]] int RunCommand(const Command& command, std::vector<Given> given,
                             const Streams& streams);

// The command that is asked where none is named, for a file alone.
constexpr const char* kPageName = "page";

// Its own options and those that every command has.
[[nodiscard]] std::vector<Option> OptionsOf(const Command& command);

// Null: none has that name.
[[nodiscard]] const Command* FindCommand(std::string_view name,
                                         const std::vector<Command>& commands);

// In the order in which a person meets them.
[[nodiscard]] std::vector<Command> AllCommands();

[[nodiscard]] Command PageCommand();
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
[[nodiscard]] Command ExplainCommand();

}  // namespace linkwright
