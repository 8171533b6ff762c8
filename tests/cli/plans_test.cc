// SPDX-License-Identifier: MIT
// --write: each command's plan, asked about again, does what the command said of it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "io/read/format.h"
#include "io/write/plan_file.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using testing::HasSubstr;

std::string Text(const Sheet& sheet, const std::string& table, const std::string& row,
                 const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return record[4];
  }
  ADD_FAILURE() << table << ", " << row << ", " << quantity << " is not there";
  return "0";
}

double Number(const Sheet& sheet, const std::string& table, const std::string& row,
              const std::string& quantity) {
  return ToNumber(Text(sheet, table, row, quantity));
}

// Writes the plan and gives its path back; the command must be content.
std::string Planned(const Folder& folder, std::vector<std::string> arguments) {
  const std::string plan = folder.Path("plan.yaml");
  arguments.insert(arguments.end(), {"--write", plan});
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("the plan is written to " + plan));
  return plan;
}

// Asked again, the command has nothing left to advise.
void ExpectNothingLeft(const Folder& folder, std::vector<std::string> arguments) {
  const std::string again = folder.Path("again.yaml");
  arguments.insert(arguments.end(), {"--write", again});
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 1) << arguments[1];
  EXPECT_THAT(outcome.err, HasSubstr("linkwright: --write: there is nothing to write: "));
  EXPECT_FALSE(std::filesystem::exists(again));
}

constexpr double kMillimetre = 1e-3;  // of metric files; an inch file asks for --units metric

TEST(OpeningsPlan, CentresBothWheelsWhereItIsAskedAboutAgain) {
  for (const char* name : {"depot_truck", "harbour_van", "bare_frame", "orchard_tractor_truck",
                           "quarry_pickup", "fire_patrol", "harbour_van_as_built",
                           "harbour_van_old_springs", "orchard_tractor_truck_spacer"}) {
    const Folder folder;
    const std::string plan = Planned(folder, {"openings", VehiclePath(name)});
    const Sheet openings = RunToSheet({"openings", plan, "--units", "metric"});
    constexpr double kCentred = 1e-6 / kMillimetre;  // [mm] what a plan promises
    for (const char* axle : {"front ", "rear "}) {
      for (const char* way : {"ahead", "up"}) {
        const std::string table = "in their openings at rest", wheel = axle;
        const double mean = 0.5 * (Number(openings, table, wheel + "left", way) +
                                   Number(openings, table, wheel + "right", way));
        EXPECT_NEAR(mean, 0.0, kCentred) << name << ", " << wheel << way;
      }
    }
    if (std::string(name) != "bare_frame") {
      const Sheet settle = RunToSheet({"settle", plan, "--units", "metric"});
      for (const char* column : {"front_opening_ahead_mm", "front_opening_up_mm",
                                 "rear_opening_ahead_mm", "rear_opening_up_mm"}) {
        // The load the plan was made for. The plan has each axle at the mean of its wheels, settle
        // each wheel at its own travel t: a link of length l that swings to both sides draws the
        // housing back by t^2/(2 l), the shortest of them being 0.4 m long.
        EXPECT_NEAR(
            settle.Number(name == std::string("orchard_tractor_truck_spacer") ? 1 : 0, column), 0.0,
            kCentred)
            << name << ", " << column;
      }
    }
    ExpectNothingLeft(folder, {"openings", plan});
  }
}

TEST(OpeningsPlan, SaysUnderWhichLoadItCentres) {
  const Folder folder;
  const std::string plan =
      Planned(folder, {"openings", VehiclePath("harbour_van"), "--load", "deliveries"});
  EXPECT_THAT(ReadBytes(plan), HasSubstr("standing under the load deliveries"));
  ExpectNothingLeft(folder, {"openings", plan, "--load", "deliveries"});
}

TEST(LimitsPlan, HasItsStopsAndStrapsEndTheTravelWanted) {
  struct Case {
    const char *name, *bump, *droop;
  };
  for (const auto& [name, bump, droop] :
       {Case{"harbour_van", "36", "60"}, Case{"orchard_tractor_truck", "20", "55"}}) {
    const Folder folder;
    const std::string plan =
        Planned(folder, {"limits", VehiclePath(name), "--bump", std::string(bump) + " mm",
                         "--droop", std::string(droop) + " mm"});
    const Sheet then = RunToSheet({"limits", plan, "--units", "metric"});
    constexpr double kEnds = 1e-3;  // [mm] the walk closes in on an end to far less
    for (const std::string axle : {"front", "rear"}) {
      EXPECT_NEAR(Number(then, "travel", axle + " bump", "travel"), ToNumber(bump), kEnds) << name;
      EXPECT_NEAR(Number(then, "travel", axle + " droop", "travel"), -ToNumber(droop), kEnds);
      EXPECT_THAT(Text(then, "travel", axle + " bump", "ended_by"), HasSubstr("cone")) << name;
      EXPECT_THAT(Text(then, "travel", axle + " droop", "ended_by"), HasSubstr("strap")) << name;
    }
    EXPECT_EQ(RunProgram({"limits", plan}).out.find("move its tab"), std::string::npos) << name;
    ExpectNothingLeft(folder, {"limits", plan, "--bump", std::string(bump) + " mm", "--droop",
                               std::string(droop) + " mm"});
  }
}

// Joints of equal angle in one plane, the yokes aligned, cancel: what the plan is for, by the
// rule that a shop knows.
TEST(DrivelinePlan, MakesBothJointsAlikeAtRest) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const auto differ = [](const std::string& file) {
    const Sheet rows = RunToSheet({"sweep", file, "--from", "0", "--to", "0", "--step", "10"});
    return std::abs(rows.Number(0, "driveshaft_front_joint_deg") -
                    rows.Number(0, "driveshaft_rear_joint_deg"));
  };
  const std::string plan = Planned(folder, {"driveline", van});
  constexpr double kAlike = 0.005;  // [deg] the van's housing stands 0.6 mm beside the centreline
  EXPECT_GT(differ(van), 0.3);
  EXPECT_LT(differ(plan), kAlike);
  const bool by_link = KeyIn(FindGroup("link"), "length") != nullptr;
  EXPECT_THAT(ReadBytes(plan), HasSubstr(by_link ? ".length: " : "axles.rear.pinion.angle: "));
  ExpectNothingLeft(folder, {"driveline", plan});
}

TEST(SteeringPlan, LaysTheTrackBarLikeTheDragLink) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const auto slopes = [](const std::string& file) {
    const Sheet lines = RunToSheet({"steering", file});
    return std::abs(Number(lines, "front lines", "track bar", "slope") -
                    Number(lines, "front lines", "drag link", "slope"));
  };
  const std::string plan = Planned(folder, {"steering", van});
  // Where the file has no length for the bar the axle rests a little to the side of where it was.
  constexpr double kParallel = 0.01;  // [deg] 0.1 mm of that on a bar of 991 mm
  EXPECT_LT(slopes(plan), kParallel);
  const Sheet lines = RunToSheet({"steering", plan});
  EXPECT_NEAR(Number(lines, "front lines", "track bar", "length"),
              Number(lines, "front lines", "drag link", "length"), 1.0);
  ExpectNothingLeft(folder, {"steering", plan});
}

TEST(Plans, LeaveTheirInputAlone) {
  const Folder folder;
  const std::string input = folder.Path("van.yaml"), base = ReadBytes(VehiclePath("harbour_van"));
  folder.Write("van.yaml", base);
  const std::string variant = folder.Write("variant.yaml", "base: van.yaml\n");
  for (const std::string& path : {input, variant}) {
    const Outcome outcome = RunProgram({"openings", variant, "--write", path});
    EXPECT_EQ(outcome.exit, 2);
    EXPECT_THAT(outcome.err, HasSubstr("it is one of the files this result was read from"));
  }
  EXPECT_EQ(ReadBytes(input), base);
  EXPECT_EQ(ReadBytes(variant), "base: van.yaml\n");
}

TEST(Plans, WithNothingToAdviseWriteNothing) {
  const Folder folder;
  const std::string path = folder.Path("plan.yaml");
  const std::string van =
      folder.Write("van.yaml", "base: " + VehiclePath("harbour_van") + "\nremove: [openings]\n");
  const Outcome outcome = RunProgram({"openings", van, "--write", path});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_EQ(outcome.err,
            "linkwright: --write: there is nothing to write: both axles need an opening before "
            "there is a plan to centre their wheels; " +
                path + " is left as it is\n");
  EXPECT_FALSE(std::filesystem::exists(path));
  EXPECT_EQ(RunProgram({"steering", VehiclePath("orchard_tractor_truck"), "--write", path}).exit,
            1);
  EXPECT_FALSE(std::filesystem::exists(path));
}

TEST(Plans, FindTheirBaseFromOtherFoldersAndUnderOddNames) {
  const Folder folder;
  std::filesystem::create_directories(folder.path() / "old: trucks # 2" / "deep");
  std::filesystem::create_directories(folder.path() / "plans");
  std::filesystem::create_directory_symlink(folder.path() / "plans",
                                            folder.path() / "old: trucks # 2" / "deep" / "link");
  const std::string van =
      folder.Write("old: trucks # 2/it's \"one\".yaml", ReadBytes(VehiclePath("harbour_van")));
  for (const char* name : {"plan.yaml", "plans/plan.yaml", "old: trucks # 2/deep/plan.yaml",
                           "old: trucks # 2/deep/link/other.yaml"}) {
    const std::string plan = folder.Path(name);
    ASSERT_EQ(RunProgram({"openings", van, "--write", plan}).exit, 0) << name;
    const Outcome read = RunProgram({"settle", plan});
    EXPECT_EQ(read.exit, 0) << name << read.err;
  }
  const WorkingFolder here(folder.path() / "plans");
  ASSERT_EQ(RunProgram({"openings", van, "--write", "here.yaml"}).exit, 0);
  EXPECT_EQ(RunProgram({"settle", "here.yaml"}).exit, 0);
}

TEST(Plans, QuoteWhatYamlWouldReadAsSomethingElse) {
  EXPECT_EQ(PlanText("Harbour van (plan) 2.1"), "Harbour van (plan) 2.1");
  EXPECT_EQ(PlanText("../vehicles/harbour_van.yaml"), "../vehicles/harbour_van.yaml");
  EXPECT_EQ(PlanText("van: as found"), "\"van: as found\"");
  EXPECT_EQ(PlanText("true"), "\"true\"");
  EXPECT_EQ(PlanText("12 ft"), "\"12 ft\"");
  EXPECT_EQ(PlanText("say \"no\" \\ 2"), R"("say \"no\" \\ 2")");
  EXPECT_EQ(PlanLength(0.0254, UnitSystem::kInch), "1");
  EXPECT_EQ(PlanLength(-1e-13, UnitSystem::kMetric), "0");
  EXPECT_EQ(PlanPoint({-1.5, 0.123456789, 0.0}, UnitSystem::kMetric), "[-1500, 123.456789, 0]");
}

// Every command that stands under one load.
TEST(DefaultLoad, IsWhatEveryCommandStandsOn) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const std::string loaded =
      folder.Write("loaded.yaml", "base: " + van + "\ndefault_load: deliveries\n");
  for (const char* command : {"sweep", "driveline", "steering", "limits", "openings", "roll"}) {
    const Sheet own = RunToSheet({command, loaded});
    const Sheet asked = RunToSheet({command, van, "--load", "deliveries"});
    EXPECT_EQ(own.rows, asked.rows) << command;
    EXPECT_NE(own.rows, RunToSheet({command, van}).rows) << command;
    EXPECT_EQ(RunToSheet({command, loaded, "--load", "empty"}).rows,
              RunToSheet({command, van}).rows)
        << command;
  }
}

}  // namespace
}  // namespace linkwright::check
