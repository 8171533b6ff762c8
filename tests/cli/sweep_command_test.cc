// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/comma_locale.h"

namespace linkwright::check {
namespace {

// What is told beside the answer: all of it.
std::vector<std::string> NotesOf(const std::vector<std::string>& arguments) {
  return nlohmann::json::parse(RunToJson(arguments)).at("notes").get<std::vector<std::string>>();
}

// The sentences of the answer.
std::vector<std::string> AnswerOf(const std::vector<std::string>& arguments) {
  return nlohmann::json::parse(RunToJson(arguments)).at("answer").get<std::vector<std::string>>();
}

const std::vector<std::string> kVehicles{"harbour_van", "orchard_tractor_truck", "quarry_pickup",
                                         "fire_patrol", "bare_frame"};

TEST(SweepCommand, StandsUnderTheFirstLoadUnlessAnotherIsAsked) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_TRUE(HasLine(RunProgram({"sweep", van}).out, "load: empty"));
  EXPECT_THAT(
      NotesOf({"sweep", van, "--load", "deliveries"}),
      testing::Contains("the row at 0 is the resting position under the load 'deliveries'"));
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
  EXPECT_THAT(AnswerOf({"sweep", VehiclePath("bare_frame"), "--from", "-20", "--to", "20"}),
              testing::Contains("The file gives no masses, so rest is the measured stance; "
                                "anti-squat, rates and frequencies are left out."));
}

TEST(SweepCommand, NothingEndsTravelWhereTheFileHasNoEnd) {
  EXPECT_THAT(NotesOf({"sweep", VehiclePath("bare_frame"), "--step", "100"}),
              testing::Contains("rear axle, bump: nothing in the file ends these rows"));
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

// How far each axle goes and what ends it, as limits says it too: a tyre before the damper.
TEST(SweepCommand, AnswersHowFarEachAxleGoesAndWhatTurnsOnTheWay) {
  EXPECT_THAT(
      AnswerOf({"sweep", VehiclePath("harbour_van")}),
      testing::IsSupersetOf(
          {testing::StartsWith(
               "From rest the front axle has 62 mm of bump, until tyre left touches "
               "its opening (the rows go on to 78 mm, where cone right is solid), "
               "and 80 mm of droop, until damper left is fully open."),
           testing::StartsWith("From full droop through rest to full bump the front caster is 4.7, "
                               "6.4 and "),
           testing::StartsWith(
               "From full droop through rest to full bump the rear pinion stands 5.6, "
               "3.2 and ")}));
}

// Where the housing stops turning one way and begins to turn the other: between two rows of the CSV
// its instant centre goes from one side to the other.
TEST(SweepCommand, SaysWhereAnInstantCentrePassesThroughInfinity) {
  const std::string file = VehiclePath("harbour_van_lower_rear_arm");
  const Sheet sheet = RunToSheet({"sweep", file});
  std::string between;
  for (size_t r = 1; r < sheet.rows.size() && between.empty(); ++r) {
    const size_t c = sheet.Find("rear_instant_center_ahead_mm");
    const std::string &before = sheet.rows[r - 1][c], &after = sheet.rows[r][c];
    if (before.empty() || after.empty()) continue;
    if ((ToNumber(before) > 0.0) == (ToNumber(after) > 0.0)) continue;
    const auto amount = [&](size_t row) {
      return std::to_string(std::lround(-sheet.Number(row, "travel_mm"))) + " mm";
    };
    between = amount(r) + " and " + amount(r - 1) + " of droop";
  }
  EXPECT_THAT(AnswerOf({"sweep", file}),
              testing::Contains("A side-view instant centre passes through infinity, the rear "
                                "axle's between " +
                                between + ": there the housing begins to turn the other way."));
}

// Rest and both ends are always among the rows that are printed; the CSV has every one.
TEST(SweepCommand, PrintsFewRowsAndWritesThemAll) {
  const std::string out =
      RunProgram({"sweep", VehiclePath("harbour_van"), "--table", "front axle"}).out;
  std::vector<std::string> travels;
  for (const std::string& line : Lines(out)) {
    const CsvRecord words = SplitWords(line);
    if (words.size() > 4 && words[0].find_first_of("0123456789") != std::string::npos) {
      travels.push_back(words[0]);
    }
  }
  EXPECT_THAT(travels, testing::ElementsAre("-80.1", "-60.0", "-40.0", "-20.0", "0.0", "20.0",
                                            "40.0", "60.0", "77.6"));
  EXPECT_GT(RunToSheet({"sweep", VehiclePath("harbour_van")}).rows.size(), 18U);
}

TEST(SweepCommand, PrintsTheColumnsThatAreNamedHoweverTheyAreRemembered) {
  const std::string van = VehiclePath("harbour_van");
  const auto printed = [&](const std::string& column) {
    return RunProgram({"sweep", van, "--column", column, "--step", "40"});
  };
  const std::string whole = printed("front_caster_deg").out;
  EXPECT_NE(whole.find("front"), std::string::npos) << whole;
  EXPECT_EQ(printed("caster").out, whole);
  EXPECT_EQ(printed("Front Caster").out, whole);
  const std::string both = printed("roll-centre height").out;
  EXPECT_NE(both.find("front roll"), std::string::npos) << both;
  EXPECT_NE(both.find("rear roll"), std::string::npos) << both;
  EXPECT_THAT(printed("anti_sqat").err, testing::HasSubstr("did you mean 'rear_anti_squat'?"));
  EXPECT_THAT(printed("squat").err, testing::HasSubstr("did you mean 'rear_anti_squat'?"));
  EXPECT_EQ(printed("squat").exit, 2);
}

TEST(SweepCommand, SweepsUnderEveryLoadWithTheLoadAsAColumn) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet all = RunToSheet({"sweep", van, "--load", "all"});
  EXPECT_EQ(all.header[0], "travel_mm");
  EXPECT_EQ(all.header[1], "load");
  size_t next = 0;
  for (const std::string load : {"empty", "driver", "deliveries"}) {
    for (const CsvRecord& row : RunToSheet({"sweep", van, "--load", load}).rows) {
      CsvRecord expected = row;
      expected.insert(expected.begin() + 1, load);
      ASSERT_LT(next, all.rows.size());
      EXPECT_EQ(all.rows[next++], expected);
    }
  }
  EXPECT_EQ(next, all.rows.size());
  EXPECT_EQ(AnswerOf({"sweep", van, "--load", "all"}).size(), 3U);
}

// The links of the bare frame line up before anything else ends its droop.
TEST(SweepCommand, SaysWhereLinksLineUp) {
  EXPECT_THAT(AnswerOf({"sweep", VehiclePath("bare_frame"), "--from", "-600", "--step", "50"}),
              testing::Contains(testing::StartsWith("Links line up, the ")));
}

}  // namespace
}  // namespace linkwright::check
