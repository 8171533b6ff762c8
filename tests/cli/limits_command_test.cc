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

std::string Value(const Sheet& sheet, const std::string& table, const std::string& row,
                  const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return record[4];
  }
  ADD_FAILURE() << table << ", " << row << ", " << quantity << " is not there";
  return "";
}

// A vehicle file of one test, a variant of the van.
std::string WriteVariant(const Folder& folder, const std::string& text) {
  const std::string path = folder.Path("variant.yaml");
  std::ofstream(path) << "base: " << VehiclePath("harbour_van") << "\n" << text;
  return path;
}

TEST(LimitsCommand, AnswersForEveryVehicleWithoutAnythingThatIsNoNumber) {
  for (const std::string& vehicle : kVehicles) {
    const Sheet sheet = RunToSheet({"limits", VehiclePath(vehicle)});
    ASSERT_FALSE(sheet.rows.empty());
    for (const CsvRecord& row : sheet.rows) {
      EXPECT_EQ(row[4].find("nan"), std::string::npos) << vehicle << ": " << row[1];
      EXPECT_EQ(row[4].find("inf"), std::string::npos) << vehicle << ": " << row[1];
    }
  }
}

// The first and the last row that have something in a column.
std::pair<size_t, size_t> RowsOf(const Sheet& sheet, const std::string& column) {
  const size_t c = sheet.Find(column);
  size_t first = 0, last = sheet.rows.size() - 1;
  while (sheet.rows[first][c].empty()) ++first;
  while (sheet.rows[last][c].empty()) --last;
  return {first, last};
}

TEST(LimitsCommand, TheSweepsRowsEndWhereItSaysWhereNothingElseComesFirst) {
  // Without openings and slip only what ends a sweep is left to end the travel.
  for (const char* vehicle : {"harbour_van", "orchard_tractor_truck", "fire_patrol"}) {
    const Folder folder;
    const std::string path = folder.Path("plain.yaml");
    std::ofstream(path) << "base: " << VehiclePath(vehicle)
                        << "\nremove: [openings, driveshafts]\n";
    const Sheet limits = RunToSheet({"limits", path, "--units", "metric"});
    const Sheet sweep = RunToSheet({"sweep", path, "--units", "metric"});
    constexpr double kSame = 1e-6;  // [mm] the sweep bisects to 1e-7 mm
    for (const char* axle : {"front", "rear"}) {
      const std::string name = axle;
      const auto [first, last] = RowsOf(sweep, name + "_housing_pitch_deg");
      EXPECT_NEAR(sweep.Number(last, "travel_mm"),
                  ToNumber(Value(limits, "travel", name + " bump", "travel")), kSame)
          << vehicle;
      EXPECT_NEAR(sweep.Number(first, "travel_mm"),
                  ToNumber(Value(limits, "travel", name + " droop", "travel")), kSame)
          << vehicle;
    }
    const Sheet crossed = RunToSheet({"sweep", path, "--motion", "crossed", "--units", "metric"});
    const size_t last = RowsOf(crossed, "diagonal_travel_mm").second;  // the first axle to end it
    EXPECT_NEAR(crossed.Number(last, "cross_deg"),
                ToNumber(Value(limits, "crossed", "crossed +", "cross")), 1e-7);
    EXPECT_NEAR(crossed.Number(last, "diagonal_travel_mm"),
                ToNumber(Value(limits, "crossed", "crossed +", "diagonal_travel")), 1e-5);
  }
}

TEST(LimitsCommand, AWishForTravelChangesThePartsAndNotWhatIsFound) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet plain = RunToSheet({"limits", van});
  const Sheet wished = RunToSheet({"limits", van, "--bump", "60", "--droop", "3 in"});
  EXPECT_EQ(Value(plain, "travel", "rear bump", "travel"),
            Value(wished, "travel", "rear bump", "travel"));
  EXPECT_NEAR(ToNumber(Value(wished, "travel", "rear bump", "wanted")), 60.0, 1e-9);
  EXPECT_NEAR(ToNumber(Value(wished, "travel", "rear droop", "wanted")), -76.2, 1e-9);
  const Sheet split = RunToSheet({"limits", van, "--split", "40"});
  const double bump = ToNumber(Value(split, "travel", "front bump", "wanted"));
  const double droop = ToNumber(Value(split, "travel", "front droop", "wanted"));
  EXPECT_NEAR(bump / (bump - droop), 0.4, 1e-9);
}

// What is found does not change with a wish, so that a line of it must not pass for the plan's.
TEST(LimitsCommand, SaysWhichFindingsAreOfTheTravelFoundWhereAnotherIsWanted) {
  const std::string van = VehiclePath("harbour_van");
  const auto lines = [](const std::string& out, const std::string& part) {
    std::vector<std::string> found;
    std::istringstream all(out);
    for (std::string line; std::getline(all, line);) {
      if (line.find(part) != std::string::npos) found.push_back(line);
    }
    return found;
  };
  const std::string plain = RunProgram({"limits", van}).out;
  const std::string wished = RunProgram({"limits", van, "--bump", "60", "--droop", "75"}).out;
  EXPECT_EQ(plain.find("as found"), std::string::npos);
  EXPECT_NE(wished.find("lines that say 'as found' are of the vehicle as the file has it"),
            std::string::npos);
  EXPECT_FALSE(
      lines(plain, "look at this: the rear axle: the damper is the stop in droop").empty());
  EXPECT_TRUE(lines(wished, "look at this: the rear axle: the damper is").empty());
  EXPECT_FALSE(
      lines(wished, "look at this: as found, the rear axle: the damper is the stop").empty());
  for (const std::string& line : lines(wished, "look at this: ")) {
    const bool found = line.find(" as found, ") != std::string::npos;
    const bool plan =
        line.find("wanted") != std::string::npos || line.find("as advised") != std::string::npos;
    EXPECT_NE(found, plan) << line;
  }
}

TEST(LimitsCommand, RefusesWishesThatDoNotGoTogether) {
  const std::string van = VehiclePath("harbour_van");
  const auto error = [&](std::vector<std::string> options) {
    options.insert(options.begin(), {"limits", van});
    const Outcome outcome = RunProgram(options);
    EXPECT_EQ(outcome.exit, 2);
    return outcome.err;
  };
  EXPECT_EQ(error({"--split", "40", "--bump", "60"}),
            "linkwright: --split shares the travel as found; it does not go with --bump and "
            "--droop\n");
  EXPECT_EQ(error({"--split", "100"}),
            "linkwright: --split: the share of bump in percent is wanted, between 0 and 100\n");
  EXPECT_EQ(error({"--bump", "0"}),
            "linkwright: --bump: '0' is out of range; wanted: more than 0 mm, at most 2000 mm\n");
  EXPECT_NE(error({"--load", "hay"}).find("--load: no load is called 'hay'"), std::string::npos);
  EXPECT_EQ(RunProgram({"limits", VehiclePath("bare_frame"), "--load", "empty"}).err,
            "linkwright: --load: the file has no masses, so it stands as measured\n");
}

TEST(LimitsCommand, AStrapEndsDroopThereAsInASweep) {
  const Folder folder;
  const std::string path =
      WriteVariant(folder,
                   "add:\n  axles.rear.straps: {band: {pair: true, frame: [-2540, 300, 650], axle: "
                   "[-2540, 300, 400], length: 275}}\nremove: [openings]\n");
  const Sheet limits = RunToSheet({"limits", path});
  EXPECT_NE(Value(limits, "travel", "rear droop", "ended_by").find("band"), std::string::npos);
  const Sheet sweep = RunToSheet({"sweep", path});
  const size_t first = RowsOf(sweep, "rear_housing_pitch_deg").first;
  EXPECT_NEAR(sweep.Number(first, "travel_mm"),
              ToNumber(Value(limits, "travel", "rear droop", "travel")), 1e-6);
}

TEST(LimitsCommand, WarnsOfADamperThatIsTheStopAndSaysWhatItDoesNotWatch) {
  const std::string van = VehiclePath("harbour_van");
  const Outcome outcome = RunProgram({"limits", van});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_NE(outcome.out.find("look at this: the rear axle: the damper is the stop in droop"),
            std::string::npos)
      << outcome.out;
  EXPECT_NE(outcome.out.find("not watched for want of data: joints of links"), std::string::npos);
  EXPECT_NE(outcome.out.find("Coils hold energy"), std::string::npos);
  EXPECT_EQ(RunProgram({"limits", van, "--strict"}).exit, 1);
}

TEST(LimitsCommand, ShowsInchesWithSixteenths) {
  const Outcome outcome = RunProgram({"limits", VehiclePath("orchard_tractor_truck")});
  EXPECT_NE(outcome.out.find("/16)"), std::string::npos);
}

TEST(LimitsCommand, EveryLimitOfTheFileChangesWhatIsPointedAt) {
  // Each key once so that nothing can meet it and once so that everything does: its sentence comes
  // and goes.
  struct Case {
    const char *key, *strict, *loose, *sentence;
  };
  const std::vector<Case> cases{
      {"bump_left", "900", "0", "at rest, less than 900.0 mm: "},
      {"damper_left", "900", "0",
       "left at rest before damper left is fully closed, less than 900.0 mm"},
      {"damper_reserve", "900", "0", "left before its end in bump"},
      {"slip_at_bump", "900", "0", "left before it bottoms in "},
      {"slip_at_droop", "900", "0", "left before it parts in "},
      {"joint_reserve", "80 deg", "0", "left before its misalignment limit in "},
      {"tire_clearance", "900", "0", ", less than 900.0 mm (no lip_y"},
      {"coil_preload", "900", "0", "of preload in the wanted travel, aim 900.0 mm or more"},
      {"coil_gap", "900", "0",
       "left before it is solid in the wanted travel, aim 900.0 mm or more"}};
  for (const Case& each : cases) {
    const auto out = [&](const char* value) {
      const Folder folder;
      return RunProgram({"limits",
                         WriteVariant(folder, std::string("add:\n  axles.rear.links.track "
                                                          "bar.misalignment_limit: 20\n  aims: {") +
                                                  each.key + ": " + value + "}\n")})
          .out;
    };
    EXPECT_NE(out(each.strict).find(each.sentence), std::string::npos) << each.key;
    EXPECT_EQ(out(each.loose).find(each.sentence), std::string::npos) << each.key;
  }
}

TEST(LimitsCommand, AReserveIsWhatDampersAreOrderedWith) {
  const auto stroke = [](const char* reserve) {
    const Folder folder;
    const std::string path =
        WriteVariant(folder, std::string("add:\n  aims: {damper_reserve: ") + reserve + "}\n");
    return ToNumber(Value(RunToSheet({"limits", path}), "dampers", "rear damper left", "stroke"));
  };
  EXPECT_NEAR(stroke("20") - stroke("5"), 2.0 * 15.0, 1e-9);
}

TEST(LimitsCommand, SaysWhatIsInTheWayOfAWishAndByHowMuch) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet found = RunToSheet({"limits", van});
  const double coil = ToNumber(Value(found, "rear ends", "coil left bound", "bump"));
  const Sheet sheet = RunToSheet({"limits", van, "--bump", "150", "--droop", "60"});
  const std::string row = "rear bump: coil left bound";
  EXPECT_NEAR(ToNumber(Value(sheet, "in the way", row, "at")), coil, 1e-9);
  EXPECT_NEAR(ToNumber(Value(sheet, "in the way", row, "short_by")), 150.0 - coil, 1e-9);
  const std::string out = RunProgram({"limits", van, "--bump", "150", "--droop", "60"}).out;
  EXPECT_NE(out.find(" short of the 150.0 mm of wheel travel that is wanted; "), std::string::npos);
  // Crossed too: every way has its row.
  EXPECT_NE(out.find("rear crossed +: "), std::string::npos);
}

TEST(LimitsCommand, SaysWhichPartsTheFileHasNoneOf) {
  const Folder folder;
  const std::string out =
      RunProgram({"limits", WriteVariant(folder, "remove: [axles.rear.bump_stops]\n")}).out;
  EXPECT_TRUE(HasLine(out,
                      "look at this: the rear axle: no bump stop is in the file, so that something "
                      "else ends bump"));
  EXPECT_TRUE(HasLine(out, "rear: the file has no strap, so that something else must end droop"));
  EXPECT_EQ(out.find("front: the file has no bump stop"), std::string::npos);
}

TEST(LimitsCommand, WhereNothingEndsTravelItSaysSoAndGivesNoMargin) {
  const Folder folder;
  const std::string path =
      WriteVariant(folder,
                   "remove: [openings, driveshafts, axles.rear.bump_stops, axles.rear.dampers, "
                   "axles.rear.springs.coil.solid_length]\n");
  const Outcome outcome = RunProgram({"limits", path});
  EXPECT_TRUE(HasLine(outcome.out, "rear bump: nothing in the file ends it"));
  EXPECT_TRUE(HasLine(outcome.out, "rear droop: nothing in the file ends it"));
  const Sheet sheet = RunToSheet({"limits", path});
  EXPECT_EQ(Value(sheet, "travel", "rear bump", "travel"), "");
  EXPECT_EQ(Value(sheet, "travel", "rear bump", "ended_by"), "nothing in the file");
}

TEST(LimitsCommand, PrintsNoTableWiderThanAPage) {
  for (const std::string& vehicle : kVehicles) {
    for (const char* units : {"metric", "inch"}) {
      const std::string out = RunProgram({"limits", VehiclePath(vehicle), "--units", units}).out;
      for (const std::string& line : Lines(out)) {
        if (!line.starts_with("  ")) continue;
        EXPECT_LE(line.size(), 100U) << line;
      }
    }
  }
}

TEST(LimitsCommand, FilesSayWhichLoadTheyAreFor) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(Value(RunToSheet({"limits", van}), "standing", "at rest", "load"), "empty");
  EXPECT_EQ(Value(RunToSheet({"limits", VehiclePath("bare_frame")}), "standing", "at rest", "load"),
            "as measured");
  EXPECT_NE(RunToJson({"limits", van}).find("\"standing\""), std::string::npos);
}

TEST(LimitsCommand, EveryThingHasWhatIsLeftAtRestAtBothEndsAndCrossed) {
  const Sheet sheet = RunToSheet({"limits", VehiclePath("harbour_van")});
  for (const char* what : {"damper left closed", "damper right open", "coil left bound",
                           "coil right unseated (passed)", "cone left solid",
                           "tyre left at the lip", "rear driveshaft parted"}) {
    for (const char* where : {"rest", "bump", "droop", "crossed_up", "crossed_down"}) {
      EXPECT_TRUE(std::isfinite(ToNumber(Value(sheet, "rear margins", what, where)))) << what;
    }
  }
  // Where bump ends the first has nothing left, and at the first of the two axles' ends crossed.
  const std::string ender = Value(sheet, "travel", "rear bump", "ended_by");
  EXPECT_NEAR(ToNumber(Value(sheet, "rear margins", ender, "bump")), 0.0, 1e-5);
}

TEST(LimitsCommand, JsonHoldsItsTables) {
  const std::string json = RunToJson({"limits", VehiclePath("harbour_van")});
  for (const char* name : {"\"limits\"", "\"travel\"", "\"dampers\"", "\"rear margins\""}) {
    EXPECT_NE(json.find(name), std::string::npos) << name;
  }
}

// One way across the front links line up at 35.26 deg, sooner than the rear damper is open at
// 37.75: no pose beyond is told of, and nothing in the file ends that crossing.
TEST(LimitsCommand, ACrossingGoesNoFartherThanBothAxlesLinksFollow) {
  const std::string file =
      std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/hard/limits_cross_far.yaml";
  const Sheet sheet = RunToSheet({"limits", file});
  EXPECT_EQ(Value(sheet, "crossed", "crossed +", "ended_by"), "nothing in the file");
  EXPECT_EQ(Value(sheet, "crossed", "crossed +", "diagonal_travel"), "");
  EXPECT_EQ(Value(sheet, "crossed", "crossed -", "ended_by"), "rear damper left open");
  const auto number = [&](const char* quantity) {
    return ToNumber(Value(sheet, "crossed", "crossed -", quantity));
  };
  EXPECT_NEAR(-number("diagonal_travel"),
              number("front_wheel_travel") + number("rear_wheel_travel"), 1e-6);
}

}  // namespace
}  // namespace linkwright::check
