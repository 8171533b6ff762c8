// SPDX-License-Identifier: MIT
// Guards the layout of what is printed; what the numbers are worth is shown elsewhere. Where a text
// differs, the new one is written to the build folder: look at the difference, then copy it over.
#include <gtest/gtest.h>

#include <fstream>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

void ExpectGolden(const std::string& name, const std::vector<std::string>& arguments) {
  const std::string root = LINKWRIGHT_SOURCE_DIR;
  const std::string expected_path = root + "/fixtures/golden/" + name;
  const std::string actual_path = std::string(LINKWRIGHT_GOLDEN_OUTPUT) + "/" + name;
  const WorkingFolder here(root);
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  const bool known = std::filesystem::exists(expected_path);
  if (known && ReadBytes(expected_path) == outcome.out) return;
  std::ofstream(actual_path, std::ios::binary) << outcome.out;
  ADD_FAILURE() << "the text is another; look at it with\n  diff " << expected_path << " "
                << actual_path;
}

TEST(Golden, Settle) {
  ExpectGolden("settle_harbour_van.txt", {"settle", "fixtures/vehicles/harbour_van.yaml"});
}

TEST(Golden, Sweep) {
  ExpectGolden("sweep_harbour_van.txt",
               {"sweep", "fixtures/vehicles/harbour_van.yaml", "--step", "20"});
}

TEST(Golden, SettleInInches) {
  ExpectGolden("settle_harbour_van_inch.txt",
               {"settle", "fixtures/vehicles/harbour_van.yaml", "--units", "inch"});
}

}  // namespace
}  // namespace linkwright::check
