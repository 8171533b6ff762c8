// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <tuple>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Key = std::tuple<std::string, std::string, std::string>;  // part, row, quantity

// The records of a comparison's CSV by part, row and quantity.
std::map<Key, CsvRecord> ByKey(const Sheet& sheet) {
  std::map<Key, CsvRecord> records;
  for (const CsvRecord& record : sheet.rows) records[{record[0], record[1], record[2]}] = record;
  return records;
}

// The van, and the same with its rear upper arms' frame brackets 25 mm lower.
class LowerBrackets : public ::testing::Test {
 protected:
  Folder folder_;
  std::string first_ = VehiclePath("harbour_van");
  std::string second_ =
      folder_.Write("plan.yaml",
                    "title: Lower brackets\n"
                    "base: " +
                        first_ +
                        "\nchange:\n"
                        "  axles.rear.links.upper arm.frame: [-2040, 345, 520]\n");
  std::vector<std::string> short_{"--from", "-20", "--to", "20", "--step", "20"};

  std::vector<std::string> Compare(const std::vector<std::string>& more = {}) const {
    std::vector<std::string> arguments{"compare", first_, second_};
    arguments.insert(arguments.end(), short_.begin(), short_.end());
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
  }
};

TEST_F(LowerBrackets, TheComparisonHoldsWhatEachCommandSaysOfEach) {
  const auto records = ByKey(RunToSheet(Compare()));
  std::vector<std::string> sweep{"sweep", first_};
  sweep.insert(sweep.end(), short_.begin(), short_.end());
  const Sheet of_first = RunToSheet(sweep);
  sweep[1] = second_;
  const Sheet of_second = RunToSheet(sweep);
  const CsvRecord& record = records.at({"sweep", "-20", "rear_anti_squat"});
  EXPECT_EQ(record[3], "%");
  EXPECT_EQ(ToNumber(record[4]), of_first.Number(0, "rear_anti_squat_pct"));
  EXPECT_EQ(ToNumber(record[5]), of_second.Number(0, "rear_anti_squat_pct"));
  const Sheet settled = RunToSheet({"settle", second_});
  EXPECT_EQ(ToNumber(records.at({"settle", "driver", "rake"})[5]), settled.Number(1, "rake_deg"));
}

TEST_F(LowerBrackets, TheDifferenceIsSecondLessFirstInEveryLine) {
  const Sheet sheet = RunToSheet(Compare());
  EXPECT_EQ(sheet.header,
            (CsvRecord{"part", "row", "quantity", "unit", "first", "second", "difference"}));
  ASSERT_GT(sheet.rows.size(), 100U);
  for (const CsvRecord& record : sheet.rows) {
    const double first = ToNumber(record[4]), second = ToNumber(record[5]);
    // Each of the three is rounded to twelve digits.
    const double rounding = 1e-11 * (std::abs(first) + std::abs(second));
    EXPECT_NEAR(ToNumber(record[6]), second - first, rounding) << record[2];
  }
}

TEST_F(LowerBrackets, TheTextNamesBothFilesAndShowsStancesAndCurves) {
  const Outcome outcome = RunProgram(Compare());
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  const std::vector<std::string> lines = Lines(outcome.out);
  ASSERT_GT(lines.size(), 5U);
  EXPECT_EQ(lines[0], "first:  Harbour delivery van");
  EXPECT_EQ(lines[1], "        " + first_);
  EXPECT_EQ(lines[2], "second: Lower brackets");
  EXPECT_EQ(lines[3], "        " + second_);
  EXPECT_EQ(lines[4], "change: second less first");
  for (const char* line : {"STANCES", "CURVES in bounce"}) {
    EXPECT_TRUE(HasLine(outcome.out, line)) << line;
  }
  EXPECT_NE(outcome.out.find("load: driver"), std::string::npos);
  EXPECT_NE(outcome.out.find("Rear axle: side and front view: anti-squat (rear_anti_squat_pct)\n"),
            std::string::npos);
}

TEST_F(LowerBrackets, ColumnsToShowAreNamedWithOrWithoutTheirUnit) {
  for (const char* name : {"rear_wheel_rate", "rear_wheel_rate_n_per_mm"}) {
    const Outcome outcome = RunProgram(Compare({"--column", name}));
    EXPECT_EQ(outcome.exit, 0);
    const size_t curves = outcome.out.find("CURVES");
    ASSERT_NE(curves, std::string::npos);
    EXPECT_NE(outcome.out.find("wheel rate (rear_wheel_rate_n_per_mm)\n", curves),
              std::string::npos);
    EXPECT_EQ(outcome.out.find("(rear_anti_squat_pct)", curves), std::string::npos);
  }
}

// On copies: a failure must not cost the fixture.
TEST(CompareCommand, NeverWritesOverEitherFileNorABase) {
  const Folder folder;
  const std::string van = ReadBytes(VehiclePath("harbour_van"));
  const std::string first = folder.Write("first.yaml", van);
  const std::string base = folder.Write("base.yaml", van);
  const std::string second = folder.Write("second.yaml", "base: base.yaml\n");
  for (const std::string& path : {first, second, base}) {
    EXPECT_EQ(RunProgram({"compare", first, second, "--csv", path}).exit, 2) << path;
  }
  EXPECT_EQ(ReadBytes(first), van);
  EXPECT_EQ(ReadBytes(base), van);
  EXPECT_EQ(ReadBytes(second), "base: base.yaml\n");
}

TEST(CompareCommand, AFileAgainstItselfDiffersInNothing) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet sheet = RunToSheet({"compare", van, van, "--from", "-20", "--to", "20"});
  for (const CsvRecord& record : sheet.rows) EXPECT_EQ(record[6], "0") << record[2];
}

TEST(CompareCommand, SlopesThatDifferStandAmongThePartsAndPlaces) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const std::string file = folder.Write("slopes.yaml", "base: " + van +
                                                           "\nchange:\n"
                                                           "  axles.front.kingpin.caster: 7\n"
                                                           "  axles.rear.pinion.angle: 2.5\n");
  const std::string out = RunProgram({"compare", van, file}).out;
  for (const char* line : {"front kingpin, caster  6.00 deg  7.00 deg   1.00 deg",
                           "rear pinion, slope  3.00 deg  2.50 deg  -0.50 deg"}) {
    EXPECT_NE(out.find(line), std::string::npos) << out.substr(0, 600);
  }
}

TEST(CompareCommand, GeometryAloneIsComparedInItsCurves) {
  const Outcome outcome = RunProgram({"compare", VehiclePath("bare_frame"),
                                      VehiclePath("harbour_van"), "--from", "-20", "--to", "20"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(HasLine(outcome.out, "Whole vehicle: wheelbase (wheelbase_mm)"));
  EXPECT_FALSE(HasLine(outcome.out, "rear_anti_squat_pct"));
}

TEST(CompareCommand, FilesInDifferentUnitsAreComparedInThoseOfTheFirst) {
  const std::string van = VehiclePath("harbour_van");
  const std::string truck = VehiclePath("orchard_tractor_truck");
  const auto records = ByKey(RunToSheet({"compare", van, truck, "--step", "20 mm"}));
  const Sheet settled = RunToSheet({"settle", truck, "--units", "metric"});
  const CsvRecord& record = records.at({"settle", "empty", "total_mass"});
  EXPECT_EQ(record[3], "kg");
  EXPECT_EQ(ToNumber(record[5]), settled.Number(0, "total_mass_kg"));
}

// A plain --from or --to means one travel, for both files: in the unit of the first.
TEST(CompareCommand, TravelsMeanTheSameInBothFiles) {
  const Sheet sheet =
      RunToSheet({"compare", VehiclePath("orchard_tractor_truck"), VehiclePath("harbour_van"),
                  "--from", "-2", "--to", "1", "--step", "1"});
  std::string rows;
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == "sweep" && record[2] == "wheelbase") rows += record[1] + " ";
  }
  EXPECT_EQ(rows, "-2 -1 0 1 ");
}

TEST(CompareCommand, ALoadWithoutRestInOneIsNamedAndTheAnswerIsNo) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const std::string file = folder.Write("bricks.yaml", "base: " + van +
                                                           "\nchange:\n"
                                                           "  loads.driver[1].mass: 4000\n");
  const Outcome outcome = RunProgram({"compare", van, file});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.err.find(": loads.driver: no resting position: "), std::string::npos)
      << outcome.err;
  EXPECT_NE(outcome.out.find("load: empty"), std::string::npos)
      << "the other loads are still compared";
}

TEST(CompareCommand, WhatIsPointedAtInEitherFileIsNoUnderStrict) {
  const Folder folder;
  const std::string pleased = PleasedVehicle(folder);
  const auto exit = [](const std::string& first, const std::string& second) {
    return RunProgram({"compare", first, second, "--from", "-20", "--to", "20", "--strict"}).exit;
  };
  EXPECT_EQ(exit(pleased, pleased), 0);
  EXPECT_EQ(exit(pleased, VehiclePath("harbour_van")), 1);
  EXPECT_EQ(exit(VehiclePath("harbour_van"), pleased), 1);
}

}  // namespace
}  // namespace linkwright::check
