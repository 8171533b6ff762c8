// SPDX-License-Identifier: MIT
// The program as a function, so that tests call it in process.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/window.h"

namespace linkwright {

enum ExitCode {
  kDone = 0,
  kAnswerIsNo = 1,  // no resting position, or a limit exceeded under --strict
  kUnusable = 2,    // input or usage
};

// Runs one command line, the program's name left off. Tables go to `out`, complaints to `err`.
//   window   that they are read in; as wide as COLUMNS says and no terminal unless given
[[nodiscard]] int Run(const std::vector<std::string>& arguments, std::ostream& out,
                      std::ostream& err, const Window& window);
[[nodiscard]] int Run(const std::vector<std::string>& arguments, std::ostream& out,
                      std::ostream& err);

}  // namespace linkwright
