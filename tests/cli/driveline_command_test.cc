// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

bool Has(const Outcome& outcome, const std::string& text) {
  return outcome.out.find(text) != std::string::npos;
}

TEST(DrivelineCommand, SaysGoodOrBadAndWhatToTurn) {
  const Folder folder;
  const std::string file =
      folder.Write("threaded.yaml", "base: " + VehiclePath("harbour_van") +
                                        "\nadd:\n  axles.rear.links.upper arm.thread: 2\n"
                                        "change:\n  axles.rear.pinion.angle: 0\n");
  const Outcome outcome = RunProgram({"driveline", file});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(
      Has(outcome, "look at this: the rear shaft: the pinion's yoke end has to come 3.46 deg up"))
      << outcome.out;
  EXPECT_TRUE(Has(outcome, "turns of its adjuster")) << outcome.out;
  EXPECT_EQ(RunProgram({"driveline", file, "--strict"}).exit, 1);
}

struct ShaftLimit {
  const char *key, *tight, *wide, *text;
};

// Each limit by itself: set tight its finding is there, set wide it is not.
TEST(DrivelineCommand, EveryLimitIsTheFiles) {
  for (const ShaftLimit& limit :
       {ShaftLimit{"joint_least", "40 deg", "0", "its needles do not turn"},
        ShaftLimit{"joint_most", "0", "45 deg", "deg at rest, above"},
        ShaftLimit{"pair_differ", "0", "45 deg", "its two joints differ by"},
        ShaftLimit{"torsional", "1e-6", "1e9", "torsional acceleration at rest"},
        ShaftLimit{"inertial", "1e-6", "1e9", "inertial acceleration at rest"},
        ShaftLimit{"angle_at_speed", "0.001", "45", "that go with"},
        ShaftLimit{"bottom_least", "500", "0", "of its slip are left before it bottoms"},
        ShaftLimit{"part_least", "500", "0", "of its slip are left before it parts"}}) {
    for (const bool tight : {true, false}) {
      const Folder folder;
      const std::string file = folder.Write(
          "limit.yaml", "base: " + VehiclePath("harbour_van") +
                            "\nchange:\n  driveshafts.rear.slip: 120\n"
                            "add:\n  driveshafts.rear.aims: {" +
                            limit.key + ": " + (tight ? limit.tight : limit.wide) + "}\n");
      const std::vector<std::string> lines = Lines(RunProgram({"driveline", file}).out);
      const bool found = std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
        return line.starts_with("look at this: ") && line.find(limit.text) != std::string::npos;
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
                                      "rear speed", "rear turn", "rear torque", "rear order"}));
}

TEST(DrivelineCommand, JsonHasRowsWithUnits) {
  const auto json =
      nlohmann::json::parse(RunToJson({"driveline", VehiclePath("orchard_tractor_truck")}));
  EXPECT_EQ(json["command"], "driveline");
  const auto& order = json["rear order"]["rows"][0];
  EXPECT_GT(order["most_length_in"].get<double>(), order["least_length_in"].get<double>());
  EXPECT_GT(json["notes"].size(), 5U);
}

TEST(DrivelineCommand, EveryShaftHasItsTables) {
  const Outcome outcome = RunProgram({"driveline", VehiclePath("fire_patrol")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "\nfront joints\n"));
  EXPECT_TRUE(Has(outcome, "\nrear joints\n"));
  // Its front yoke stands behind the wheels and goes down under power.
  EXPECT_TRUE(Has(outcome, "to stand 1.50 deg high of the least net angle")) << outcome.out;
}

TEST(DrivelineCommand, GeometryAloneStandsAsMeasured) {
  const Outcome outcome = RunProgram({"driveline", VehiclePath("bare_frame")});
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
  EXPECT_TRUE(Has(outcome, "centre bearing  single")) << outcome.out;
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

}  // namespace
}  // namespace linkwright::check
