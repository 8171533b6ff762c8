// SPDX-License-Identifier: MIT
// A command as data: its name, its options and where each one's value goes, and what to run. The
// library that reads command lines is met in cli/run.cc alone.
#pragma once

#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace linkwright {

struct Streams;

// An option, a flag (bool) or a file that stands without a name.
struct Option {
  std::string name;  // "--load"; "FILE"
  std::variant<std::string*, std::vector<std::string>*, bool*> to;
  std::string help;
  std::vector<std::string> choices = {};  // empty: any word
  int count = 1;                          // words that it takes
  bool required = false;
};

struct Command {
  std::string name, help;
  std::vector<Option> options = {};
  std::function<int(Streams&)> run = {};
};

// The same option to be completed: its choices, its count.
template <typename To>
Option& AddOption(Command& command, const char* name, To& to, const char* help) {
  return command.options.emplace_back(Option{.name = name, .to = &to, .help = help});
}

// A file that must be given.
inline void AddFile(Command& command, const char* name, std::string& to, const char* help) {
  AddOption(command, name, to, help).required = true;
}

}  // namespace linkwright
