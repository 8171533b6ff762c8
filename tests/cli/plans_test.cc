// SPDX-License-Identifier: MIT
// --write: each command's plan, asked about again, does what the command said of it.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

#include "io/read/vehicle_file.h"
#include "io/write/plan_file.h"
#include "solver/model/arms_kept.h"
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
  EXPECT_THAT(Flat(outcome.out), HasSubstr("The plan is written to " + plan));
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

// Hubs against their openings, front ahead and up, rear ahead and up, as openings has it [mm].
std::array<double, 4> MeansInOpenings(const std::string& file) {
  const Sheet sheet = RunToSheet({"openings", file, "--units", "metric"});
  const auto mean = [&](const std::string& axle, const char* way) {
    const std::string table = "in their openings at rest";
    return 0.5 *
           (Number(sheet, table, axle + " left", way) + Number(sheet, table, axle + " right", way));
  };
  return {mean("front", "ahead"), mean("front", "up"), mean("rear", "ahead"), mean("rear", "up")};
}

size_t DefaultOfFile(const std::string& file) { return ReadVehicleFile(file).vehicle.default_load; }

// The same as settle has it, under the load that the file stands on.
std::array<double, 4> SettledInOpenings(const std::string& file) {
  const Sheet sheet = RunToSheet({"settle", file, "--units", "metric"});
  const size_t row = DefaultOfFile(file);
  const auto at = [&](const char* column) { return sheet.Number(row, column); };
  return {at("front_opening_ahead_mm"), at("front_opening_up_mm"), at("rear_opening_ahead_mm"),
          at("rear_opening_up_mm")};
}

TEST(OpeningsPlan, CentresBothWheelsWhereItIsAskedAboutAgain) {
  for (const char* name : {"depot_truck", "harbour_van", "bare_frame", "orchard_tractor_truck",
                           "quarry_pickup", "fire_patrol", "harbour_van_as_built"}) {
    const Folder folder;
    const std::string plan = Planned(folder, {"openings", VehiclePath(name)});
    constexpr double kCentred = 1e-6 / kMillimetre;  // [mm] what a plan promises
    const std::array mean = MeansInOpenings(plan), mean_before = MeansInOpenings(VehiclePath(name));
    for (const double off : mean) EXPECT_NEAR(off, 0.0, kCentred) << name;
    if (std::string(name) != "bare_frame") {
      // The plan holds each axle level, at the mean of its wheels, as openings does; settle has it
      // as the body leans. What the lean draws the hubs by is as it was before the plan, but for
      // what the moved masses change of it; without a lean to speak of it is nothing.
      const std::array there = SettledInOpenings(plan),
                       before = SettledInOpenings(VehiclePath(name));
      constexpr double kLean = 0.01;  // [mm] a tenth of the greatest that a lean draws here
      for (size_t i = 0; i < mean.size(); ++i) {
        EXPECT_NEAR(there[i], before[i] - mean_before[i], kLean) << name << ", " << i;
        if (std::string(name).starts_with("harbour_van")) {
          EXPECT_NEAR(there[i], 0.0, kCentred) << name << ", " << i;
        }
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
  // Without openings no tyre is in the way.
  for (const auto& [name, bump, droop] :
       {Case{"harbour_van", "36", "60"}, Case{"orchard_tractor_truck", "60", "55"}}) {
    const Folder folder;
    const std::string file =
        folder.Write("file.yaml", "base: " + VehiclePath(name) + "\nremove: [openings]\n");
    const std::vector<std::string> wish{"limits",  file,
                                        "--bump",  std::string(bump) + " mm",
                                        "--droop", std::string(droop) + " mm",
                                        "--load",  "empty"};
    const std::string plan = Planned(folder, wish);
    const Sheet then = RunToSheet({"limits", plan, "--units", "metric"});
    constexpr double kEnds = 1e-3;  // [mm] the walk closes in on an end to far less
    for (const std::string axle : {"front", "rear"}) {
      EXPECT_NEAR(Number(then, "travel", axle + " bump", "travel"), ToNumber(bump), kEnds) << name;
      EXPECT_NEAR(Number(then, "travel", axle + " droop", "travel"), -ToNumber(droop), kEnds);
      EXPECT_THAT(Text(then, "travel", axle + " bump", "ended_by"), HasSubstr("cone")) << name;
      EXPECT_THAT(Text(then, "travel", axle + " droop", "ended_by"), HasSubstr("strap")) << name;
    }
    EXPECT_EQ(RunProgram({"limits", plan}).out.find("move its tab"), std::string::npos) << name;
    std::vector<std::string> again = wish;
    again[1] = plan;
    ExpectNothingLeft(folder, again);
  }
}

// Without --load the plan is for the worst of all loads: carried out, each has what was wanted, and
// the one that decides no more.
TEST(LimitsPlan, OfAllLoadsGivesEachTheTravelWanted) {
  struct Case {
    const char* name;
    std::vector<std::string> loads;
    double bump, droop;  // [mm]
  };
  for (const auto& [name, loads, up, down] :
       {Case{"harbour_van", {"empty", "driver", "deliveries"}, 30.0, 60.0},
        Case{"orchard_tractor_truck", {"empty", "driver", "picking day"}, 40.0, 55.0}}) {
    const Folder folder;
    const std::string file =
        folder.Write("file.yaml", "base: " + VehiclePath(name) + "\nremove: [openings]\n");
    const std::vector<std::string> wish{
        "limits", file, "--bump", fmt::format("{} mm", up), "--droop", fmt::format("{} mm", down)};
    const std::string plan = Planned(folder, wish);
    EXPECT_THAT(ReadBytes(plan), HasSubstr("under every load of the file"));
    constexpr double kEnds = 1e-3;  // [mm]
    for (const std::string axle : {"front", "rear"}) {
      double bump = 1e9, droop = 1e9;
      for (const std::string& load : loads) {
        const Sheet then = RunToSheet({"limits", plan, "--units", "metric", "--load", load});
        bump = std::min(bump, Number(then, "travel", axle + " bump", "travel"));
        droop = std::min(droop, -Number(then, "travel", axle + " droop", "travel"));
        EXPECT_THAT(Text(then, "travel", axle + " bump", "ended_by"), HasSubstr("cone")) << load;
        EXPECT_THAT(Text(then, "travel", axle + " droop", "ended_by"), HasSubstr("strap")) << load;
      }
      EXPECT_NEAR(bump, up, kEnds) << name << ", " << axle;
      EXPECT_NEAR(droop, down, kEnds) << name << ", " << axle;
    }
    std::vector<std::string> again = wish;
    again[1] = plan;
    ExpectNothingLeft(folder, again);
  }
}

TEST(LimitsPlan, IsNotWrittenWhereTheFileWouldNotBeTaken) {
  const Folder folder;
  const std::string path = folder.Path("plan.yaml");
  const Outcome outcome = RunProgram({"limits", VehiclePath("orchard_tractor_truck"), "--bump",
                                      "20 mm", "--droop", "55 mm", "--write", path});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_THAT(outcome.err, HasSubstr("the front axle's cone, as high as advised, would be solid in "
                                     "the measured stance"));
  EXPECT_FALSE(std::filesystem::exists(path));
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
  EXPECT_THAT(ReadBytes(plan), HasSubstr(".length: "));
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
  constexpr double kParallel = 0.01;  // [deg] what is told, to its last digit
  EXPECT_LT(slopes(plan), kParallel);
  const Sheet lines = RunToSheet({"steering", plan});
  EXPECT_NEAR(Number(lines, "front lines", "track bar", "length"),
              Number(lines, "front lines", "drag link", "length"), 1.0);
  ExpectNothingLeft(folder, {"steering", plan});
}

// Arms that are kept are other lengths than their holes are apart: what is turned counts from what
// the arm is.
TEST(DrivelinePlan, CountsFromWhatAKeptArmIs) {
  const Folder folder;
  const std::string moved =
      folder.Write("moved.yaml", "base: " + VehiclePath("harbour_van") +
                                     "\nchange:\n"
                                     "  axles.rear.links.upper arm.frame: [-2049, 345, 541]\n"
                                     "  axles.rear.links.lower arm.frame: [-1898, 430, 399]\n");
  ASSERT_TRUE(HasKeptArms(ReadVehicleFile(moved).vehicle.axles[kRear]));
  const auto points_at_pinion = [](const std::string& file) {
    return RunProgram({"driveline", file, "--full"}).out.find("- rear driveshaft: pinion yoke ") !=
           std::string::npos;
  };
  EXPECT_TRUE(points_at_pinion(moved));
  const std::string plan = Planned(folder, {"driveline", moved});
  EXPECT_THAT(ReadBytes(plan), HasSubstr(".length: "));
  ExpectNothingLeft(folder, {"driveline", plan});
  const Sheet rows = RunToSheet({"sweep", plan, "--from", "0", "--to", "0", "--step", "10"});
  EXPECT_NEAR(rows.Number(0, "driveshaft_front_joint_deg"),
              rows.Number(0, "driveshaft_rear_joint_deg"), 0.005);  // [deg] as above
  EXPECT_FALSE(points_at_pinion(plan));
}

// The length that the plan gives the bar puts the axle on the centreline.
TEST(SteeringPlan, CentresAnAxleByTheLengthOfItsBar) {
  struct Case {
    const char *name, *axle, *change, *drag_link;
  };
  for (const auto& [name, axle, change, drag_link] :
       {Case{"quarry_pickup", "rear", "axles.rear.sideways_most: 1", ""},
        Case{"quarry_pickup", "rear", "axles.rear.links.track bar.frame[2]: 455", ""},
        Case{"orchard_tractor_truck", "front", "axles.front.links.track bar.frame[2]: 18",
             "Its drag link then has to be "}}) {
    const Folder folder;
    const std::string off =
        folder.Write("off.yaml", "base: " + VehiclePath(name) + "\nchange:\n  " + change + "\n");
    const auto offset = [&, which = std::string(axle)](const std::string& file) {
      return Number(RunToSheet({"steering", file, "--units", "metric"}), "sideways", which,
                    "offset");
    };
    EXPECT_GT(std::abs(offset(off)), 1.0) << name << change;
    const std::string plan = Planned(folder, {"steering", off});
    EXPECT_THAT(ReadBytes(plan),
                HasSubstr(std::string("axles.") + axle + ".links.track bar.length: "));
    EXPECT_THAT(ReadBytes(plan), HasSubstr(drag_link));
    EXPECT_NEAR(offset(plan), 0.0, 1e-5) << name << change;  // [mm] closed in on to 1e-6
    ExpectNothingLeft(folder, {"steering", plan});
  }
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
  // Parts that are ordered for every load are left out, and the travel that they are for.
  const std::set<std::string> orders{"dampers", "tabs",  "impossible dampers", "stops", "straps",
                                     "coils",   "order", "in the way"};
  const auto rows = [&](const std::vector<std::string>& arguments) {
    std::vector<CsvRecord> all = RunToSheet(arguments).rows;
    std::erase_if(
        all, [&](const CsvRecord& row) { return orders.contains(row[0]) || row[2] == "wanted"; });
    return all;
  };
  for (const char* command : {"sweep", "driveline", "steering", "limits", "openings", "roll"}) {
    const auto own = rows({command, loaded});
    const auto empty = rows({command, van});
    EXPECT_EQ(own, rows({command, van, "--load", "deliveries"})) << command;
    EXPECT_NE(own, empty) << command;
    EXPECT_EQ(rows({command, loaded, "--load", "empty"}), empty) << command;
  }
}

}  // namespace
}  // namespace linkwright::check
