// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

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

// The words of all findings that are past their aims.
std::vector<std::string> FindingsOf(const std::vector<std::string>& arguments) {
  const auto json = nlohmann::json::parse(RunToJson(arguments));
  std::vector<std::string> words;
  for (const auto& row : json["findings"]["rows"]) {
    if (row["past"] == "yes") words.push_back(row["words"]);
  }
  return words;
}

size_t CountWith(const std::vector<std::string>& lines, const std::string& part) {
  return static_cast<size_t>(
      std::count_if(lines.begin(), lines.end(),
                    [&](const std::string& line) { return line.find(part) != std::string::npos; }));
}

std::string Full(std::vector<std::string> arguments) {
  arguments.emplace_back("--full");
  return Flat(RunProgram(arguments).out);
}

// What is found does not change with a wish, so that a line of it must not pass for the plan's.
TEST(LimitsCommand, SaysWhichFindingsAreOfTheTravelFoundWhereAnotherIsWanted) {
  const std::string van = VehiclePath("harbour_van");
  const std::vector<std::string> wish{"limits", van, "--bump", "60", "--droop", "75"};
  const std::vector<std::string> plain = FindingsOf({"limits", van}), wished = FindingsOf(wish);
  EXPECT_EQ(CountWith(plain, "as found"), 0U);
  EXPECT_NE(Full(wish).find("lines that say 'as found' are of the vehicle as the file has it"),
            std::string::npos);
  const std::string stops = "rear damper left: it is fully open and stops the axle at full droop";
  EXPECT_EQ(CountWith(plain, stops), 1U);
  EXPECT_EQ(CountWith(wished, "as found, " + stops), 1U);
  for (const std::string& line : wished) {
    const bool found = line.starts_with("as found, ");
    const bool plan =
        line.find("asked for") != std::string::npos || line.find("as advised") != std::string::npos;
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
  const Outcome outcome = RunProgram({"limits", van, "--full"});
  EXPECT_EQ(outcome.exit, 0);
  const std::string out = Flat(outcome.out);
  EXPECT_NE(out.find("- rear damper left: stops the axle 113 mm down, wants a strap"),
            std::string::npos)
      << out;
  EXPECT_NE(out.find("not looked at, for the file does not give it: joints of links"),
            std::string::npos);
  EXPECT_NE(out.find("Coils hold energy"), std::string::npos);
  EXPECT_EQ(RunProgram({"limits", van, "--strict"}).exit, 1);
}

TEST(LimitsCommand, ShowsInchesWithSixteenths) {
  const Outcome outcome = RunProgram({"limits", VehiclePath("orchard_tractor_truck")});
  EXPECT_NE(outcome.out.find("/16 in"), std::string::npos);
}

TEST(LimitsCommand, EveryLimitOfTheFileChangesWhatIsPointedAt) {
  // Each key so that nothing can meet it, the others so that everything does: its own sentence is
  // there and none of theirs.
  struct Case {
    const char *key, *strict, *sentence;
  };
  const std::vector<Case> cases{
      {"bump_left", "900", "mm of bump is left, less than 900 mm: "},
      {"damper_left", "900", "short of fully closed, less than 900 mm: "},
      {"damper_reserve", "900", "is left in it at full bump"},
      {"slip_at_bump", "900", "of its slip is left before it bottoms at "},
      {"slip_at_droop", "900", "of its slip is left before it parts at "},
      {"joint_reserve", "80 deg", "of misalignment left at "},
      {"tire_clearance", "900", "it comes as near as "},
      {"coil_preload", "900", "less than 900 mm, where it is longest in the travel asked for"},
      {"coil_gap", "900", "is left before it is solid in the travel asked for, less than 900 mm"}};
  for (const Case& strict : cases) {
    std::string aims;
    for (const Case& each : cases) {
      aims += fmt::format("{}{}: {}", aims.empty() ? "" : ", ", each.key,
                          each.key == strict.key ? each.strict : "0");
    }
    const Folder folder;
    const std::string out = Full({"limits", WriteVariant(folder,
                                                         "add:\n  axles.rear.links.track "
                                                         "bar.misalignment_limit: 20\n  aims: {" +
                                                             aims + "}\n")});
    for (const Case& each : cases) {
      EXPECT_EQ(out.find(each.sentence) != std::string::npos, each.key == strict.key)
          << each.key << " under " << strict.key;
    }
  }
}

TEST(LimitsCommand, AReserveIsWhatDampersAreOrderedWith) {
  const auto stroke = [](const char* reserve) {
    const Folder folder;
    const std::string path =
        WriteVariant(folder, std::string("add:\n  aims: {damper_reserve: ") + reserve + "}\n");
    return ToNumber(Value(RunToSheet({"limits", path}), "dampers", "rear damper, both", "stroke"));
  };
  EXPECT_NEAR(stroke("20") - stroke("5"), 2.0 * 15.0, 1e-9);
}

TEST(LimitsCommand, SaysWhatIsInTheWayOfAWishAndByHowMuch) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet found = RunToSheet({"limits", van});
  const double coil = ToNumber(Value(found, "rear ends", "coil left bound", "bump"));
  const std::vector<std::string> wish{"limits",  van,  "--bump", "150",
                                      "--droop", "60", "--load", "empty"};
  const Sheet sheet = RunToSheet(wish);
  const std::string row = "rear bump: coil left bound";
  EXPECT_NEAR(ToNumber(Value(sheet, "in the way", row, "at")), coil, 1e-9);
  EXPECT_NEAR(ToNumber(Value(sheet, "in the way", row, "short_by")), 150.0 - coil, 1e-9);
  const std::string out = Full(wish);
  EXPECT_NE(out.find(" short of the 150 mm of wheel travel asked for; "), std::string::npos);
  // Crossed too: every way has its row.
  EXPECT_NE(out.find("rear crossed +: "), std::string::npos);
}

TEST(LimitsCommand, SaysWhichPartsTheFileHasNoneOf) {
  const Folder folder;
  const std::string out =
      Full({"limits", WriteVariant(folder, "remove: [axles.rear.bump_stops]\n")});
  EXPECT_NE(out.find("- rear axle: no bump stop in the file, something else ends bump"),
            std::string::npos);
  EXPECT_NE(out.find("- rear: the file has no strap, so that something else must end droop"),
            std::string::npos);
  EXPECT_EQ(out.find("front: the file has no bump stop"), std::string::npos);
}

TEST(LimitsCommand, WhereNothingEndsTravelItSaysSoAndGivesNoMargin) {
  const Folder folder;
  const std::string path =
      WriteVariant(folder,
                   "remove: [openings, driveshafts, axles.rear.bump_stops, axles.rear.dampers, "
                   "axles.rear.springs.coil.solid_length]\n");
  const std::string out = Full({"limits", path});
  EXPECT_NE(out.find("- rear bump: nothing in the file ends it"), std::string::npos);
  EXPECT_NE(out.find("- rear droop: nothing in the file ends it"), std::string::npos);
  EXPECT_NE(out.find("at the rear nothing in the file ends bump; nothing in the file ends droop."),
            std::string::npos);
  const Sheet sheet = RunToSheet({"limits", path});
  EXPECT_EQ(Value(sheet, "travel", "rear bump", "travel"), "");
  EXPECT_EQ(Value(sheet, "travel", "rear bump", "ended_by"), "nothing in the file");
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
                           "coil right off its seat (ends nothing)", "cone left solid",
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

// The answer, before any table.
std::vector<std::string> Said(const std::vector<std::string>& arguments) {
  return nlohmann::json::parse(RunToJson(arguments))["answer"];
}

TEST(LimitsCommand, AnswersFirstWithTheNumbersOfItsTables) {
  const std::vector<std::string> run{"limits", VehiclePath("harbour_van")};
  const Sheet sheet = RunToSheet(run);
  const std::string said = Flat(fmt::format("{}", fmt::join(Said(run), " ")));
  const auto millimetres = [&](const char* table, const char* row, const char* quantity) {
    return fmt::format("{:.0f} mm", std::abs(ToNumber(Value(sheet, table, row, quantity))));
  };
  for (const std::string& part :
       {"Under 'empty' it has in front " + millimetres("travel", "front bump", "travel") +
            " of bump until tyre left touches its opening; " +
            millimetres("travel", "front droop", "travel") +
            " of droop until damper left is fully "
            "open.",
        std::string("A stop should end bump and a strap droop first; none does here."),
        "front at most " + millimetres("dampers", "front damper, both", "closed") +
            " closed, at least " + millimetres("dampers", "front damper, both", "open") + " open",
        "rear " + millimetres("stops", "rear cone, both", "spacer") + " taller.",
        "rear " + millimetres("straps", "rear beside damper, both", "length") + "."}) {
    EXPECT_NE(said.find(part), std::string::npos) << part << "\n" << said;
  }
  // It stands before the tables.
  const std::string out = RunProgram(run).out;
  EXPECT_LT(out.find("Under 'empty' it has in front"), out.find("\ntravel\n"));
}

TEST(LimitsCommand, OrdersForTheWorstOfAllLoadsOrForOneAlone) {
  const std::string van = VehiclePath("harbour_van");
  const std::vector<std::string> wish{"limits", van, "--bump", "75", "--droop", "60"};
  const auto under = [&](const char* load) {
    std::vector<std::string> asked = wish;
    asked.insert(asked.end(), {"--load", load});
    return RunToSheet(asked);
  };
  const Sheet all = RunToSheet(wish);
  double lowest = 1e9, longest = 0.0;
  for (const char* load : {"empty", "driver", "deliveries"}) {
    const Sheet one = under(load);
    EXPECT_EQ(Value(one, "stops", "rear cone, both", "under"), load);
    lowest = std::min(lowest, ToNumber(Value(one, "stops", "rear cone, both", "solid_height")));
    longest =
        std::max(longest, ToNumber(Value(one, "straps", "rear beside damper, both", "length")));
  }
  EXPECT_NEAR(ToNumber(Value(all, "stops", "rear cone, both", "solid_height")), lowest, 1e-3);
  EXPECT_NEAR(ToNumber(Value(all, "straps", "rear beside damper, both", "length")), longest, 1e-3);
  // The load that presses it down most leaves the least room for a stop, the lightest hangs lowest.
  EXPECT_EQ(Value(all, "stops", "rear cone, both", "under"), "deliveries");
  EXPECT_EQ(Value(all, "straps", "rear beside damper, both", "under"), "empty");
  EXPECT_NE(Flat(RunProgram(wish).out)
                .find("Parts are ordered for 75 mm of bump and 60 mm of droop under every load"),
            std::string::npos);
  std::vector<std::string> alone = wish;
  alone.insert(alone.end(), {"--load", "driver"});
  EXPECT_NE(
      Flat(RunProgram(alone).out).find("under 'driver' alone; without --load for every load."),
      std::string::npos);
}

// A load that no stop does for keeps the others from theirs, and is named.
TEST(LimitsCommand, NamesTheLoadThatNoStopGivesTheTravelUnder) {
  const Folder folder;
  const std::string path = WriteVariant(folder, "remove: [openings]\n");
  const auto said = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"limits", path, "--bump", "60", "--droop", "55"});
    return Flat(RunProgram(more).out);
  };
  EXPECT_NE(said({}).find(
                "no stop gives that under 'deliveries': want less bump, or order for another load"),
            std::string::npos);
  EXPECT_NE(said({"--load", "driver"}).find("rear 9 mm lower."), std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
