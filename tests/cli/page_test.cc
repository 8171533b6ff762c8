// SPDX-License-Identifier: MIT
// The page to start from: its words, its load, how it is asked for. On every vehicle it is looked
// at in every_answer_test.cc, and held against the other commands in no_contradiction_test.cc.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Json = nlohmann::ordered_json;

Json JsonOf(const std::vector<std::string>& arguments) { return Json::parse(RunToJson(arguments)); }

TEST(Page, SaysWhereTheVanStandsAndWhatEndsItsTravel) {
  const std::string out = Flat(RunProgram({VehiclePath("harbour_van")}).out);
  for (const char* words :
       {"Under 'empty' it stands 8 mm higher in front and 20 mm lower at the rear than measured, "
        "nose up 0.6 deg, wheelbase 2541 mm; front wheels 9 mm back and 11 mm low, rear wheels 6 "
        "mm ahead and 9 mm high in their openings.",
        "the front axle has 62 mm of bump, then tyre left touches its opening; 80 mm of droop, "
        "then damper left is fully open."}) {
    EXPECT_NE(out.find(words), std::string::npos) << words << "\n" << out;
  }
}

TEST(Page, StandsUnderTheLoadAskedFor) {
  const std::string van = VehiclePath("harbour_van");
  const Json page = JsonOf({van, "--load", "deliveries"});
  EXPECT_EQ(page["standing"]["rows"][0]["load"], "deliveries");
  EXPECT_EQ(page["stances"]["rows"].size(), 3U) << "where it stands is told under every load";
  const Json limits = JsonOf({"limits", van, "--load", "deliveries"});
  EXPECT_EQ(page["travel"]["rows"][2]["travel_mm"], limits["travel"]["rows"][2]["travel_mm"]);
  EXPECT_EQ(RunProgram({van, "--load", "nobody"}).exit, 2);
}

TEST(Page, OptionsMayStandBeforeTheFile) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(RunProgram({"--units", "inch", van}).out, RunProgram({van, "--units", "inch"}).out);
  EXPECT_EQ(RunProgram({"page", van}).out, RunProgram({van}).out);
}

TEST(Page, AFileThatIsNotThereIsNamedAndAMisspeltCommandIsAsked) {
  EXPECT_EQ(RunProgram({"nowhere/van.yaml"}).err, "nowhere/van.yaml: no such file\n");
  const Outcome outcome = RunProgram({"chek", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.err,
            "linkwright: there is no command and no vehicle file 'chek'; did you mean 'check'?\n");
}

TEST(Page, TakesAFileOfAnyName) {
  const Folder folder;
  const std::string file = folder.Write("truck.txt", "base: " + VehiclePath("harbour_van") + "\n");
  EXPECT_EQ(RunProgram({file}).exit, 0);
}

TEST(Page, WritesEveryTableToAFolder) {
  const Folder folder;
  EXPECT_EQ(RunProgram({VehiclePath("harbour_van"), "--csv", folder.Path("out") + "/"}).exit, 0);
  for (const char* name : {"stances.csv", "travel.csv", "over_the_travel.csv", "findings.csv"}) {
    EXPECT_GE(ReadSheet(ReadBytes(folder.Path("out") + "/" + name)).rows.size(), 3U) << name;
  }
}

// Three loads are told in words; of four the one it stands under, and the table has them all.
TEST(Page, ManyLoadsAreATable) {
  const Folder folder;
  const std::string file = folder.Write(
      "four.yaml", "base: " + VehiclePath("harbour_van") +
                       "\nadd:\n  loads.one: [{item: sack, mass: 50, at: [-1000, 0, 800]}]\n");
  const std::string out = RunProgram({file}).out;
  EXPECT_TRUE(HasLine(out, "stances")) << out;
  EXPECT_EQ(out.find("Under 'driver' it stands"), std::string::npos);
  EXPECT_FALSE(HasLine(RunProgram({VehiclePath("harbour_van")}).out, "stances"));
}

TEST(Page, ALoadWithoutARestIsToldAndTheAnswerIsNo) {
  const Folder folder;
  const std::string file = folder.Write(
      "bricks.yaml", "base: " + VehiclePath("harbour_van") +
                         "\nadd:\n"
                         "  loads.bricks: [{item: bricks, mass: 4000, at: [-2150, 0, 840]}]\n");
  const Outcome outcome = RunProgram({file});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.err.find("loads.bricks: no resting position"), std::string::npos);
  EXPECT_NE(outcome.out.find("Under 'empty'"), std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
