// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

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

CsvRecord LoadsOf(const Sheet& sheet) {
  CsvRecord loads;
  for (const CsvRecord& row : sheet.rows) loads.push_back(row.at(0));
  return loads;
}

int CountLinesWith(const std::string& text, const std::string& wanted) {
  int count = 0;
  for (const std::string& line : Lines(text))
    count += line.find(wanted) != std::string::npos ? 1 : 0;
  return count;
}

TEST(SettleCommand, HasARowALoadInTheOrderOfTheFile) {
  EXPECT_EQ(LoadsOf(RunToSheet({"settle", VehiclePath("harbour_van")})),
            (CsvRecord{"empty", "driver", "deliveries"}));
}

TEST(SettleCommand, SettlesTheAskedLoadAlone) {
  const Sheet all = RunToSheet({"settle", VehiclePath("harbour_van")});
  const Sheet one = RunToSheet({"settle", VehiclePath("harbour_van"), "--load", "driver"});
  ASSERT_EQ(one.rows.size(), 1U);
  EXPECT_EQ(one.rows[0], all.rows[1]);
}

TEST(SettleCommand, AFileWithoutLoadsStandsEmpty) {
  const Folder folder;
  const std::string file =
      folder.Write("bare.yaml", "base: " + VehiclePath("harbour_van") + "\nremove: [loads]\n");
  EXPECT_EQ(LoadsOf(RunToSheet({"settle", file})), CsvRecord{"empty"});
}

TEST(SettleCommand, WheelLoadsCarryTheVehicle) {
  const Sheet sheet = RunToSheet({"settle", VehiclePath("harbour_van")});
  for (size_t row = 0; row < sheet.rows.size(); ++row) {
    double sum = 0.0;
    for (const char* wheel : {"front_left", "front_right", "rear_left", "rear_right"}) {
      sum += sheet.Number(row, std::string("wheel_load_") + wheel + "_n");
    }
    const double weight = sheet.Number(row, "total_mass_kg") * 9.80665;
    // [N] the balance is solved to far less; twelve digits are written.
    EXPECT_NEAR(sum, weight, 1e-5);
  }
}

// The answer stands before the table: heights, lean, openings, what touches, the worst load.
TEST(SettleCommand, AnswersWhereItStandsUnderEachLoad) {
  EXPECT_THAT(
      AnswerOf({"settle", VehiclePath("harbour_van")}),
      testing::ElementsAre(
          "Under 'empty' the body stands 8 mm up in front and 20 mm down at the rear against where "
          "it was measured; rake 0.6 deg nose up, no lean.",
          "Under 'driver' it stands 1 mm down in front and 27 mm down at the rear; rake 0.6 deg "
          "nose up, leaning 0.6 deg, left side down.",
          "Under 'deliveries' it stands 12 mm down in front and 58 mm down at the rear; rake 1.1 "
          "deg nose up, leaning 0.3 deg, left side down.",
          "Against the centres of their openings the front wheels stand 9 mm back and 11 mm down, "
          "the rear ones 6 mm ahead and 9 mm up under 'empty'.",
          "Farthest off are the rear wheels under 'deliveries': 4 mm ahead and 40 mm up.",
          "Under 'deliveries' rear cone left touches, squeezed 16 mm, rear cone right touches, "
          "squeezed 12 mm; under the others nothing touches or lets go.",
          "It stands lowest at the rear under 'deliveries', 58 mm down; the most on one wheel is "
          "585 kg, rear left, under it too."));
}

// Rake and lean say which way in words, wheel loads are those of a scale; the CSV keeps its forces.
TEST(SettleCommand, ReadsAsAScaleAndATapeShowIt) {
  const std::string out = RunProgram({"settle", VehiclePath("orchard_tractor_truck")}).out;
  const auto line = [&](const std::string& begins) -> CsvRecord {
    for (const std::string& each : Lines(out)) {
      if (each.starts_with("  " + begins)) return SplitWords(each);
    }
    ADD_FAILURE() << begins << out;
    return {};
  };
  EXPECT_THAT(line("wheel load, rear left"),
              testing::ElementsAre("wheel", "load,", "rear", "left", "lb", "987", "1050", "1242"));
  EXPECT_THAT(line("rake"), testing::ElementsAre("rake", "deg", "0.7", "nose", "up", "0.7", "nose",
                                                 "up", "1.2", "nose", "up"));
  const Sheet sheet = RunToSheet({"settle", VehiclePath("orchard_tractor_truck")});
  EXPECT_NEAR(sheet.Number(0, "wheel_load_rear_left_lbf"), 987.0, 0.5);
}

TEST(SettleCommand, SaysUnderEachLoadWhatTouches) {
  const Outcome outcome = RunProgram({"settle", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  const std::vector<std::string> notes = NotesOf({"settle", VehiclePath("harbour_van")});
  EXPECT_THAT(notes, testing::Contains(
                         "empty: no stop touches, every coil is seated, every wheel is down"));
  EXPECT_THAT(notes, testing::Contains(
                         "deliveries: rear cone left touches: squeezed 16 mm, pushing 846 N; rear "
                         "cone right touches: squeezed 12 mm, pushing 550 N"));
}

// One row an arm and load, in the JSON and where the table is asked for; the CSV is the stances
// alone.
TEST(SettleCommand, ShowsEveryArmAtRest) {
  const auto json = nlohmann::json::parse(RunToJson({"settle", VehiclePath("harbour_van")}));
  const auto& rows = json["arms"]["rows"];
  ASSERT_EQ(rows.size(), 3U * 10U);
  EXPECT_EQ(rows[0]["arm"], "front lower arm left");
  EXPECT_EQ(rows[0]["load"], "empty");
  EXPECT_EQ(rows[29]["arm"], "rear track bar");
  EXPECT_EQ(rows[29]["load"], "deliveries");
  for (const auto& row : rows) {
    EXPECT_EQ(row["longer_mm"], 0.0);
    EXPECT_TRUE(row["turns"].is_null());
    EXPECT_TRUE(row["strain_force_n"].is_number());
  }
  // Its eyes 595 mm apart along and 95 mm in height, less what the left hub has come up (17.8 mm);
  // the housing's pitch moves the eye by tenths of a millimetre.
  EXPECT_EQ(rows[5]["arm"], "rear lower arm left");
  EXPECT_NEAR(rows[5]["side_slope_deg"].get<double>(),
              std::atan2(95.0 - 17.8, 595.0) * 180.0 / M_PI, 0.1);
  const auto four = nlohmann::json::parse(RunToJson({"settle", VehiclePath("depot_truck")}));
  for (const auto& row : four["arms"]["rows"]) {
    if (row["arm"].get<std::string>().starts_with("rear")) {
      EXPECT_TRUE(row["strain_force_lbf"].is_null());
    }
  }
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(CountLinesWith(RunProgram({"settle", van}).out, "rear track bar"), 0);
  const std::string all = RunProgram({"settle", van, "--table", "arms"}).out;
  EXPECT_EQ(CountLinesWith(all, "rear track bar"), 3) << all;
  const std::string one = RunProgram({"settle", van, "--load", "driver", "--table", "arms"}).out;
  EXPECT_EQ(CountLinesWith(one, "rear track bar"), 1) << one;
  EXPECT_EQ(RunToSheet({"settle", VehiclePath("harbour_van")}).rows.size(), 3U);
}

TEST(SettleCommand, SaysWhatItAssumes) {
  const std::string inertia =
      "assumed: no pitch inertia is given, so bounce and pitch take a dynamic index of 1";
  const std::string tyres =
      "assumed: the rear tyres have no rate and are taken as rigid at their measured loaded height";
  const auto van = NotesOf({"settle", VehiclePath("harbour_van")});
  const auto pickup = NotesOf({"settle", VehiclePath("quarry_pickup")});
  EXPECT_THAT(van, testing::Contains(inertia));
  EXPECT_THAT(van, testing::Not(testing::Contains(tyres)));
  EXPECT_THAT(pickup, testing::Not(testing::Contains(inertia))) << "it gives a pitch inertia";
  EXPECT_THAT(pickup, testing::Contains(tyres));
}

// Half of a wagon's roll stiffness may be bushings that nobody measured: said wherever it counts,
// once for a pair, and of the rates that are left out alone.
TEST(SettleCommand, SaysWhichRatesOfARadiusArmsBushingsItAssumes) {
  const Folder folder;
  const std::string one = folder.Path("one.yaml"), both = folder.Path("both.yaml");
  const std::string wagon = "base: " + VehiclePath("moorland_wagon") + "\nremove:\n";
  const std::string arm = "  - axles.front.radius_arms.radius arm.";
  std::ofstream(one) << wagon << arm << "axle_rate\n";
  std::ofstream(both) << wagon << arm << "axle_rate\n" << arm << "frame_rate\n";
  const std::string begins =
      "assumed: the front axle's radius arm has no rate of its bushings in "
      "the file and takes ";
  const auto told = [](const std::vector<std::string>& arguments) {
    std::string text;
    for (const std::string& note : NotesOf(arguments)) text += note + "\n";
    return text;
  };
  for (const char* command : {"check", "settle", "roll", "ride"}) {
    const std::string given = told({command, VehiclePath("moorland_wagon")});
    EXPECT_EQ(given.find("has no rate of its bushings"), std::string::npos) << command;
    const std::string first = told({command, one, "--units", "metric"});
    const size_t at = first.find(begins + "axle_rate of 10000.00 N/mm; ");
    EXPECT_NE(at, std::string::npos) << command << first;
    EXPECT_EQ(first.find(begins, at + 1), std::string::npos) << "a pair is said once";
    const std::string second = told({command, both, "--units", "metric"});
    EXPECT_NE(second.find(begins + "frame_rate of 10000.00 N/mm and axle_rate of 10000.00 N/mm; "),
              std::string::npos)
        << command << second;
  }
}

TEST(SettleCommand, RemindsThatItIsAPredictionOfGeometry) {
  const std::string out = RunProgram({"settle", VehiclePath("harbour_van")}).out;
  EXPECT_NE(out.find("A prediction of geometry, not an approval"), std::string::npos);
}

TEST(SettleCommand, RefusesAFileOfGeometryAloneAtAPlace) {
  const std::string file = VehiclePath("bare_frame");
  const Outcome outcome = RunProgram({"settle", file});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_TRUE(outcome.err.starts_with(file + ":")) << outcome.err;
  EXPECT_NE(
      outcome.err.find("the file gives no masses, so there is nothing to settle: give a ledger, "
                       "or sprung: {mass, at}, and unsprung at both axles\n"),
      std::string::npos)
      << outcome.err;
}

// A van with two loads that rest and between them one that no stop can carry.
class Overloaded : public ::testing::Test {
 protected:
  Folder folder_;
  std::string file_ = folder_.Write(
      "overloaded.yaml",
      "title: Overloaded van\n"
      "base: " +
          VehiclePath("harbour_van") +
          "\n"
          "remove: [loads.driver, loads.deliveries]\n"
          "add:\n"
          "  loads.bricks: [{item: bricks, mass: 4000, at: [-2150, 0, 840]}]\n"
          "  loads.driver alone: [{item: driver, mass: 82, at: [-1180, 400, 930]}]\n");
};

TEST_F(Overloaded, TheLoadThatFindsNoRestIsNamedAtItsPlaceAndTheAnswerIsNo) {
  const Outcome outcome = RunProgram({"settle", file_});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.err,
            file_ +
                ":5:3: loads.bricks: no resting position: before it rests, rear cone right "
                "is solid\n"
                "    5 |   loads.bricks: [{item: bricks, mass: 4000, at: [-2150, 0, 840]}]\n"
                "      |   ^\n");
}

TEST_F(Overloaded, TheOtherLoadsAreStillPrintedAndWritten) {
  const std::string csv = folder_.Path("rows.csv");
  const Outcome outcome = RunProgram({"settle", file_, "--csv", csv});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(LoadsOf(ReadSheet(ReadBytes(csv))), (CsvRecord{"empty", "driver alone"}));
  EXPECT_NE(outcome.out.find("Under 'bricks' it comes to no rest."), std::string::npos);
  std::vector<CsvRecord> lines;
  for (const std::string& line : Lines(outcome.out)) lines.push_back(SplitWords(line));
  EXPECT_THAT(lines, testing::Contains(CsvRecord{"load", "empty", "driver", "alone"}));
}

TEST_F(Overloaded, ASweepUnderThatLoadHasTheSameAnswer) {
  const Outcome outcome = RunProgram({"sweep", file_, "--load", "bricks"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.out, "");
  EXPECT_TRUE(outcome.err.starts_with(file_ + ":5:3: loads.bricks: no resting position: "))
      << outcome.err;
}

}  // namespace
}  // namespace linkwright::check
