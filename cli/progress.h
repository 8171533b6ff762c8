// SPDX-License-Identifier: MIT
// A line that says that something is still being worked out, for a person who waits.
#pragma once

#include <chrono>
#include <ostream>
#include <string>
#include <thread>

namespace linkwright {

// From `after` on and once a second while it lives: "linkwright: sweep takes its time, 3 s". Takes
// the line away at its end. Nothing else may be written to the stream meanwhile.
class Progress {
 public:
  //   to   a terminal, guarded as in cli/shown_buffer.h; null: nothing is said
  Progress(std::string what, std::ostream* to,
           std::chrono::milliseconds after = std::chrono::seconds(1));

 private:
  std::jthread says_;  // asked to stop, and waited for, when this ends
};

}  // namespace linkwright
