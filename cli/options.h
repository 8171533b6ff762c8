// SPDX-License-Identifier: MIT
// The options of a command as data: one row each, which says all there is of it. The library that
// reads command lines is met in cli/run.cc alone.
#pragma once

#include <string>
#include <vector>

#include "io/read/format.h"

namespace linkwright {

constexpr int kFlag = 0;       // Option::count of one that takes no words
constexpr int kAnyCount = -1;  // and of one that takes any number of them

constexpr double kMostTravel = 2.0;  // [m] nothing is asked of an axle beyond
constexpr Range kTravelRange{.low = 0.0, .high = kMostTravel, .above_low = true};
constexpr Range kShareRange{.low = 0.0, .high = 1.0};

// An option, or a vehicle file, which stands without a name and must be given.
struct Option {
  std::string name;  // "--load"; "FILE"
  std::string help;
  std::string wanted = {};                // what its word is: "the name of a load"
  std::vector<Key> amounts = {};          // what an amount may be, in each dimension it can have
  std::vector<std::string> choices = {};  // empty: any word
  int count = 1;                          // words that it takes
  bool is_word = false;  // stands without a name like a file, is none and may be left away
};

// An option of a command line, and the words after it.
struct Given {
  Option option;
  std::vector<std::string> words;  // none after a flag
};

[[nodiscard]] bool IsFile(const Option& option);

// What an option wants, for one that was given nothing: "a length such as ...", "the name of a
// file"; empty for one that has choices.
[[nodiscard]] std::string WantedFor(const Option& option);

[[nodiscard]] Option FileOption(const char* name = "FILE");
[[nodiscard]] Option LoadOption(
    const char* help =
        "stand it under this load first; by default the file's default_load, else "
        "the first");

// An amount within a range, for Option::amounts; where it takes the place of a key of the file,
// that key (FindKey). A plain number is in the vehicle file's own unit, whatever --units shows.
[[nodiscard]] Key AmountKey(Dimension dimension, Range range = {});

// Those that every command has.
[[nodiscard]] std::vector<Option> CommonOptions();

}  // namespace linkwright
