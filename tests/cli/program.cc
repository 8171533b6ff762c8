// SPDX-License-Identifier: MIT
#include "tests/cli/program.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
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

// As CSV shows a value.
std::string PlainText(const nlohmann::ordered_json& value) {
  if (value.is_null()) return {};
  return value.is_string() ? value.get<std::string>() : fmt::format("{:.12g}", value.get<double>());
}

Sheet ToLongSheet(const std::string& document) {
  Sheet sheet{.header = {"table", "row", "quantity", "unit", "value"}, .rows = {}};
  const auto json = nlohmann::ordered_json::parse(document);
  for (const auto& [name, table] : json.items()) {
    if (!table.is_object() || name == "findings") continue;
    const auto& columns = table["columns"];
    for (const auto& row : table["rows"]) {
      for (size_t i = 1; i < columns.size(); ++i) {
        const auto& column = columns[i];
        sheet.rows.push_back({name, PlainText(row[columns[0]["name"].get<std::string>()]),
                              column["quantity"], column["unit"],
                              PlainText(row[column["name"].get<std::string>()])});
      }
    }
  }
  return sheet;
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

std::vector<std::string> VehicleNames() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(LINKWRIGHT_SOURCE_DIR) +
                                                               "/fixtures/vehicles")) {
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> UnlikeVehicles() {
  std::vector<std::string> names = VehicleNames();
  for (const char* variant :
       {"coast_taxi_old_springs", "ferry_wagon_axle_scales", "harbour_van_lower_rear_arm",
        "harbour_van_old_springs", "harbour_van_old_springs_checked", "orchard_one_coil_length"}) {
    std::erase(names, variant);
  }
  return names;
}

Sheet RunToSheet(std::vector<std::string> arguments) {
  const std::string& command = arguments.front();
  if (command == "settle" || command == "sweep" || command == "compare") {
    return ReadSheet(RunToFile(std::move(arguments), "--csv"));
  }
  return ToLongSheet(RunToFile(std::move(arguments), "--json"));
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

std::string OnOneLine(std::string text) {
  for (size_t at = 0; (at = text.find("\n  ")) != std::string::npos;) text.replace(at, 3, " ");
  return text;
}

bool HasLine(const std::string& text, const std::string& line) {
  const std::vector<std::string> lines = Lines(text);
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

std::string Flat(const std::string& text) {
  std::string flat;
  std::istringstream words(text);
  for (std::string word; words >> word;) flat += (flat.empty() ? "" : " ") + word;
  return flat;
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
