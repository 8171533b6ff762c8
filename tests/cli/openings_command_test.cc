// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
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
    return Flat(RunProgram({"openings", path, "--full"}).out);
  };
  EXPECT_NE(out("tire_clearance: 900").find(", less than 900 mm"), std::string::npos);
  EXPECT_EQ(out("tire_clearance: 0").find("it comes as near as"), std::string::npos);
  const std::string off = "the centre of their openings, more than ";
  EXPECT_NE(out("wheel_off_center: 1").find(off + "1 mm"), std::string::npos);
  EXPECT_EQ(out("wheel_off_center: 900").find(off), std::string::npos);
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

TEST(OpeningsCommand, SaysWhatItCannotTell) {
  const std::string van = VehiclePath("harbour_van");
  const auto full = [](const std::string& path) {
    return Flat(RunProgram({"openings", path, "--full"}).out);
  };
  const std::string out = full(van);
  EXPECT_NE(out.find("- front: no inner_panel_y is given, so it is not looked at"),
            std::string::npos);
  EXPECT_NE(out.find("- front: not steered here: give --lock, or steering: {lock} in the file"),
            std::string::npos);
  EXPECT_NE(out.find("no item of ledger.added is fixed_to: body"), std::string::npos);
  const Folder folder;
  const std::string path = folder.Path("one.yaml");
  std::ofstream(path) << "base: " << van << "\nremove: [openings.rear]\n";
  const std::string one = full(path);
  EXPECT_NE(one.find("- rear: no opening is given, so nothing is said of its wheels"),
            std::string::npos);
  EXPECT_NE(one.find("Both axles need an opening before there is a plan to centre the wheels."),
            std::string::npos);
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
  EXPECT_NE(outcome.out.find("- front right tyre: "), std::string::npos);
}

// What is told of the tyres after the plan is what openings tells of the plan's own file.
TEST(OpeningsCommand, TellsTheTyresAfterThePlanAsOpeningsDoesOfThePlansFile) {
  for (const char* name : {"harbour_van", "orchard_tractor_truck", "moorland_wagon"}) {
    SCOPED_TRACE(name);
    const Folder folder;
    const std::string plan = folder.Path("plan.yaml"), file = VehiclePath(name);
    const std::vector<std::string> options{"--lock", "30", "--units", "metric"};
    const auto with = [&](std::vector<std::string> arguments) {
      arguments.insert(arguments.end(), options.begin(), options.end());
      return arguments;
    };
    ASSERT_EQ(RunProgram({"openings", file, "--write", plan}).exit, 0);
    const Sheet told = RunToSheet(with({"openings", file}));
    const Sheet then = RunToSheet(with({"openings", plan}));
    // Of each axle the nearest tyre, whichever side and surface.
    const auto least = [&](const std::string& axle, std::vector<const char*> motions) {
      double value = 1e9;
      for (const CsvRecord& record : then.rows) {
        const bool of_axle = record[0] == "clearance by motion" && record[1].starts_with(axle);
        const bool of_motion = std::any_of(motions.begin(), motions.end(),
                                           [&](const char* motion) { return record[2] == motion; });
        if (of_axle && of_motion && !record[4].empty()) {
          value = std::min(value, ToNumber(record[4]));
        }
      }
      return value;
    };
    constexpr double kSame = 2e-4;  // [mm] a search for the least stops within 0.01 mm of a low
                                    // place; the plan's own numbers are written to 1e-7 mm
    for (const std::string axle : {"front", "rear"}) {
      for (const char* motion : {"rest", "bounce", "crossed", "one_wheel", "roll"}) {
        EXPECT_NEAR(Number(told, "after the plan", axle, motion), least(axle, {motion}), kSame)
            << axle << " " << motion;
      }
    }
    EXPECT_NEAR(
        Number(told, "after the plan", "front", "lock"),
        least("front", {"rest_lock", "bounce_lock", "roll_lock", "crossed_lock", "one_wheel_lock"}),
        kSame);
    // What is to be trimmed is what is missing there, at the place that openings tells.
    for (const CsvRecord& record : told.rows) {
      if (record[0] != "trim" || record[2] != "by") continue;
      const std::string pair = record[1].substr(0, record[1].find(' ')) + " " +
                               Text(told, "trim", record[1], "side") + " to " +
                               record[1].substr(record[1].find(' ') + 1);
      const double aim = std::string(name) == "harbour_van" ? 25.0 : 0.0;
      const double by = ToNumber(record[4]);
      if (aim > 0.0) {
        EXPECT_NEAR(by, aim - Number(then, "least clearance", pair, "gap"), kSame);
      }
      for (const char* place : {"x", "z"}) {
        EXPECT_NEAR(Number(told, "trim", record[1], place),
                    Number(then, "least clearance", pair, place), 0.5)
            << record[1];
      }
    }
  }
}

// A lip trimmed as told, its arc widened by hand, leaves the tyre its clearance.
TEST(OpeningsCommand, ALipTrimmedAsToldClearsTheTyre) {
  const std::string van = VehiclePath("harbour_van");
  const Folder folder;
  const std::string plan = folder.Path("plan.yaml");
  ASSERT_EQ(RunProgram({"openings", van, "--write", plan}).exit, 0);
  const Sheet told = RunToSheet({"openings", van});
  const double front = Number(told, "trim", "front lip", "by");
  const double rear = Number(told, "trim", "rear lip", "by");
  const std::string trimmed = folder.Path("trimmed.yaml");
  std::ostringstream radii;
  radii.precision(12);
  radii << "base: plan.yaml\nchange:\n  openings.front.radius: " << 430.0 + front
        << "\n  openings.rear.radius: " << 425.0 + rear << "\n";
  std::ofstream(trimmed) << radii.str();
  const Sheet then = RunToSheet({"openings", trimmed});
  for (const CsvRecord& record : then.rows) {
    if (record[0] == "least clearance" && record[2] == "gap") {
      EXPECT_GE(ToNumber(record[4]), 25.0 - 1e-3) << record[1];
    }
    EXPECT_NE(record[0], "trim") << record[1];
  }
  EXPECT_NE(Flat(RunProgram({"openings", trimmed}).out)
                .find("No lip has to be trimmed: every tyre keeps the 25 mm that it should."),
            std::string::npos);
}

TEST(OpeningsCommand, AnswersFirstWhereTheyStandWhatToDoAndWhatThenTouches) {
  const std::string out = Flat(RunProgram({"openings", VehiclePath("harbour_van")}).out);
  const Sheet sheet = RunToSheet({"openings", VehiclePath("harbour_van")});
  size_t at = 0;
  for (const char* part :
       {"Under 'empty' the wheels stand in their openings in front 9 mm behind and 11 mm below",
        "As both wheels rise the first to touch is in front the left tyre at its lip, after 62 mm",
        "To centre them let 15 mm into the chassis between the axles, set the body 9 mm back",
        "The rear driveshaft must be 15 mm longer for it", "With that done the tyres are clear",
        "For 25 mm of clearance, trim the front lip by up to "}) {
    const size_t found = out.find(part, at);
    ASSERT_NE(found, std::string::npos) << part << "\n" << out;
    at = found;
  }
  // The first touch is where limits has bump end.
  const Sheet limits = RunToSheet({"limits", VehiclePath("harbour_van")});
  EXPECT_NEAR(Number(limits, "travel", "rear bump", "travel"), 38.0, 0.5);
  EXPECT_NE(out.find("at the rear the right tyre at its lip, after 38 mm"), std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
