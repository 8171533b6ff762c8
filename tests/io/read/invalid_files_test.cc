// SPDX-License-Identifier: MIT
// Every file of fixtures/invalid says on its first lines what must be said about it:
//   # expect: LINE:COLUMN text            an error of this file
//   # expect: FILE:LINE:COLUMN text       an error in another file, named as the reader names it
// A file whose error only the solver can see begins with "# expect-model:" instead; it must read
// well here.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "io/read/vehicle_file.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

const std::filesystem::path kFolder =
    std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "fixtures" / "invalid";

std::vector<std::string> Files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) {
    if (entry.path().extension() == ".yaml") files.push_back(entry.path().stem().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

// What the first lines expect, with the file named everywhere; a file that is no expectation at
// all gives an entry that nothing equals.
std::vector<std::string> Expected(const std::string& name) {
  std::vector<std::string> expected;
  std::ifstream in(kFolder / (name + ".yaml"));
  std::string line;
  bool for_solver = false;
  for (const std::string_view mark = "# expect: "; std::getline(in, line);) {
    for_solver = for_solver || line.starts_with("# expect-model: ");
    if (!line.starts_with(mark)) break;
    line.erase(0, mark.size());
    const bool names_file = line.find(".yaml:") < line.find(' ');
    expected.push_back(names_file ? line : name + ".yaml:" + line);
  }
  if (expected.empty() && !for_solver) expected.push_back("the file begins with # expect:");
  return expected;
}

class InvalidFiles : public testing::TestWithParam<std::string> {};

TEST_P(InvalidFiles, GiveExactlyTheErrorsTheyAnnounce) {
  EXPECT_EQ(ErrorsOf((kFolder / (GetParam() + ".yaml")).string()), Expected(GetParam()));
}

INSTANTIATE_TEST_SUITE_P(Fixtures, InvalidFiles, testing::ValuesIn(Files()),
                         [](const auto& file) { return file.param; });

TEST(InvalidFilesFolder, HoldsFortyOrMore) { EXPECT_GE(Files().size(), 40U); }

}  // namespace
}  // namespace linkwright
