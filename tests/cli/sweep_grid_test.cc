// SPDX-License-Identifier: MIT
// Which rows a sweep has: --from, --to, --step, and where members end travel.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Travels = std::vector<double>;

std::vector<std::string> Sweep(const std::string& vehicle,
                               const std::vector<std::string>& options) {
  std::vector<std::string> arguments{"sweep", VehiclePath(vehicle)};
  arguments.insert(arguments.end(), options.begin(), options.end());
  return arguments;
}

// The van's travels, in mm as they are written.
Travels VanTravels(const std::vector<std::string>& options) {
  return RunToSheet(Sweep("harbour_van", options)).Numbers("travel_mm");
}

// The note that begins so; empty where there is none.
std::string NoteOf(const std::vector<std::string>& arguments, const std::string& beginning) {
  const auto json = nlohmann::json::parse(RunToJson(arguments));
  for (const std::string note : json.at("notes")) {
    if (note.starts_with(beginning)) return note;
  }
  return "";
}

std::string NoteOf(const std::string& vehicle, const std::vector<std::string>& options,
                   const std::string& beginning) {
  return NoteOf(Sweep(vehicle, options), beginning);
}

TEST(SweepGrid, GoesFromFirstToLastInSteps) {
  EXPECT_EQ(VanTravels({"--from", "-40", "--to", "40", "--step", "20"}),
            (Travels{-40, -20, 0, 20, 40}));
}

TEST(SweepGrid, TakesNegativeTravelsAfterABlankAndAfterAnEqualsSign) {
  EXPECT_EQ(VanTravels({"--from", "-10", "--to", "-10"}), (Travels{-10, 0}));
  EXPECT_EQ(VanTravels({"--from=-10", "--to=-10"}), (Travels{-10, 0}));
  EXPECT_EQ(VanTravels({"--from", "-.5e1", "--to", "0"}), (Travels{-5, 0}));
}

TEST(SweepGrid, HasTheRowAtZeroWhereTheStepsPassItBy) {
  EXPECT_EQ(VanTravels({"--from", "-7", "--to", "7", "--step", "5"}), (Travels{-7, -2, 0, 3}));
}

TEST(SweepGrid, HasTheRowAtZeroWhereTheRangeDoesNot) {
  EXPECT_EQ(VanTravels({"--from", "20", "--to", "40"}), (Travels{0, 20, 30, 40}));
  EXPECT_EQ(VanTravels({"--from", "-40", "--to", "-20"}), (Travels{-40, -30, -20, 0}));
  EXPECT_EQ(VanTravels({"--from", "0", "--to", "0"}), (Travels{0}));
}

TEST(SweepGrid, LeavesOutALastTravelThatNoStepMeets) {
  EXPECT_EQ(VanTravels({"--from", "0", "--to", "12", "--step", "5"}), (Travels{0, 5, 10}));
}

TEST(SweepGrid, MeetsTheLastTravelAlthoughStepsRound) {
  const Travels travels = VanTravels({"--from", "-0.7", "--to", "0.7", "--step", "0.1"});
  ASSERT_EQ(travels.size(), 15U);
  EXPECT_NEAR(travels.back(), 0.7, 1e-12);
  EXPECT_EQ(travels[7], 0.0) << "exactly, however -0.7 + 7 x 0.1 rounds";
}

TEST(SweepGrid, CountsInTheUnitOfTheFile) {
  const Sheet sheet = RunToSheet(
      Sweep("orchard_tractor_truck", {"--from", "-1", "--to", "1 1/2", "--step", "1/2"}));
  EXPECT_EQ(sheet.Numbers("travel_in"), (Travels{-1, -0.5, 0, 0.5, 1, 1.5}));
}

TEST(SweepGrid, TakesValuesWithTheirOwnUnit) {
  EXPECT_EQ(VanTravels({"--from", "-1 in", "--to", "2.54 cm", "--step", "0.5\""}),
            (Travels{-25.4, -12.7, 0, 12.7, 25.4}));
}

TEST(SweepGrid, StepsTenMillimetresOrHalfAnInchUnlessAskedOtherwise) {
  EXPECT_EQ(VanTravels({"--from", "0", "--to", "20"}), (Travels{0, 10, 20}));
  const Sheet inch = RunToSheet(Sweep("orchard_tractor_truck", {"--from", "0", "--to", "1"}));
  EXPECT_EQ(inch.Numbers("travel_in"), (Travels{0, 0.5, 1}));
}

// By default: the ends themselves, and between them multiples of the step.
TEST(SweepGrid, ReachesFromFullDroopToFullBumpByDefault) {
  const Travels travels = VanTravels({});
  ASSERT_GT(travels.size(), 10U);
  Travels ends;
  for (const double travel : travels) {
    if (std::fmod(travel, 10.0) != 0.0) ends.push_back(travel);
  }
  ASSERT_EQ(ends.size(), 4U);  // of both axles, in droop and in bump
  EXPECT_EQ(ends.front(), travels.front());
  EXPECT_EQ(ends.back(), travels.back());
  const auto at = [](double travel) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(0) << travel << " mm";
    return text.str();
  };
  EXPECT_EQ(NoteOf("harbour_van", {}, "front axle, droop:"),
            "front axle, droop: travel ends at " + at(ends[1]) + ": damper left is fully open");
  EXPECT_EQ(NoteOf("harbour_van", {}, "rear axle, bump:"),
            "rear axle, bump: travel ends at " + at(ends[2]) + ": cone right is solid");
}

TEST(SweepGrid, RowsEndWhereAMemberEndsTravelAndANoteNamesIt) {
  const std::vector<std::string> options{"--from", "-120", "--to", "120"};
  EXPECT_EQ(VanTravels(options), VanTravels({}));  // every end lies within that range
  EXPECT_EQ(NoteOf("harbour_van", options, "front axle, droop:"),
            "front axle, droop: travel ends at -80 mm: damper left is fully open");
  EXPECT_EQ(NoteOf("harbour_van", options, "front axle, bump:"),
            "front axle, bump: travel ends at 78 mm: cone right is solid");
  EXPECT_EQ(NoteOf("harbour_van", options, "rear axle, bump:"),
            "rear axle, bump: travel ends at 58 mm: cone right is solid");
}

TEST(SweepGrid, ARangeThatEveryAxleReachesSaysSo) {
  EXPECT_EQ(NoteOf("harbour_van", {"--from", "-20", "--to", "20"}, "rear axle, bump:"),
            "rear axle, bump: nothing ends travel before 20 mm");
}

// Links that go straight: an upper arm of a geometry-only frame, which has no damper to stop it.
TEST(SweepGrid, RowsEndWhereALinkGoesStraight) {
  const std::string note =
      NoteOf("bare_frame", {"--from", "-600", "--step", "50"}, "front axle, droop:");
  EXPECT_TRUE(note.starts_with("front axle, droop: travel ends at -4")) << note;
  EXPECT_TRUE(
      note.ends_with(": its links line up and can follow no further (upper arm holds it most)"))
      << note;
}

// Beyond any travel they end nothing, here as in limits.
TEST(SweepGrid, LinksThatLineUpBeyondAnyTravelEndNothing) {
  const Folder folder;
  const std::string file = folder.Write(
      "no_tyres.yaml", "base: " + VehiclePath("bare_frame") + "\nremove: [openings]\n");
  EXPECT_EQ(NoteOf({"sweep", file}, "front axle, droop: "),
            "front axle, droop: nothing in the file ends these rows");
  EXPECT_EQ(NoteOf({"limits", file}, "front droop: "), "front droop: nothing in the file ends it");
}

TEST(SweepGrid, ACoilThatBindsEndsTravelAndIsNamed) {
  const Folder folder;
  const std::string file =
      folder.Write("bound.yaml", "base: " + VehiclePath("harbour_van") +
                                     "\nchange:\n  axles.rear.springs.coil.solid_length: 200\n");
  const Outcome outcome = RunProgram({"sweep", file, "--from", "0", "--to", "60"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(NoteOf({"sweep", file, "--from", "0", "--to", "60"}, "rear axle, bump: ")
                  .ends_with(" is coil-bound"));
  // The front axle goes on; the rear one has a row at its exact end.
  const Sheet rear = RunToSheet({"sweep", file, "--axle", "rear", "--from", "0", "--to", "60"});
  const Travels travels = rear.Numbers("travel_mm");
  ASSERT_EQ(travels.size(), 4U);
  EXPECT_GT(travels.back(), 20.0);
  EXPECT_LT(travels.back(), 30.0);
  EXPECT_EQ(RunToSheet({"sweep", file, "--from", "0", "--to", "60"}).Numbers("travel_mm"),
            (Travels{0, 10, 20, travels.back(), 30, 40, 50, 60}));
}

// One axle alone: nothing of the other, nothing of the whole vehicle.
TEST(SweepGrid, ShowsOneAxleAlone) {
  for (const std::string motion : {"bounce", "roll", "crossed"}) {
    const Sheet rear = RunToSheet(Sweep("harbour_van", {"--axle", "rear", "--motion", motion}));
    const Sheet both = RunToSheet(Sweep("harbour_van", {"--motion", motion}));
    for (const std::string& column : rear.header) {
      EXPECT_TRUE(both.Has(column)) << column;
      EXPECT_FALSE(column.starts_with("front_") || column.starts_with("wheelbase") ||
                   column.starts_with("roll_axis") || column.starts_with("diagonal"))
          << column;
    }
    EXPECT_TRUE(rear.Has("rear_axle_steer_deg"));
    EXPECT_EQ(rear.Has("driveshaft_length_mm"), motion == "bounce");
  }
  const Outcome none = RunProgram(
      Sweep("harbour_van", {"--axle", "rear", "--motion", "one-wheel", "--wheel", "front-left"}));
  EXPECT_EQ(none.exit, 2);
  EXPECT_NE(none.err.find("--axle rear: this motion leaves the rear axle where it is"),
            std::string::npos);
}

TEST(SweepGrid, ChangesAgainstTheRowAtZeroAreNothingThere) {
  const Sheet sheet = RunToSheet(Sweep("harbour_van", {"--from", "-13", "--to", "13"}));
  const Travels travels = sheet.Numbers("travel_mm");
  const auto zero =
      static_cast<size_t>(std::find(travels.begin(), travels.end(), 0.0) - travels.begin());
  for (const char* column :
       {"wheelbase_change_mm", "front_wheelbase_change_mm", "rear_wheelbase_change_mm",
        "front_lateral_shift_mm", "rear_lateral_shift_mm", "steer_deg"}) {
    EXPECT_EQ(sheet.rows.at(zero)[sheet.Find(column)], "0") << column;
  }
}

// The lock is a row of the grid too: once, and so at either side.
TEST(SweepGrid, SteersFromLockToLockWithEachRowOnce) {
  const Folder folder;
  const std::string file =
      folder.Write("locked.yaml", "base: " + VehiclePath("harbour_van") +
                                      "\nadd:\n"
                                      "  axles.front.steering.lock: 30\n"
                                      "  axles.front.steering.tie_rod: {left: [-150, 612, 330]}\n");
  const Sheet sheet = RunToSheet({"sweep", file, "--motion", "steer"});
  const size_t last = sheet.rows.size() - 1;
  EXPECT_EQ(sheet.Number(last, "hand_deg"), 30.0);
  EXPECT_EQ(sheet.Number(last - 1, "hand_deg"), 25.0);
  // At the other lock the right wheel is the inner one, and the left one steers as it did there.
  EXPECT_NEAR(sheet.Number(0, "steer_deg"), -30.0, 1e-6);
  EXPECT_NEAR(sheet.Number(0, "hand_deg"), -sheet.Number(last, "steer_deg"), 1e-6);
}

}  // namespace
}  // namespace linkwright::check
