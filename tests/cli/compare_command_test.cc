// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

// The row whose first cell is this: a travel or a load.
size_t RowOf(const Sheet& sheet, const std::string& key) {
  for (size_t r = 0; r < sheet.rows.size(); ++r) {
    if (sheet.rows[r][0] == key) return r;
  }
  ADD_FAILURE() << "no row " << key;
  return 0;
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
  const Sheet compared = RunToSheet(Compare());
  std::vector<std::string> sweep{"sweep", first_};
  sweep.insert(sweep.end(), short_.begin(), short_.end());
  const Sheet of_first = RunToSheet(sweep);
  sweep[1] = second_;
  const Sheet of_second = RunToSheet(sweep);
  const size_t row = RowOf(compared, "-20");
  EXPECT_EQ(compared.Number(row, "rear_anti_squat_first_pct"),
            of_first.Number(0, "rear_anti_squat_pct"));
  EXPECT_EQ(compared.Number(row, "rear_anti_squat_second_pct"),
            of_second.Number(0, "rear_anti_squat_pct"));
  const Sheet stances = RunToSheet(Compare({"--table", "stances"}));
  EXPECT_EQ(stances.Number(RowOf(stances, "driver"), "rake_second_deg"),
            RunToSheet({"settle", second_}).Number(1, "rake_deg"));
}

// A chart can be made at once: travel, then first, second and difference of each column.
TEST_F(LowerBrackets, TheDifferenceIsSecondLessFirstInEveryRow) {
  for (const char* table : {"curves", "stances"}) {
    const Sheet sheet = RunToSheet(Compare({"--table", table}));
    ASSERT_GT(sheet.header.size(), 60U);
    EXPECT_EQ(sheet.header[0], table == std::string("curves") ? "travel_mm" : "load");
    EXPECT_EQ(sheet.rows.size(), 3U);
    for (size_t c = 1; c < sheet.header.size(); c += 3) {
      EXPECT_NE(sheet.header[c].find("_first"), std::string::npos);
      EXPECT_NE(sheet.header[c + 1].find("_second"), std::string::npos);
      EXPECT_NE(sheet.header[c + 2].find("_difference"), std::string::npos);
      for (const CsvRecord& record : sheet.rows) {
        const double first = ToNumber(record[c]), second = ToNumber(record[c + 1]);
        // Each of the three is rounded to twelve digits.
        const double rounding = 1e-11 * (std::abs(first) + std::abs(second));
        EXPECT_NEAR(ToNumber(record[c + 2]), second - first, rounding) << sheet.header[c];
      }
    }
  }
}

// Each has rows at the other's ends too, so that no curve has a hole where both reach.
TEST(CompareCommand, HasAWholeCurveOfEachFile) {
  const Sheet sheet =
      RunToSheet({"compare", VehiclePath("harbour_van"), VehiclePath("harbour_van_old_springs")});
  size_t first = 0, second = 0, both = 0;
  for (const CsvRecord& record : sheet.rows) {
    const bool a = !record[sheet.Find("rear_pinion_angle_first_deg")].empty();
    const bool b = !record[sheet.Find("rear_pinion_angle_second_deg")].empty();
    first += a ? 1U : 0U, second += b ? 1U : 0U, both += a && b ? 1U : 0U;
  }
  EXPECT_GT(both, 8U);
  EXPECT_LE(std::max(first, second) - both, 8U) << "beyond the other's end alone";
}

TEST_F(LowerBrackets, TheAnswerNamesBothFilesAndThenWhatDiffers) {
  const Outcome outcome = RunProgram(Compare());
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  const std::vector<std::string> lines = Lines(outcome.out);
  ASSERT_GT(lines.size(), 6U);
  EXPECT_EQ(lines[0], "first:  Harbour delivery van");
  EXPECT_EQ(lines[1], "        " + first_);
  EXPECT_EQ(lines[2], "second: Lower brackets");
  EXPECT_EQ(lines[3], "        " + second_);
  EXPECT_EQ(lines[4], "change: second less first");
  EXPECT_TRUE(lines[6].starts_with(
      "One part or place differs: rear upper arm left and right, frame end, 25 mm down."))
      << lines[6];
  for (const char* title : {"parts and places", "change at rest", "change of curves"}) {
    EXPECT_TRUE(HasLine(outcome.out, title)) << title << outcome.out;
  }
  EXPECT_NE(outcome.out.find("rear anti-squat"), std::string::npos);
}

// Greatest first by what is read of each: in the table of curves no row may lead a lesser one.
TEST_F(LowerBrackets, WhatATapeDoesNotShowIsNotSaid) {
  const std::string out = RunProgram(Compare()).out;
  const size_t curves = out.find("change of curves\n");
  ASSERT_NE(curves, std::string::npos);
  EXPECT_EQ(out.find("front caster", curves), std::string::npos) << "the front axle is as it was";
  EXPECT_LT(out.find("rear anti-squat", curves), out.find("wheelbase", curves));
}

TEST_F(LowerBrackets, ColumnsToShowAreNamedWithOrWithoutTheirUnit) {
  for (const char* name : {"rear_wheel_rate", "rear_wheel_rate_n_per_mm", "Rear wheel-rate",
                           "rear_wheel_rate_lbf_per_in"}) {
    const Outcome outcome = RunProgram(Compare({"--column", name}));
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_TRUE(HasLine(outcome.out, "rear_wheel_rate_n_per_mm"));
    EXPECT_FALSE(HasLine(outcome.out, "change of curves"));
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

TEST(CompareCommand, AFileAgainstItselfIsOneSentence) {
  const std::string van = VehiclePath("harbour_van");
  const std::vector<std::string> same{"compare", van, van, "--from", "-20", "--to", "20"};
  const std::vector<std::string> lines = Lines(RunProgram(same).out);
  EXPECT_EQ(lines[6], "The two files say the same: no part, no place and no answer differs.");
  EXPECT_EQ(lines[7], "");
  EXPECT_TRUE(lines[8].starts_with("With --full also")) << lines[8];
  const Sheet sheet = RunToSheet(same);
  for (const CsvRecord& record : sheet.rows) {
    for (size_t c = 3; c < record.size(); c += 3) {
      if (record[c - 1].empty()) continue;
      EXPECT_EQ(record[c], "0") << sheet.header[c];
    }
  }
}

TEST(CompareCommand, SlopesThatDifferStandAmongThePartsAndPlaces) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const std::string file = folder.Write("slopes.yaml", "base: " + van +
                                                           "\nchange:\n"
                                                           "  axles.front.kingpin.caster: 7\n"
                                                           "  axles.rear.pinion.angle: 2.5\n");
  const std::string out = RunProgram({"compare", van, file}).out;
  for (const char* line : {"front kingpin, caster  6.0 deg, then 7.0 deg\n",
                           "rear pinion, slope  3.0 deg, then 2.5 deg\n"}) {
    EXPECT_NE(out.find(line), std::string::npos) << out.substr(0, 600);
  }
}

TEST(CompareCommand, GeometryAloneIsComparedInItsCurves) {
  const std::vector<std::string> words{
      "compare", VehiclePath("bare_frame"), VehiclePath("harbour_van"), "--from", "-20", "--to",
      "20"};
  const Outcome outcome = RunProgram(words);
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(HasLine(outcome.out, "change of curves"));
  EXPECT_FALSE(HasLine(outcome.out, "change at rest"));
  const Sheet sheet = RunToSheet(words);
  EXPECT_TRUE(sheet.Has("wheelbase_difference_mm"));
  EXPECT_FALSE(sheet.Has("rear_anti_squat_first_pct"));
}

TEST(CompareCommand, FilesInDifferentUnitsAreComparedInThoseOfTheFirst) {
  const std::string van = VehiclePath("harbour_van");
  const std::string truck = VehiclePath("orchard_tractor_truck");
  const Sheet sheet = RunToSheet({"compare", van, truck, "--step", "20 mm", "--table", "stances"});
  const Sheet settled = RunToSheet({"settle", truck, "--units", "metric"});
  EXPECT_EQ(sheet.Number(RowOf(sheet, "empty"), "total_mass_second_kg"),
            settled.Number(0, "total_mass_kg"));
}

// What an aim speaks of is better or worse; orchard's spacers lower a wheel in its opening.
TEST(CompareCommand, AnAimSaysWhichIsBetter) {
  const std::string truck = VehiclePath("orchard_tractor_truck");
  const std::string spacer = VehiclePath("orchard_tractor_truck_spacer");
  const std::string worse = RunProgram({"compare", truck, spacer}).out;
  EXPECT_NE(worse.find("worse"), std::string::npos) << worse;
  EXPECT_EQ(worse.find("better"), std::string::npos) << worse;
  const std::string better = RunProgram({"compare", spacer, truck}).out;
  EXPECT_NE(better.find("better"), std::string::npos) << better;
  EXPECT_EQ(better.find("worse"), std::string::npos) << better;
}

// A plain --from or --to means one travel, for both files: in the unit of the first.
TEST(CompareCommand, TravelsMeanTheSameInBothFiles) {
  const Sheet sheet =
      RunToSheet({"compare", VehiclePath("orchard_tractor_truck"), VehiclePath("harbour_van"),
                  "--from", "-2", "--to", "1", "--step", "1"});
  EXPECT_EQ(sheet.Numbers("travel_in"), (std::vector<double>{-2, -1, 0, 1}));
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
  EXPECT_EQ(outcome.out.find("under 'driver'"), std::string::npos);
  const Folder written;
  const std::string csv = written.Path("stances.csv");
  EXPECT_EQ(RunProgram({"compare", van, file, "--table", "stances", "--csv", csv}).exit, 1);
  EXPECT_EQ(ReadSheet(ReadBytes(csv)).rows.size(), 2U) << "the other loads are still compared";
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
