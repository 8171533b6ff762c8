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

// Of all files there, in order.
[[nodiscard]] std::vector<std::string> VehicleNames();

// Those without the variants whose axles stand and move as another one's there do, or all but: the
// old body's leaf springs added, other scales, one coil's length, an arm that is a few millimetres
// off in the vehicle as built.
[[nodiscard]] std::vector<std::string> UnlikeVehicles();

// Runs a command and reads its CSV; of one with many tables all but its findings, a line a value:
// columns table, row (the text of each row's first cell), quantity, unit, value. Fails the test
// where the exit status is not 0.
[[nodiscard]] Sheet RunToSheet(std::vector<std::string> arguments);

// The same with --json: the document's text.
[[nodiscard]] std::string RunToJson(std::vector<std::string> arguments);

// A text's lines, line ends off.
[[nodiscard]] std::vector<std::string> Lines(const std::string& text);

// Without the breaks of what was longer than the window and goes on, indented, on the next line.
[[nodiscard]] std::string OnOneLine(std::string text);

// Whether a text has this line, whole.
[[nodiscard]] bool HasLine(const std::string& text, const std::string& line);

// A text as one line, its words one blank apart: sentences however the window broke them.
[[nodiscard]] std::string Flat(const std::string& text);

// Words as a shell splits them: blanks part them, quotes of either kind hold them together.
[[nodiscard]] std::vector<std::string> SplitWords(const std::string& line);

}  // namespace linkwright::check
