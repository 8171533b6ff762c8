// SPDX-License-Identifier: MIT
// Who may include whom: cli -> io -> solver -> {Eigen, Ceres, std}; inside solver a folder uses
// only those above it; the two wings of io do not know each other.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>
#include <regex>

namespace {

namespace fs = std::filesystem;

bool Under(const std::string& path, const std::string& folder) {
  return path.rfind(folder + "/", 0) == 0;
}

// Place of a solver path in the list of layers; none outside it.
std::optional<size_t> LayerOf(const std::string& path) {
  static const std::vector<std::string> layers{"numeric", "model", "pose", "geometry",
                                               "rest",    "study", "fit"};
  for (size_t i = 0; i < layers.size(); ++i) {
    if (Under(path, "solver/" + layers[i])) return i;
  }
  return std::nullopt;
}

// What is wrong with `file` including `header`; nothing where it may.
std::optional<std::string> Violation(const std::string& file, const std::string& header) {
  const auto because = [&](const std::string& why) {
    return file + " includes " + header + ": " + why;
  };
  if (Under(header, "tests") && !Under(file, "tests"))
    return because("tests are not part of the program");
  if (Under(file, "solver")) {
    if (Under(header, "io") || Under(header, "cli")) return because("the solver knows no edge");
    static const std::regex edge(
        "^(yaml-cpp|spdlog|fmt|nlohmann|CLI|xlsxwriter)[./].*|^(iostream|fstream|cstdio|print)$");
    if (std::regex_match(header, edge)) return because("the solver knows no text, files or logs");
    if (Under(header, "solver") && LayerOf(file) && LayerOf(header) &&
        *LayerOf(header) > *LayerOf(file)) {
      return because("a folder uses only those above it");
    }
    if (Under(header, "solver") && !LayerOf(header)) return because("not a folder of the solver");
  }
  if (Under(file, "io")) {
    if (Under(header, "cli")) return because("io knows no commands");
    if (Under(file, "io/read") && Under(header, "io/write"))
      return because("the wings of io do not meet");
    if (Under(file, "io/write") && Under(header, "io/read"))
      return because("the wings of io do not meet");
  }
  return std::nullopt;
}

std::vector<std::string> Includes(std::istream& text) {
  static const std::regex include("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"].*");
  std::vector<std::string> headers;
  std::smatch match;
  for (std::string line; std::getline(text, line);) {
    if (std::regex_match(line, match, include)) headers.push_back(match[1]);
  }
  return headers;
}

TEST(Layering, RepositoryKeepsItsArrows) {
  std::vector<std::string> violations;
  size_t files = 0;
  for (const char* folder : {"solver", "io", "cli"}) {
    const fs::path start = fs::path(LINKWRIGHT_ROOT) / folder;
    if (!fs::exists(start)) continue;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(start)) {
      if (entry.path().extension() != ".h" && entry.path().extension() != ".cc") continue;
      ++files;
      std::ifstream text(entry.path());
      const std::string file = fs::relative(entry.path(), LINKWRIGHT_ROOT).generic_string();
      for (const std::string& header : Includes(text)) {
        if (const auto violation = Violation(file, header)) violations.push_back(*violation);
      }
    }
  }
  EXPECT_GT(files, 30u) << "looked in the wrong place";
  EXPECT_THAT(violations, testing::IsEmpty());
}

TEST(Layering, EveryRuleCatchesItsBreach) {
  for (const auto& [file, header] : std::vector<std::pair<std::string, std::string>>{
           {"solver/pose/solve.cc", "io/units.h"},
           {"solver/study/curves/sweep.cc", "cli/run.h"},
           {"solver/model/masses.cc", "yaml-cpp/yaml.h"},
           {"solver/rest/settle.cc", "spdlog/spdlog.h"},
           {"solver/rest/settle.cc", "iostream"},
           {"solver/model/vehicle.h", "solver/pose/axle_frame.h"},
           {"solver/pose/solve.h", "solver/geometry/floor.h"},
           {"solver/geometry/floor.h", "solver/rest/rig.h"},
           {"solver/rest/settle.h", "solver/study/curves/sweep.h"},
           {"solver/study/curves/sweep.h", "solver/fit/tape.h"},
           {"solver/rest/settle.h", "solver/elsewhere/thing.h"},
           {"io/read/vehicle_file.h", "io/write/columns.h"},
           {"io/write/columns.h", "io/read/document.h"},
           {"io/units.h", "cli/run.h"},
           {"solver/rest/settle.cc", "tests/support/vehicles.h"}}) {
    EXPECT_TRUE(Violation(file, header)) << file << " may include " << header;
  }
}

TEST(Layering, WhatIsAllowedIsAllowed) {
  for (const auto& [file, header] : std::vector<std::pair<std::string, std::string>>{
           {"solver/pose/solve.cc", "solver/model/error.h"},
           {"solver/pose/solve.cc", "solver/pose/motion.h"},
           {"solver/fit/tape.cc", "solver/study/curves/sweep.h"},
           {"solver/pose/solve.cc", "ceres/tiny_solver.h"},
           {"solver/pose/solve.cc", "Eigen/LU"},
           {"solver/pose/solve.cc", "vector"},
           {"io/read/document.cc", "io/units.h"},
           {"io/write/csv.cc", "solver/study/curves/sweep.h"},
           {"cli/main.cc", "io/read/document.h"}}) {
    EXPECT_FALSE(Violation(file, header)) << file << " may not include " << header;
  }
}

TEST(Layering, FindsIncludesHoweverTheyAreWritten) {
  std::istringstream text(
      "#include <vector>\n  #  include \"a/b.h\"  // why\n// #include <no>\nint x;\n");
  EXPECT_THAT(Includes(text), testing::ElementsAre("vector", "a/b.h"));
}

}  // namespace
