// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/comma_locale.h"

namespace linkwright::check {
namespace {

const std::vector<std::string> kVehicles{"harbour_van", "orchard_tractor_truck", "quarry_pickup",
                                         "fire_patrol", "bare_frame"};

TEST(SweepCommand, StandsUnderTheFirstLoadUnlessAnotherIsAsked) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_TRUE(HasLine(RunProgram({"sweep", van}).out,
                      "the row at 0 is the resting position under the load 'empty'"));
  EXPECT_TRUE(HasLine(RunProgram({"sweep", van, "--load", "deliveries"}).out,
                      "the row at 0 is the resting position under the load 'deliveries'"));
}

TEST(SweepCommand, TravelZeroIsTheStanceOfSettle) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet settled = RunToSheet({"settle", van, "--load", "empty"});
  const Sheet swept = RunToSheet({"sweep", van, "--from", "0", "--to", "0"});
  ASSERT_EQ(swept.rows.size(), 1U);
  // [mm] the sweep takes the chassis level from side to side, settle lets it roll: 0.02 degrees,
  // which moves a wheel 745 mm out by 0.25 mm, one up and one down: second order in their mean.
  constexpr double kRollLeftOut = 1e-3;
  EXPECT_NEAR(swept.Number(0, "front_opening_up_mm"), settled.Number(0, "front_opening_up_mm"),
              kRollLeftOut);
  EXPECT_NEAR(swept.Number(0, "rear_opening_ahead_mm"), settled.Number(0, "rear_opening_ahead_mm"),
              kRollLeftOut);
}

TEST(SweepCommand, OfGeometryAloneSaysWhatIsLeftOut) {
  const Outcome outcome =
      RunProgram({"sweep", VehiclePath("bare_frame"), "--from", "-20", "--to", "20"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(HasLine(outcome.out,
                      "the file gives no masses (ledger, or sprung): the row at 0 is the measured "
                      "stance, and the columns that depend on load are left out"));
}

TEST(SweepCommand, NothingEndsTravelWhereTheFileHasNoEnd) {
  const Outcome outcome = RunProgram({"sweep", VehiclePath("bare_frame"), "--step", "100"});
  EXPECT_TRUE(HasLine(outcome.out, "rear axle, bump: nothing in the file ends these rows"))
      << outcome.out;
}

TEST(SweepCommand, NeverWritesWhatIsNoNumber) {
  for (const std::string& vehicle : kVehicles) {
    const Sheet sheet = RunToSheet({"sweep", VehiclePath(vehicle)});
    ASSERT_FALSE(sheet.rows.empty());
    for (const CsvRecord& row : sheet.rows) {
      for (const std::string& field : row) {
        if (field.empty()) continue;
        EXPECT_TRUE(std::isfinite(ToNumber(field))) << vehicle << ": " << field;
        EXPECT_NE(field, "-0");
      }
    }
  }
}

TEST(SweepCommand, WritesNumbersToNineSignificantDigitsAtLeast) {
  const Sheet sheet = RunToSheet({"sweep", VehiclePath("harbour_van")});
  size_t longest = 0;
  for (const CsvRecord& row : sheet.rows) {
    const std::string& field = row.at(sheet.Find("wheelbase_mm"));
    longest = std::max(longest, field.size() - 1);  // the point
  }
  EXPECT_GE(longest, 9U);
}

TEST(SweepCommand, DoesNotDependOnTheLocale) {
  for (const char* vehicle : {"harbour_van", "orchard_tractor_truck"}) {
    const std::vector<std::string> arguments{
        "sweep", VehiclePath(vehicle), "--from", "-0.5", "--to", "0.5", "--step", "0.25"};
    const Outcome usual = RunProgram(arguments);
    const Sheet usual_sheet = RunToSheet(arguments);
    const CommaLocale comma;
    EXPECT_EQ(RunProgram(arguments).out, usual.out);
    EXPECT_EQ(RunToSheet(arguments).rows, usual_sheet.rows);
  }
}

// DESIGN.md section 4: a limit exceeded under --strict makes the answer "no".
TEST(SweepCommand, ATravelThatIsAskedForAndNotReachedIsANoUnderStrict) {
  const std::vector<std::string> far{"sweep", VehiclePath("harbour_van"), "--from", "0", "--to",
                                     "120"};
  std::vector<std::string> strict = far;
  strict.emplace_back("--strict");
  EXPECT_EQ(RunProgram(far).exit, 0);
  const Outcome outcome = RunProgram(strict);
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.out, "") << "the rows there are, are printed";
  EXPECT_NE(outcome.err.find("under --strict the answer is no"), std::string::npos);
}

TEST(SweepCommand, ATravelThatIsReachedIsNoNoUnderStrict) {
  const Folder folder;
  EXPECT_EQ(
      RunProgram({"sweep", PleasedVehicle(folder), "--from", "-20", "--to", "20", "--strict"}).exit,
      0);
}

}  // namespace
}  // namespace linkwright::check
