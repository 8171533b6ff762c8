// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

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

std::string Text(const Sheet& sheet, const std::string& table, const std::string& row,
                 const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return record[4];
  }
  return {};
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

// One number of a plan that takes all of the mismatch out of the chassis [mm].
double OfPlan(const Sheet& sheet, const std::string& quantity) {
  return Number(sheet, "centring", "chassis takes 100 %", quantity);
}

std::string Point(double x, double y, double z) {
  std::ostringstream text;
  text.precision(17);
  text << "[" << x << ", " << y << ", " << z << "]";
  return text.str();
}

TEST(OpeningsCommand, ThePlanCarriedOutInTheFileCentresBothWheels) {
  // The bare frame has no masses, so that only points move; every one of them by hand, from the
  // file's own numbers: openings with the body, the rear axle and its brackets by the cut.
  const std::string frame = VehiclePath("bare_frame");
  const Sheet plan = RunToSheet({"openings", frame});
  const double longer = OfPlan(plan, "chassis_longer"), ahead = OfPlan(plan, "body_ahead");
  const double up_front = OfPlan(plan, "body_up_front"), up_rear = OfPlan(plan, "body_up_rear");
  EXPECT_GT(std::abs(longer), 1.0);
  const double dx = 2603.0, dz = 6.0;  // of the rear centre behind and above the front one
  const double dz_then = dz + up_rear - up_front;
  const double dx_then = std::sqrt(dx * dx + dz * dz - dz_then * dz_then);  // a rigid body
  const double x = 5.0 + ahead, z = 386.0 + up_front;
  const auto back = [&](double px, double py, double pz) { return Point(px - longer, py, pz); };
  const auto centre = [](double cx, double cz) {
    std::ostringstream text;
    text.precision(17);
    text << "[" << cx << ", " << cz << "]";
    return text.str();
  };
  const std::string links = "  axles.rear.links.", coil = "  axles.rear.springs.coil.";
  const Folder folder;
  const std::string built = folder.Path("built.yaml");
  std::ofstream(built) << "base: " << frame << "\nchange:\n"
                       << "  openings.front.center: " << centre(x, z) << "\n"
                       << "  openings.rear.center: " << centre(x - dx_then, z + dz_then) << "\n"
                       << "  axles.rear.wheel_center: " << back(-2590, 29.5 * 25.4, 384) << "\n"
                       << "  axles.rear.pinion.yoke: " << back(-2268, 12, 412) << "\n"
                       << links << "lower arm.frame: " << back(-1942, 438, 408) << "\n"
                       << links << "lower arm.axle: " << back(-2552, 470, 318) << "\n"
                       << links << "upper arm.frame: " << back(-2062, 350, 560) << "\n"
                       << links << "upper arm.axle: " << back(-2570, 335, 530) << "\n"
                       << links << "track bar.frame: " << back(-2702, 458, 522) << "\n"
                       << links << "track bar.axle: " << back(-2712, -446, 460) << "\n"
                       << coil << "frame: " << back(-2588, 424, 676) << "\n"
                       << coil << "axle: " << back(-2596, 434, 440) << "\n";
  const Sheet then = RunToSheet({"openings", built});
  constexpr double kCentred = 1e-5;  // [mm] the plan stops at 1e-6 mm, its numbers have 9 digits
  for (const char* wheel : {"front left", "front right", "rear left", "rear right"}) {
    EXPECT_NEAR(Number(then, "in their openings at rest", wheel, "ahead"), 0.0, kCentred) << wheel;
    EXPECT_NEAR(Number(then, "in their openings at rest", wheel, "up"), 0.0, kCentred) << wheel;
  }
  for (const char* quantity : {"body_ahead", "body_up_front", "body_up_rear", "chassis_longer"}) {
    EXPECT_NEAR(OfPlan(then, quantity), 0.0, kCentred) << quantity;
  }
  // And hung on stands, each axle is where the plan said it would hang.
  for (const char* axle : {"front", "rear"}) {
    for (const char* quantity : {"opening_ahead", "opening_up", "housing_pitch"}) {
      EXPECT_NEAR(Number(then, "on stands", std::string(axle) + ", as it is", quantity),
                  Number(plan, "on stands", std::string(axle) + ", to land centred", quantity),
                  kCentred);
    }
  }
}

TEST(OpeningsCommand, EveryLimitOfTheFileChangesWhatIsPointedAt) {
  const auto out = [](const std::string& limit) {
    const Folder folder;
    const std::string path = folder.Path("limits.yaml");
    std::ofstream(path) << "base: " << VehiclePath("harbour_van")
                        << "\nadd:\n  openings.front.lip_y: 920\n  openings.rear.lip_y: 920\n"
                           "  aims: {"
                        << limit << "}\n";
    return RunProgram({"openings", path}).out;
  };
  EXPECT_NE(out("tire_clearance: 900").find(", less than 900.0 mm"), std::string::npos);
  EXPECT_EQ(out("tire_clearance: 0").find("tyre comes as near as"), std::string::npos);
  EXPECT_NE(out("wheel_off_center: 1").find("aim 1.0 mm or less"), std::string::npos);
  EXPECT_EQ(out("wheel_off_center: 900").find("the centre of their openings at rest, aim"),
            std::string::npos);
}

TEST(OpeningsCommand, ACutChassisIsFollowedByItsShafts) {
  // The output stays, the pinion goes back with the axle: lengths of two straight lines.
  const Sheet sheet = RunToSheet({"openings", VehiclePath("bare_frame")});
  const double longer = OfPlan(sheet, "chassis_longer");
  const double before = std::hypot(-2268.0 + 1160.0, 12.0 - 18.0, 412.0 - 492.0);
  const double after = std::hypot(-2268.0 - longer + 1160.0, 12.0 - 18.0, 412.0 - 492.0);
  EXPECT_NEAR(Number(sheet, "shafts then", "rear", "longer"), after - before, 1e-5);
}

TEST(OpeningsCommand, EndsWhereLimitsEnds) {
  // A joint, a spline and a coil that must stay seated end the travel before any damper does.
  const Folder folder;
  const std::string path = folder.Path("short.yaml");
  std::ofstream(path) << "base: " << VehiclePath("harbour_van")
                      << "\nadd:\n  axles.rear.links.track bar.misalignment_limit: 0.5\n"
                         "  axles.front.springs.coil.keep_seated: true\n"
                         "remove: [axles.front.dampers, openings.rear.radius]\n";
  const Sheet limits = RunToSheet({"limits", path}), openings = RunToSheet({"openings", path});
  EXPECT_NE(Text(limits, "travel", "rear droop", "ended_by").find("at its limit"),
            std::string::npos);
  for (const char* axle : {"front", "rear"}) {
    const std::string name = axle;
    EXPECT_NEAR(Number(openings, "on stands", name + ", as it is", "travel"),
                Number(limits, "travel", name + " droop", "travel"), 1e-8);
  }
  EXPECT_NEAR(Number(openings, "swept", "rear bounce -", "travel"),
              Number(limits, "travel", "rear droop", "travel"), 1e-8);
}

TEST(OpeningsCommand, PrintsNoTableWiderThanAPage) {
  for (const std::string& vehicle : kVehicles) {
    for (const char* units : {"metric", "inch"}) {
      const std::string out = RunProgram({"openings", VehiclePath(vehicle), "--units", units}).out;
      for (const std::string& line : Lines(out)) {
        if (!line.starts_with("  ")) continue;
        EXPECT_LE(line.size(), 100U) << line;
      }
    }
  }
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
            "linkwright: --lock: '70' is out of range; wanted: 0 deg to 60 deg\n");
  EXPECT_EQ(RunProgram({"openings", van, "--centre-split", "101"}).err,
            "linkwright: --centre-split: '101' is out of range; wanted: 0 % to 100 %\n");
  EXPECT_EQ(RunProgram({"openings", van, "--lock", "70"}).exit, 2);
}

TEST(OpeningsCommand, StrictRefusesATyreThatTouches) {
  const Outcome outcome = RunProgram({"openings", VehiclePath("harbour_van"), "--strict"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.out.find("look at this: the front axle: its right tyre is "),
            std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
