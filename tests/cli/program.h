// SPDX-License-Identifier: MIT
// The program as the tests of the commands call it: in process, its streams caught.
#pragma once

#include <string>
#include <vector>

#include "tests/io/write/read_csv.h"

namespace linkwright::check {

struct Outcome {
  int exit;
  std::string out;
  std::string err;
};

[[nodiscard]] Outcome RunProgram(const std::vector<std::string>& arguments);

// fixtures/vehicles/NAME.yaml, absolute.
[[nodiscard]] std::string VehiclePath(const std::string& name);

// Runs a command with --csv and reads what it wrote. Fails the test where the exit status is not 0.
[[nodiscard]] Sheet RunToSheet(std::vector<std::string> arguments);

// The same with --json: the document's text.
[[nodiscard]] std::string RunToJson(std::vector<std::string> arguments);

// A text's lines, line ends off.
[[nodiscard]] std::vector<std::string> Lines(const std::string& text);

// Whether a text has this line, whole.
[[nodiscard]] bool HasLine(const std::string& text, const std::string& line);

// Words as a shell splits them: blanks part them, quotes of either kind hold them together.
[[nodiscard]] std::vector<std::string> SplitWords(const std::string& line);

}  // namespace linkwright::check
