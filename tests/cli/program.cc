// SPDX-License-Identifier: MIT
#include "tests/cli/program.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "cli/run.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

std::string RunToFile(std::vector<std::string> arguments, const char* option) {
  const Folder folder;
  const std::string path = folder.Path("written");
  arguments.insert(arguments.end(), {option, path});
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  return ReadBytes(path);
}

}  // namespace

Outcome RunProgram(const std::vector<std::string>& arguments) {
  std::ostringstream out, err;
  const int exit = Run(arguments, out, err);
  return {.exit = exit, .out = out.str(), .err = err.str()};
}

std::string VehiclePath(const std::string& name) {
  return std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/" + name + ".yaml";
}

Sheet RunToSheet(std::vector<std::string> arguments) {
  return ReadSheet(RunToFile(std::move(arguments), "--csv"));
}

std::string RunToJson(std::vector<std::string> arguments) {
  return RunToFile(std::move(arguments), "--json");
}

std::vector<std::string> Lines(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool HasLine(const std::string& text, const std::string& line) {
  const std::vector<std::string> lines = Lines(text);
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

std::vector<std::string> SplitWords(const std::string& line) {
  std::vector<std::string> words;
  bool inside = false;
  char quote = '\0';
  for (const char c : line) {
    if (quote == '\0' && c == ' ') {
      inside = false;
      continue;
    }
    if (!inside) words.emplace_back();
    inside = true;
    if (quote == '\0' && (c == '\'' || c == '"')) {
      quote = c;
    } else if (c == quote) {
      quote = '\0';
    } else {
      words.back() += c;
    }
  }
  return words;
}

}  // namespace linkwright::check
