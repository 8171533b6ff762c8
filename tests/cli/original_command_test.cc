// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

bool Has(const Outcome& outcome, const std::string& text) {
  return outcome.out.find(text) != std::string::npos;
}

// A variant of a vehicle with old springs: what `lines` changes.
std::string Changed(const Folder& folder, const std::string& base, const std::string& lines) {
  return folder.Write("changed.yaml", "base: " + VehiclePath(base) + "\n" + lines);
}

TEST(OriginalCommand, SaysHowFarTheOldAxlesMoved) {
  const Outcome outcome = RunProgram({"original", VehiclePath("harbour_van_old_springs")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(Has(outcome, "look at this: the old rear axle has moved 25.9 mm back and 74.9 mm up"))
      << outcome.out;
  EXPECT_TRUE(Has(outcome, "the old front axle has moved 5.4 mm forward"));
  EXPECT_TRUE(Has(outcome, "hold axle and leaf before"));
  EXPECT_EQ(RunProgram({"original", VehiclePath("harbour_van_old_springs"), "--strict"}).exit, 1);
}

TEST(OriginalCommand, OneSpringIsEnoughOnAnotherLinkSet) {
  const Outcome outcome = RunProgram({"original", VehiclePath("coast_taxi_old_springs")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "the old rear axle has moved 1.02 in back")) << outcome.out;
  EXPECT_TRUE(Has(outcome, "assumed: the front axle, whose spring is not given, has not moved"));
  EXPECT_TRUE(Has(outcome, "without leaf_original.datum"));
}

TEST(OriginalCommand, JsonAndCsvHoldEveryTable) {
  const auto json =
      nlohmann::json::parse(RunToJson({"original", VehiclePath("harbour_van_old_springs")}));
  EXPECT_EQ(json["front axle"]["rows"].size(), 4U);
  EXPECT_EQ(json["rear camber"]["rows"].size(), 7U);
  EXPECT_EQ(json["openings"]["rows"].size(), 2U);
  EXPECT_NEAR(json["rear axle"]["rows"][2]["wheel_x_mm"].get<double>(), -25.851445, 1e-6);
  const Sheet sheet = RunToSheet({"original", VehiclePath("harbour_van_old_springs")});
  std::vector<std::string> tables;
  for (const CsvRecord& row : sheet.rows) {
    if (tables.empty() || tables.back() != row.at(0)) tables.push_back(row.at(0));
  }
  EXPECT_EQ(tables, (std::vector<std::string>{"front axle", "front camber", "rear axle",
                                              "rear camber", "wheelbase", "openings"}));
}

TEST(OriginalCommand, UnitsDoNotChangeTheAnswer) {
  const auto inch = nlohmann::json::parse(
      RunToJson({"original", VehiclePath("harbour_van_old_springs"), "--units", "inch"}));
  EXPECT_NEAR(inch["rear axle"]["rows"][2]["wheel_x_in"].get<double>() * 25.4, -25.851445, 1e-6);
}

TEST(OriginalCommand, ReadingsThatDisagreeArePointedAt) {
  const Folder folder;
  const Outcome outcome = RunProgram(
      {"original", Changed(folder, "harbour_van_old_springs",
                           "change:\n  leaf_original.rear.eyes_now: 1290\n"
                           "  leaf_original.wheelbase_now: 2630\n  leaf_original.front.camber_now: "
                           "100\n  leaf_original.rear.opening: [-2540, 373]\n")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "look at this: the rear spring from eye to eye now")) << outcome.out;
  EXPECT_TRUE(Has(outcome, "look at this: the wheelbase now"));
  EXPECT_TRUE(Has(outcome, "look at this: the front spring has more camber now than when new"));
  EXPECT_TRUE(Has(outcome, "would have centred it"));
}

struct LeafLimit {
  const char *key, *tight, *wide, *text;
};

TEST(OriginalCommand, EveryLimitIsTheFiles) {
  for (const LeafLimit& limit :
       {LeafLimit{"off_center", "1", "500", "look at this: the old rear axle has moved"},
        LeafLimit{"eyes_differ", "0", "500", "look at this: the rear spring from eye to eye now"},
        LeafLimit{"wheelbase_differ", "0", "500", "look at this: the wheelbase now"},
        LeafLimit{"spacing", "0", "500", "look at this: the file's openings are"},
        LeafLimit{"swing_least", "89", "0", "look at this: the rear shackle lies only"}}) {
    for (const bool tight : {true, false}) {
      const Folder folder;
      const std::string file =
          Changed(folder, "harbour_van_old_springs",
                  "change:\n  leaf_original.rear.eyes_now: 1290\n"
                  "  leaf_original.wheelbase_now: 2630\nadd:\n  leaf_original.aims: {" +
                      std::string(limit.key) + ": " + (tight ? limit.tight : limit.wide) + "}\n");
      EXPECT_EQ(Has(RunProgram({"original", file}), limit.text), tight) << limit.key;
    }
  }
}

TEST(OriginalCommand, AFileWithoutOldSpringsIsUnusable) {
  const Outcome outcome = RunProgram({"original", VehiclePath("bare_frame")});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_TRUE(outcome.err.find("no leaf springs of the old vehicle") != std::string::npos)
      << outcome.err;
}

TEST(OriginalCommand, AShackleThatCannotReachIsShownInTheFile) {
  const Folder folder;
  const std::string file =
      Changed(folder, "harbour_van_old_springs", "change:\n  leaf_original.rear.camber_new: 500\n");
  const Outcome outcome = RunProgram({"original", file});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_TRUE(outcome.err.find("leaf_original.rear.camber_new: ") != std::string::npos)
      << outcome.err;
}

// Moving a bracket does what mechanics says: a longer shackle drops its eye, turns the leaf nose up
// and swings the axle below it.
TEST(OriginalCommand, ALongerShackleTiltsTheLeaf) {
  const Folder folder;
  const auto before =
      nlohmann::json::parse(RunToJson({"original", VehiclePath("harbour_van_old_springs")}));
  const auto after = nlohmann::json::parse(
      RunToJson({"original", Changed(folder, "harbour_van_old_springs",
                                     "change:\n  leaf_original.rear.shackle_length: 115\n")}));
  const auto now = [](const nlohmann::json& json, const char* key) {
    return json["rear axle"]["rows"][1][key].get<double>();
  };
  EXPECT_GT(now(after, "tilt_deg"), now(before, "tilt_deg"));
  EXPECT_LT(now(after, "wheel_z_mm"), now(before, "wheel_z_mm"));
}

}  // namespace
}  // namespace linkwright::check
