// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

bool Has(const Outcome& outcome, const std::string& text) {
  return Flat(outcome.out).find(text) != std::string::npos;
}

TEST(DrivelineCommand, SaysGoodOrBadAndWhatToTurn) {
  const Folder folder;
  const std::string file =
      folder.Write("threaded.yaml", "base: " + VehiclePath("harbour_van") +
                                        "\nadd:\n  axles.rear.links.upper arm.thread: 2\n"
                                        "change:\n  axles.rear.pinion.angle: 0\n");
  const Outcome outcome = RunProgram({"driveline", file, "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(HasLine(outcome.out, "- rear driveshaft: pinion yoke 3.5 deg too low at rest"))
      << outcome.out;
  EXPECT_TRUE(Has(outcome, "the pinion's yoke end has to come 3.5 deg up")) << outcome.out;
  EXPECT_TRUE(Has(outcome, "the pinion's yoke end comes 3.5 deg up")) << outcome.out;
  EXPECT_TRUE(Has(outcome, " turns), left and right alike: ")) << outcome.out;
  EXPECT_EQ(RunProgram({"driveline", file, "--strict"}).exit, 1);
}

struct ShaftLimit {
  const char *key, *tight, *wide, *text;
};

// Each limit by itself: set tight its finding is there, set wide it is not.
TEST(DrivelineCommand, EveryLimitIsTheFiles) {
  for (const ShaftLimit& limit :
       {ShaftLimit{"joint_least", "40 deg", "0", "its needles do not turn"},
        ShaftLimit{"joint_most", "0", "45 deg", "deg at rest, more than"},
        ShaftLimit{"pair_differ", "0", "45 deg", "its two joints differ by"},
        ShaftLimit{"torsional", "1e-6", "1e9", "torsional acceleration at rest"},
        ShaftLimit{"inertial", "1e-6", "1e9", "inertial acceleration at rest"},
        ShaftLimit{"angle_at_speed", "0.001", "45", "that go with"},
        ShaftLimit{"bottom_least", "500", "0", "of its slip is left before it bottoms"},
        ShaftLimit{"part_least", "500", "0", "of its slip is left before it parts"}}) {
    for (const bool tight : {true, false}) {
      const Folder folder;
      const std::string file = folder.Write(
          "limit.yaml", "base: " + VehiclePath("harbour_van") +
                            "\nchange:\n  driveshafts.rear.slip: 120\n"
                            "add:\n  driveshafts.rear.aims: {" +
                            limit.key + ": " + (tight ? limit.tight : limit.wide) + "}\n");
      const auto json = nlohmann::json::parse(RunToJson({"driveline", file}));
      const auto& rows = json["findings"]["rows"];
      const bool found = std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
        return row["past"] == "yes" &&
               row["words"].template get<std::string>().find(limit.text) != std::string::npos;
      });
      EXPECT_EQ(found, tight) << limit.key;
    }
  }
}

TEST(DrivelineCommand, CsvHoldsEveryTable) {
  const Sheet sheet = RunToSheet({"driveline", VehiclePath("harbour_van"), "--torque", "3000"});
  std::vector<std::string> tables;
  for (const CsvRecord& row : sheet.rows) {
    if (tables.empty() || tables.back() != row.at(0)) tables.push_back(row.at(0));
  }
  EXPECT_EQ(tables,
            (std::vector<std::string>{"standing", "rear slopes", "rear joints", "rear travel",
                                      "rear speed", "rear turn", "rear torque", "order"}));
}

TEST(DrivelineCommand, JsonHasRowsWithUnits) {
  const auto json =
      nlohmann::json::parse(RunToJson({"driveline", VehiclePath("orchard_tractor_truck")}));
  EXPECT_EQ(json["command"], "driveline");
  const auto& order = json["order"]["rows"][0];
  EXPECT_GT(order["most_length_in"].get<double>(), order["least_length_in"].get<double>());
  EXPECT_GT(json["notes"].size(), 5U);
}

TEST(DrivelineCommand, EveryShaftHasItsTables) {
  const Outcome outcome = RunProgram({"driveline", VehiclePath("fire_patrol"), "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(HasLine(outcome.out, "front joints"));
  EXPECT_TRUE(HasLine(outcome.out, "rear joints"));
  // Its front yoke stands behind the wheels and goes down under power.
  EXPECT_TRUE(Has(outcome, "to stand 1.5 deg high of the least equivalent joint angle"))
      << outcome.out;
}

TEST(DrivelineCommand, GeometryAloneStandsAsMeasured) {
  const Outcome outcome = RunProgram({"driveline", VehiclePath("bare_frame"), "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "rest is the measured stance"));
  EXPECT_TRUE(Has(outcome, "no speed: give --speed"));
  EXPECT_EQ(RunProgram({"driveline", VehiclePath("bare_frame"), "--load", "x"}).exit, 2);
}

TEST(DrivelineCommand, ATwoPieceShaftHasThreeJoints) {
  const Folder folder;
  const std::string file = folder.Write(
      "two.yaml", "base: " + VehiclePath("harbour_van") +
                      "\nadd:\n  driveshafts.rear.center_bearing: {at: [-1600, 0, 440]}\n");
  const Outcome outcome = RunProgram({"driveline", file});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(Has(outcome, "rear joints")) << outcome.out;
  for (const char* joint : {" output single ", " centre bearing single ", " pinion single "}) {
    EXPECT_TRUE(Has(outcome, joint)) << joint << outcome.out;
  }
  EXPECT_TRUE(Has(outcome, "between joint centres at rest and its front piece 471 mm"))
      << outcome.out;
  EXPECT_TRUE(RunToSheet({"sweep", file}).Has("driveshaft_center_joint_deg"));
}

TEST(DrivelineCommand, RefusesWhatItCannotUse) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(RunProgram({"driveline", van, "--speed", "-5"}).err,
            "linkwright: --speed: '-5' is out of range; wanted: more than 0 rpm\n");
  EXPECT_EQ(RunProgram({"driveline", van, "--torque", "5 mm"}).exit, 2);
  EXPECT_EQ(RunProgram({"driveline", van, "--load", "x"}).exit, 2);
  const Folder folder;
  const std::string none = folder.Write("none.yaml", "base: " + van + "\nremove: [driveshafts]\n");
  const Outcome outcome = RunProgram({"driveline", none});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("the file has no driveshafts"), std::string::npos) << outcome.err;
}

// The shafts of every load together are what is ordered; one alone is what it was.
TEST(DrivelineCommand, OrdersForTheWorstOfAllLoadsOrForOneAlone) {
  for (const char* name : {"harbour_van", "fire_patrol", "orchard_tractor_truck"}) {
    const std::string file = VehiclePath(name);
    const auto order = [&](std::vector<std::string> more) {
      more.insert(more.begin(), {"driveline", file, "--units", "metric"});
      return nlohmann::json::parse(RunToJson(more))["order"]["rows"];
    };
    const auto all = order({});
    const auto loads = nlohmann::json::parse(RunToJson({"settle", file}))["stances"]["rows"];
    ASSERT_GT(loads.size(), 1U);
    for (size_t shaft = 0; shaft < all.size(); ++shaft) {
      double least = 1e9, most = 0.0, bottom = 1e9, part = 1e9;
      for (const auto& load : loads) {
        const auto one = order({"--load", load["load"].get<std::string>()})[shaft];
        least = std::min(least, one["least_length_mm"].get<double>());
        most = std::max(most, one["most_length_mm"].get<double>());
        bottom = std::min(bottom, one["to_bottom_mm"].get<double>());
        part = std::min(part, one["to_part_mm"].get<double>());
      }
      constexpr double kSame = 1e-4;  // [mm]
      EXPECT_NEAR(all[shaft]["least_length_mm"].get<double>(), least, kSame) << name;
      EXPECT_NEAR(all[shaft]["most_length_mm"].get<double>(), most, kSame) << name;
      EXPECT_NEAR(all[shaft]["to_bottom_mm"].get<double>(), bottom, kSame) << name;
      EXPECT_NEAR(all[shaft]["to_part_mm"].get<double>(), part, kSame) << name;
    }
  }
}

// This one's arms make the shaft longest at rest: what is left there is short, whatever the ends have.
TEST(DrivelineCommand, PointsAtASplineThatIsNearestToPartingAtRest) {
  for (const char* command : {"driveline", "check"}) {
    const std::string out = RunProgram({command, VehiclePath("harbour_van_lower_rear_arm")}).out;
    EXPECT_NE(out.find("- rear driveshaft: 27 mm"), std::string::npos) << out;
  }
}

}  // namespace
}  // namespace linkwright::check
