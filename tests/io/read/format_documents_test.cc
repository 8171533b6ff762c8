// SPDX-License-Identifier: MIT
// The schema and the tables of the reference follow from the format table and must be as it says.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "io/read/format_tables.h"
#include "io/read/json_schema.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

std::string ReadAll(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

// Compares a file under docs/ with what it should be. If they differ, the new text is left in the
// build folder, and the failure says how to look at it and how to accept it.
void ExpectDocument(const std::string& name, const std::string& wanted) {
  const auto path = std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "docs" / name;
  const auto fresh = std::filesystem::path(LINKWRIGHT_NEW_DIR) / ("new." + name);
  std::filesystem::remove(fresh);
  if (ReadAll(path) == wanted) return;
  std::ofstream(fresh, std::ios::binary) << wanted;
  ADD_FAILURE() << path << " is not what the format table says. This test wrote what it says:\n"
                << "  diff " << path << " " << fresh << "\n  cp " << fresh << " " << path;
}

TEST(FormatDocuments, SchemaIsWhatTheTableSays) {
  ExpectDocument("vehicle.schema.json", JsonSchema());
}

TEST(FormatDocuments, ReferenceHasTheTablesOfTheFormat) {
  std::string page = ReadAll(std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "docs/vehicle-file.md");
  page = ReplaceSection(page, "units", UnitTable());
  page = ReplaceSection(page, "keys", KeyTables());
  EXPECT_NE(page.find("| `wheel_center` |"), std::string::npos) << "the page lost its markers";
  ExpectDocument("vehicle-file.md", page);
}

// The variant in the reference is shown to be copied, so it must work.
TEST(FormatDocuments, ReferenceShowsAVariantThatReads) {
  const auto source = std::filesystem::path(LINKWRIGHT_SOURCE_DIR);
  const std::string page = ReadAll(source / "docs/vehicle-file.md");
  const auto begin = page.find("base: harbour_van.yaml\n");
  ASSERT_NE(begin, std::string::npos);
  const TempFolder folder;
  std::filesystem::copy(source / "fixtures/vehicles/harbour_van.yaml",
                        folder.Path("harbour_van.yaml"));
  const std::string path =
      folder.Write("plan.yaml", page.substr(begin, page.find("```", begin) - begin));
  EXPECT_EQ(ErrorsOf(path), std::vector<std::string>{});
  EXPECT_EQ(ReadVehicleFile(path).vehicle.ledger->added.size(), 4U);
}

TEST(ReplaceSection, ReplacesWhatIsBetweenTheMarkers) {
  const std::string page = "a\n<!-- keys: made -->\nold\n<!-- end of keys -->\nb\n";
  EXPECT_EQ(ReplaceSection(page, "keys", "new\n"),
            "a\n<!-- keys: made -->\n\nnew\n<!-- end of keys -->\nb\n");
  EXPECT_EQ(ReplaceSection(page, "units", "new\n"), page);
}

}  // namespace
}  // namespace linkwright
