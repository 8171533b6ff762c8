// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

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

TEST(SettleCommand, SaysUnderEachLoadWhatTouches) {
  const Outcome outcome = RunProgram({"settle", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(
      HasLine(outcome.out, "empty: no stop touches, every coil is seated, every wheel is down"));
  EXPECT_TRUE(HasLine(outcome.out,
                      "deliveries: rear cone left touches: squeezed 16.3 mm, pushing 846 N; rear "
                      "cone right touches: squeezed 11.8 mm, pushing 550 N"))
      << outcome.out;
}

// One row an arm and load, in the JSON and printed for the load that it stands under; the CSV is
// the stances alone.
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
  const std::string out = RunProgram({"settle", VehiclePath("harbour_van")}).out;
  EXPECT_EQ(CountLinesWith(out, "rear track bar"), 1) << out;
  EXPECT_EQ(RunToSheet({"settle", VehiclePath("harbour_van")}).rows.size(), 3U);
}

TEST(SettleCommand, SaysWhatItAssumes) {
  const std::string inertia =
      "assumed: no pitch inertia is given, so bounce and pitch take a dynamic index of 1";
  const std::string tyres =
      "assumed: the rear tyres have no rate and are taken as rigid at their measured loaded height";
  const std::string van = RunProgram({"settle", VehiclePath("harbour_van")}).out;
  const std::string pickup = RunProgram({"settle", VehiclePath("quarry_pickup")}).out;
  EXPECT_TRUE(HasLine(van, inertia));
  EXPECT_FALSE(HasLine(van, tyres));
  EXPECT_FALSE(HasLine(pickup, inertia)) << "it gives a pitch inertia";
  EXPECT_TRUE(HasLine(pickup, tyres));
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
  for (const char* command : {"check", "settle", "roll", "ride"}) {
    const std::string given = RunProgram({command, VehiclePath("moorland_wagon")}).out;
    EXPECT_EQ(given.find("has no rate of its bushings"), std::string::npos) << command;
    const std::string first = RunProgram({command, one, "--units", "metric"}).out;
    const size_t at = first.find(begins + "axle_rate of 10000.00 N/mm; ");
    EXPECT_NE(at, std::string::npos) << command << first;
    EXPECT_EQ(first.find(begins, at + 1), std::string::npos) << "a pair is said once";
    const std::string second = RunProgram({command, both, "--units", "metric"}).out;
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
  const std::vector<std::string> lines = Lines(outcome.out);
  ASSERT_GT(lines.size(), 3U);
  EXPECT_EQ(SplitWords(lines[3]), (CsvRecord{"load", "empty", "driver", "alone"}));
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
