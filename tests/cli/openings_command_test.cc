// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

const std::vector<std::string> kVehicles{"harbour_van", "orchard_tractor_truck", "quarry_pickup",
                                         "fire_patrol", "bare_frame"};

double Number(const Sheet& sheet, const std::string& table, const std::string& row,
              const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return ToNumber(record[4]);
  }
  ADD_FAILURE() << table << ", " << row << ", " << quantity << " is not there";
  return 0.0;
}

TEST(OpeningsCommand, AnswersForEveryVehicleWithoutAnythingThatIsNoNumber) {
  for (const std::string& vehicle : kVehicles) {
    const Sheet sheet = RunToSheet({"openings", VehiclePath(vehicle)});
    ASSERT_FALSE(sheet.rows.empty());
    for (const CsvRecord& row : sheet.rows) {
      EXPECT_EQ(row[4].find("nan"), std::string::npos) << vehicle << ": " << row[1];
      EXPECT_EQ(row[4].find("inf"), std::string::npos) << vehicle << ": " << row[1];
    }
  }
}

TEST(OpeningsCommand, ThePlanCarriedOutInTheFileCentresBothWheels) {
  // The reference vehicle's bare twin: no masses, so that only points move. Body ahead and up by
  // the plan, the rear axle back by it, all by hand in a variant.
  const std::string frame = VehiclePath("bare_frame");
  const Sheet plan = RunToSheet({"openings", frame});
  const std::string whole = "chassis takes 100 %";
  EXPECT_NEAR(Number(plan, "centring", whole, "front_ahead"), 0.0, 1e-5);
  EXPECT_NEAR(Number(plan, "centring", whole, "rear_ahead"), 0.0, 1e-5);
  EXPECT_NEAR(Number(plan, "centring", whole, "rear_up"), 0.0, 1e-5);
  // Openings at (5, 386) and (-2598, 392) in the file; the hubs where the file has them.
  const double front = 5.0 + Number(plan, "centring", whole, "body_ahead");
  const double hub = Number(plan, "in their openings at rest", "front left", "ahead") + 5.0;
  EXPECT_NEAR(front, hub, 1e-5);
}

TEST(OpeningsCommand, SaysWhatItCannotTell) {
  const std::string van = VehiclePath("harbour_van");
  const std::string out = RunProgram({"openings", van}).out;
  EXPECT_TRUE(HasLine(out,
                      "front: no inner_panel_y is given, so no gap to the inner panel is to "
                      "be had"));
  EXPECT_TRUE(
      HasLine(out, "front: not steered here: give --lock, or steering: {lock} in the file"));
  EXPECT_NE(out.find("no item of ledger.added is fixed_to: body"), std::string::npos);
  const Folder folder;
  const std::string path = folder.Path("one.yaml");
  std::ofstream(path) << "base: " << van << "\nremove: [openings.rear]\n";
  const std::string one = RunProgram({"openings", path}).out;
  EXPECT_TRUE(HasLine(one, "rear: no opening is given, so nothing is said of its wheels"));
  EXPECT_TRUE(HasLine(one, "no plan to centre the wheels: both axles must have an opening"));
}

TEST(OpeningsCommand, ALockSteersTheFrontOnly) {
  const Sheet sheet = RunToSheet({"openings", VehiclePath("harbour_van"), "--lock", "30"});
  const double held = Number(sheet, "clearance by motion", "front left to lip", "rest");
  const double turned = Number(sheet, "clearance by motion", "front left to lip", "rest_lock");
  EXPECT_LT(turned, held);
  for (const CsvRecord& record : sheet.rows) {
    const bool rear = record[1].starts_with("rear") && record[2] == "rest_lock";
    EXPECT_TRUE(!rear || record[4].empty());
  }
}

TEST(OpeningsCommand, ASplitLeavesItsShare) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet half = RunToSheet({"openings", van, "--centre-split", "50"});
  const Sheet whole = RunToSheet({"openings", van});
  const double cut = Number(whole, "centring", "chassis takes 100 %", "chassis_longer");
  const double half_cut = Number(half, "centring", "chassis takes 50 %", "chassis_longer");
  EXPECT_NEAR(half_cut / cut, 0.5, 0.01);  // the rest moves a little with the axle
  EXPECT_NEAR(Number(half, "centring", "chassis takes 50 %", "front_ahead"),
              -Number(half, "centring", "chassis takes 50 %", "rear_ahead"), 1e-4);
}

TEST(OpeningsCommand, RefusesWhatIsNoLockAndNoShare) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(RunProgram({"openings", van, "--lock", "70"}).err,
            "linkwright: --lock: an angle above 0 and up to 60 degrees is wanted\n");
  EXPECT_EQ(RunProgram({"openings", van, "--centre-split", "101"}).err,
            "linkwright: --centre-split: the chassis' share in percent is wanted, from 0 to 100\n");
  EXPECT_EQ(RunProgram({"openings", van, "--lock", "70"}).exit, 2);
}

TEST(OpeningsCommand, StrictRefusesATyreThatTouches) {
  const Outcome outcome = RunProgram({"openings", VehiclePath("harbour_van"), "--strict"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.out.find("look at this: front left to lip: "), std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
