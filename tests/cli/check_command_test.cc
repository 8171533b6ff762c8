// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

// The value in a long table's line of this table, row and quantity.
std::string ValueOf(const Sheet& sheet, const std::string& table, const std::string& row,
                    const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return record[4];
  }
  ADD_FAILURE() << "no " << table << ", " << row << ", " << quantity;
  return "";
}

TEST(CheckCommand, PassesASoundVehicle) {
  const Folder folder;
  const Outcome outcome = RunProgram({"check", PleasedVehicle(folder), "--strict", "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  for (const char* table : {"axles", "coils", "masses", "weights"}) {
    EXPECT_TRUE(HasLine(outcome.out, table)) << table;
  }
  EXPECT_NE(Flat(outcome.out).find("The file is sound, and nothing is past its aim."),
            std::string::npos)
      << outcome.out;
}

TEST(CheckCommand, AnswersFirst) {
  const std::string van = VehiclePath("harbour_van");
  const std::string out = Flat(RunProgram({"check", van}).out);
  const Sheet sheet = RunToSheet({"check", van});
  const auto kilograms = [&](const char* axle, const char* by) {
    return std::to_string(std::lround(ToNumber(ValueOf(sheet, "weights", axle, by)))) + " kg";
  };
  for (const std::string& words :
       {std::string("The file is sound; of 25 things to look at 2 can hurt someone, "),
        std::string("5 links hold the front axle where four would do, so bushings must give: "),
        "Coils against scales: front " + kilograms("front", "by_coils") + " by its coils, " +
            kilograms("front", "by_scales") + " by the scales; rear "}) {
    EXPECT_NE(out.find(words), std::string::npos) << words << "\n" << out;
  }
  EXPECT_NE(Flat(RunProgram({"check", VehiclePath("orchard_tractor_truck")}).out)
                .find("Four links hold the front and rear axles, none too many."),
            std::string::npos);
}

// What is not listed is counted: together they are all that --full lists.
TEST(CheckCommand, CountsWhatItDoesNotList) {
  const std::string van = VehiclePath("harbour_van");
  const auto listed = [](const std::string& out) {
    const std::vector<std::string> lines = Lines(out.substr(0, out.find("\naxles\n")));
    return std::count_if(lines.begin(), lines.end(),
                         [](const std::string& line) { return line.starts_with("- "); });
  };
  const std::string out = RunProgram({"check", van}).out;
  const auto all = listed(RunProgram({"check", van, "--full"}).out);
  EXPECT_EQ(all, 25);
  const std::string more = std::to_string(all - listed(out)) + " more (";
  EXPECT_NE(Flat(out).find(more), std::string::npos) << out;
  EXPECT_NE(Flat(out).find("--full tells them."), std::string::npos) << out;
}

TEST(CheckCommand, WritesItsTablesAsOneLongTable) {
  const Sheet sheet = RunToSheet({"check", VehiclePath("harbour_van")});
  EXPECT_EQ(sheet.header, (CsvRecord{"table", "row", "quantity", "unit", "value"}));
  EXPECT_EQ(ValueOf(sheet, "axles", "front", "links"), "5");
  EXPECT_EQ(ValueOf(sheet, "axles", "rear", "motions_held"), "4 of 4");
  // |(5, 372, 730) - (0, 372, 430)| = sqrt(25 + 90000) mm
  EXPECT_NEAR(ToNumber(ValueOf(sheet, "coils", "front coil left", "measured_length")),
              300.041663773506, 1e-9);
  EXPECT_EQ(ValueOf(sheet, "masses", "as weighed", "mass"), "1582") << "446 + 439 + 352 + 345";
}

TEST(CheckCommand, ANegativeNumberOfItsLongTableIsANumber) {
  const Sheet sheet = RunToSheet({"check", VehiclePath("harbour_van")});
  EXPECT_EQ(ValueOf(sheet, "masses", "front unsprung", "mass"), "-128");
}

TEST(CheckCommand, GeometryAloneHasNoMassesToCheck) {
  const Outcome outcome = RunProgram({"check", VehiclePath("bare_frame"), "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(HasLine(outcome.out, "axles"));
  EXPECT_FALSE(HasLine(outcome.out, "masses"));
  EXPECT_FALSE(HasLine(outcome.out, "weights"));
}

// The orchard truck without its front track bar: three links where four are wanted. The variant
// that took it away is to blame, not the base.
class TooFewLinks : public ::testing::Test {
 protected:
  Folder folder_;
  std::string base_ = VehiclePath("orchard_tractor_truck");
  std::string file_ =
      folder_.Write("few.yaml", "base: " + base_ + "\nremove: [axles.front.links.track bar]\n");
};

TEST_F(TooFewLinks, CheckPrintsItsReportAndExitsWithThePlaceOfTheLinks) {
  const Outcome outcome = RunProgram({"check", file_, "--full"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.err, file_ +
                             ":2:10: axles.front.links: the front axle can move sideways: nothing "
                             "like a track bar holds it; it has 3 links where four motions want "
                             "holding\n"
                             "    2 | remove: [axles.front.links.track bar]\n"
                             "      |          ^\n");
  EXPECT_NE(Flat(outcome.out)
                .find("No, the front axle can move sideways: nothing like a track bar "
                      "holds it. Until its links hold it, nothing else can be worked "
                      "out."),
            std::string::npos)
      << outcome.out;
  EXPECT_NE(RunProgram({"check", file_, "--table", "axles"}).out.find("3 of 4"), std::string::npos);
}

TEST_F(TooFewLinks, TheReportIsWrittenToFilesToo) {
  const std::string csv = folder_.Path("report.csv");
  EXPECT_EQ(RunProgram({"check", file_, "--table", "axles", "--csv", csv}).exit, 2);
  EXPECT_EQ(ReadSheet(ReadBytes(csv)).rows.at(0).at(2), "3 of 4");
}

TEST_F(TooFewLinks, OtherCommandsRefuseTheVehicleAtTheSamePlace) {
  for (const char* command : {"settle", "sweep"}) {
    const Outcome outcome = RunProgram({command, file_});
    EXPECT_EQ(outcome.exit, 2);
    EXPECT_EQ(outcome.out, "");
    EXPECT_TRUE(outcome.err.starts_with(file_ + ":2:10: axles.front.links: ")) << outcome.err;
  }
}

struct FileLimit {
  const char *key, *tight, *wide, *text;
};

// Each limit by itself: set tight its finding is there, set wide it is not.
TEST(CheckCommand, EveryLimitIsTheFiles) {
  const std::string base = "base: " + VehiclePath("harbour_van") +
                           "\nchange: {axles.rear.links.upper arm.frame: [-2036, 340, 520],"
                           " ledger.weighed.front_right: 400}"
                           "\nadd:\n  axles.rear.links.track bar.misalignment_limit: 60 deg\n"
                           "  axles.front.gaps: {pan: {frame: [0, 0, 560], axle: [0, 0, 360]}}\n";
  for (const FileLimit& limit :
       {FileLimit{"coil_preload", "200", "0", "squeeze left at full droop"},
        FileLimit{"coil_gap", "500", "0", "from solid at full bump"},
        FileLimit{"stop_crush", "0.99", "0", "curve ends at"},
        FileLimit{"height_change", "0", "1000", "from where measured"},
        FileLimit{"tire_squash", "0.9", "0", "of its radius, wants"},
        FileLimit{"pitch", "0", "80 deg", "over its travel"},
        FileLimit{"link_slope", "0", "80 deg", " to the axle"},
        FileLimit{"roll_steer", "0", "10", " of roll "}, FileLimit{"frequency", "0.1", "10", " Hz"},
        FileLimit{"side_to_side", "0", "1000", " low under "},
        FileLimit{"bump_left", "1000", "0", "of bump left at rest"},
        FileLimit{"scales", "0", "1", "coils say"},
        FileLimit{"tire_radius", "0", "1000", "scales say"},
        FileLimit{"arm_misfit", "0.5", "1000", "its holes are apart"},
        FileLimit{"arm_pitch", "0.01 deg", "80 deg", "its arms pitch it"},
        FileLimit{"gap", "500", "0", "front pan: closes to"},
        FileLimit{"joint_reserve", "89 deg", "0", " deg spare "},
        FileLimit{"link_force", "1", "1e9", "of link bind fully crossed"}}) {
    for (const bool tight : {true, false}) {
      const Folder folder;
      const std::string file =
          folder.Write("limit.yaml", base + "  aims: {" + limit.key + ": " +
                                         (tight ? limit.tight : limit.wide) + "}\n");
      const std::string out = Flat(RunProgram({"check", file, "--full"}).out);
      const std::string listed = out.substr(0, out.find(" axles axle "));
      EXPECT_EQ(listed.find(limit.text) != std::string::npos, tight) << limit.key << listed;
    }
  }
}

// One coil of its pair carries 15 lb more than the other.
TEST(CheckCommand, WeighedCoilsMayDifferAsTheFileSays) {
  for (const bool tight : {true, false}) {
    const Folder folder;
    const std::string file = folder.Write(
        "limit.yaml", "base: " + VehiclePath("orchard_tractor_truck") +
                          "\nadd: {aims: {weighed_pair: " + (tight ? "0" : "10") + "}}\n");
    const std::string out = OnOneLine(RunProgram({"check", file, "--full"}).out);
    EXPECT_EQ(out.find("longer unloaded than coil right") != std::string::npos, tight) << out;
  }
}

// A bracket 9 mm off is within the aim and still pulls hard: said where the arm is no finding, and
// there once.
TEST(CheckCommand, ArmsThatAreTooManyAndDoNotFitPullOnOneAnother) {
  for (const auto& [off, command] : {std::pair(9.0, "check"), std::pair(9.0, "settle"),
                                     std::pair(12.0, "check"), std::pair(12.0, "settle")}) {
    const Folder folder;
    const std::string file =
        folder.Write("off.yaml", "base: " + VehiclePath("harbour_van") +
                                     "\nchange:\n  axles.rear.links.lower arm left.frame[1]: " +
                                     std::to_string(-1905.0 - off) + "\n");
    const std::string out = OnOneLine(RunProgram({command, file, "--full"}).out);
    const bool is_finding = command == std::string("check") && off > 10.0;
    EXPECT_EQ(out.find("the rear axle: its arms are more than four and do not all fit") !=
                  std::string::npos,
              !is_finding)
        << command << off << out;
    EXPECT_EQ(out.find("the arms then pull up to") != std::string::npos, is_finding) << out;
    EXPECT_EQ(out.find("the front axle: its arms are more than four"), std::string::npos);
  }
  EXPECT_EQ(RunProgram({"settle", VehiclePath("harbour_van")}).out.find("on one another"),
            std::string::npos);
}

// A tyre that would hold its hub 16 mm higher than it was measured.
TEST(CheckCommand, AHubThatItsTyreWouldNotHoldThere) {
  const Folder folder;
  std::string text = ReadBytes(VehiclePath("harbour_van"));
  const std::string radius = "radius: 378";
  const size_t at = text.find(radius);
  ASSERT_NE(at, std::string::npos);
  const std::string base =
      folder.Write("base.yaml", text.replace(at, radius.size(), "radius: 394"));
  const auto check = [&](const std::string& aim) {
    return OnOneLine(
        RunProgram({"check",
                    folder.Write("hub.yaml", "base: " + base +
                                                 "\nadd: {aims: {tire_radius: 1000, hub_height: " +
                                                 aim + "}}\n"),
                    "--full"})
            .out);
  };
  const std::string told = "front axle: hubs 359 mm above the floor, tyres hold ";
  EXPECT_NE(check("12").find(told), std::string::npos);
  EXPECT_EQ(check("30").find(told), std::string::npos);
}

TEST(CheckCommand, LooksAtOneLoadAlone) {
  const Outcome one = RunProgram({"check", VehiclePath("harbour_van"), "--load", "driver"});
  EXPECT_EQ(one.exit, 0);
  EXPECT_TRUE(HasLine(one.out, "loads: driver")) << one.out;
  EXPECT_EQ(one.out.find("'deliveries'"), std::string::npos);
  EXPECT_EQ(RunProgram({"check", VehiclePath("harbour_van"), "--load", "nobody"}).exit, 2);
  EXPECT_EQ(RunProgram({"check", VehiclePath("bare_frame"), "--load", "driver"}).exit, 2);
}

TEST(CheckCommand, PointsAtALoadThatFindsNoRest) {
  const Folder folder;
  const std::string file = folder.Write(
      "bricks.yaml", "base: " + VehiclePath("harbour_van") +
                         "\nadd:\n"
                         "  loads.bricks: [{item: bricks, mass: 4000, at: [-2150, 0, 840]}]\n");
  EXPECT_NE(RunProgram({"check", file})
                .out.find("\nCan hurt someone\n- under 'bricks' it finds no resting position\n"),
            std::string::npos);
}

TEST(CheckCommand, ShowsEveryGapAtItsNearest) {
  const Folder folder;
  const std::string file =
      folder.Write("gap.yaml", "base: " + VehiclePath("harbour_van") +
                                   "\nadd:\n  axles.front.gaps: {pan: {frame: [0, 0, 560], axle: "
                                   "[0, 0, 360]}}\n");
  const Sheet sheet = RunToSheet({"check", file});
  const double rest = ToNumber(ValueOf(sheet, "gaps", "front pan", "rest"));
  const double least = ToNumber(ValueOf(sheet, "gaps", "front pan", "least"));
  const double at = ToNumber(ValueOf(sheet, "gaps", "front pan", "travel"));
  // Straight up but for some millimetres that links and bar draw it aside: off the vertical by a
  // tenth at most, which is half a per cent of 200 mm.
  EXPECT_NEAR(rest - least, at, 2.0);
  EXPECT_GT(at, 0.0);
}

// A van whose rear wheels are no mirror images by more than 1/16 in.
class Crooked : public ::testing::Test {
 protected:
  Folder folder_;
  std::string file_ =
      folder_.Write("crooked.yaml", "base: " + VehiclePath("harbour_van") +
                                        "\nadd:\n"
                                        "  axles.rear.wheel_center_right: [-2535, -745, 363]\n");
};

TEST_F(Crooked, AWarningIsPrintedAndIsNoError) {
  const Outcome outcome = RunProgram({"check", file_, "--full"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_NE(
      Flat(outcome.out)
          .find("harbour_van.yaml:34:3: rear wheel centres: 5 mm off mirror image, limit 2 mm"),
      std::string::npos)
      << outcome.out;
}

TEST_F(Crooked, StrictMakesAWarningANo) {
  EXPECT_EQ(RunProgram({"check", file_, "--strict"}).exit, 1);
}

TEST_F(Crooked, FullSaysWhatMendsItUnderItsSlug) {
  const std::string out = RunProgram({"check", file_, "--full"}).out;
  EXPECT_NE(OnOneLine(out).find("  left-against-right: rear wheel centres: left and right are no "),
            std::string::npos)
      << out;
}

}  // namespace
}  // namespace linkwright::check
