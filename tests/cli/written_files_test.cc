// SPDX-License-Identifier: MIT
// --csv and --json: what a command writes beside its tables.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Json = nlohmann::ordered_json;

// A command, and the name its main table has in JSON.
struct Written {
  std::vector<std::string> arguments;
  std::string table;
};

std::vector<Written> Commands() {
  const std::string van = VehiclePath("harbour_van");
  return {{{"settle", van}, "stances"},
          {{"sweep", van, "--from", "-20", "--to", "20"}, "rows"},
          {{"sweep", VehiclePath("bare_frame"), "--from", "-20", "--to", "20"}, "rows"},
          {{"compare", van, van, "--from", "-20", "--to", "20"}, "curves"}};
}

void ExpectSameValue(const Json& value, const std::string& field) {
  if (value.is_number()) {
    // CSV has twelve digits, JSON all of them.
    const double number = value.get<double>();
    EXPECT_NEAR(ToNumber(field), number, 5.1e-12 * std::abs(number));
  } else {
    EXPECT_EQ(field, value.is_null() ? "" : value.get<std::string>());
  }
}

TEST(WrittenFiles, JsonHoldsTheSameNumbersAsCsv) {
  for (const Written& written : Commands()) {
    const Sheet sheet = RunToSheet(written.arguments);
    const Json rows = Json::parse(RunToJson(written.arguments)).at(written.table).at("rows");
    ASSERT_EQ(rows.size(), sheet.rows.size());
    for (size_t r = 0; r < rows.size(); ++r) {
      ASSERT_EQ(rows[r].size(), sheet.header.size());
      for (size_t c = 0; c < sheet.header.size(); ++c) {
        ExpectSameValue(rows[r].at(sheet.header[c]), sheet.rows[r][c]);
      }
    }
  }
}

TEST(WrittenFiles, JsonNamesCommandFileTitleAndNotes) {
  const Json json = Json::parse(RunToJson({"settle", VehiclePath("harbour_van")}));
  EXPECT_EQ(json.at("command"), "settle");
  EXPECT_EQ(json.at("file"), VehiclePath("harbour_van"));
  EXPECT_EQ(json.at("title"), "Harbour delivery van");
  ::setenv("COLUMNS", "1000", 1);  // nothing is wrapped
  const std::string out = RunProgram({"settle", VehiclePath("harbour_van"), "--full"}).out;
  ::unsetenv("COLUMNS");
  ASSERT_GE(json.at("notes").size(), 3U);
  for (const Json& note : json.at("notes")) {
    EXPECT_TRUE(HasLine(out, "- " + note.get<std::string>()));
  }
}

TEST(WrittenFiles, JsonDefinesEveryColumnOfEveryTable) {
  for (const char* command : {"check", "settle", "sweep"}) {
    const Json json = Json::parse(RunToJson({command, VehiclePath("harbour_van")}));
    size_t tables = 0;
    for (const auto& [name, table] : json.items()) {
      if (!table.is_object()) continue;
      ++tables;
      for (const Json& column : table.at("columns")) {
        EXPECT_NE(column.at("definition"), "") << command << ": " << column.at("name");
        if (column.at("unit") != "mm") continue;
        EXPECT_TRUE(column.at("name").get<std::string>().ends_with("_mm")) << column;
      }
    }
    EXPECT_GE(tables, 1U);
  }
}

TEST(WrittenFiles, StandardOutputIsTheSameWithAndWithoutThem) {
  const Folder folder;
  const std::vector<std::string> plain{"settle", VehiclePath("harbour_van")};
  const Outcome outcome = RunProgram(
      {plain[0], plain[1], "--csv", folder.Path("a.csv"), "--json", folder.Path("a.json")});
  EXPECT_EQ(outcome.out, RunProgram(plain).out);
  EXPECT_EQ(folder.Names(), (std::vector<std::string>{"a.csv", "a.json"}));
}

TEST(WrittenFiles, NamesFromTheFileComeOutSafeInCsvAndWholeInJson) {
  const Folder folder;
  const std::string file = folder.Write("names.yaml", "base: " + VehiclePath("harbour_van") +
                                                          "\nadd:\n"
                                                          "  loads.=1+2: []\n"
                                                          "  'loads.say \"hi\", all': []\n"
                                                          "  marks.Kühlergrill: [0, 0, 800]\n");
  const Sheet sheet = RunToSheet({"settle", file});
  EXPECT_EQ(sheet.rows.at(3).at(0), "'=1+2");
  EXPECT_EQ(sheet.rows.at(4).at(0), "say \"hi\", all");
  EXPECT_TRUE(sheet.Has("height Kühlergrill_mm"));
  const Json rows = Json::parse(RunToJson({"settle", file})).at("stances").at("rows");
  EXPECT_EQ(rows.at(3).at("load"), "=1+2");
}

// A vehicle file and its base are never written over, and after the refusal nothing is printed.
TEST(WrittenFiles, NeverReplaceTheVehicleFileOrItsBase) {
  const Folder folder;
  const std::string base = folder.Write("base.yaml", ReadBytes(VehiclePath("harbour_van")));
  const std::string variant = folder.Write("plan.yaml", "base: base.yaml\n");
  std::filesystem::create_symlink("base.yaml", folder.path() / "link.csv");
  for (const std::string& path :
       {variant, base, folder.Path("link.csv"), folder.Path("./base.yaml")}) {
    for (const char* option : {"--csv", "--json"}) {
      const Outcome outcome = RunProgram({"settle", variant, option, path});
      EXPECT_EQ(outcome.exit, 2);
      EXPECT_EQ(outcome.out, "");
      EXPECT_EQ(outcome.err, "linkwright: cannot write " + path +
                                 ": it is one of the files this result was read from; name "
                                 "another\n");
    }
  }
  EXPECT_EQ(ReadBytes(base), ReadBytes(VehiclePath("harbour_van")));
  EXPECT_EQ(ReadBytes(variant), "base: base.yaml\n");
}

TEST(WrittenFiles, CsvAndJsonDoNotTakeTheSameFile) {
  const Folder folder;
  const std::string path = folder.Path("both");
  const Outcome outcome =
      RunProgram({"settle", VehiclePath("harbour_van"), "--csv", path, "--json", path});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(folder.Names(), std::vector<std::string>{});
}

TEST(WrittenFiles, APlaceThatCannotBeWrittenIsAnError) {
  const Folder folder;
  const Outcome outcome = RunProgram(
      {"settle", VehiclePath("harbour_van"), "--csv", folder.Path("nowhere") + "/rows.csv"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(outcome.err, "linkwright: cannot write " + folder.Path("nowhere") +
                             "/rows.csv: No such file or directory\n");
}

}  // namespace
}  // namespace linkwright::check
