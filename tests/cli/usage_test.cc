// SPDX-License-Identifier: MIT
// What the command line asks of its user: help, and exit status 2 for what cannot be run.
#include <gtest/gtest.h>

#include <cctype>
#include <sstream>

#include "cli/run.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

// A command that cannot be run: nothing on standard output, one complaint.
void ExpectUnusable(const std::vector<std::string>& arguments, const std::string& complaint) {
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(outcome.err, complaint);
}

const std::string kMoreHelp = "Run with --help for more information.\n";

// A complaint of `sweep` on the reference vehicle with these options.
void ExpectSweepRefused(const std::vector<std::string>& options, const std::string& complaint) {
  std::vector<std::string> arguments{"sweep", VehiclePath("harbour_van")};
  arguments.insert(arguments.end(), options.begin(), options.end());
  ExpectUnusable(arguments, "linkwright: " + complaint + "\n");
}

TEST(Usage, HelpGoesToStandardOutputAndIsNoError) {
  const Outcome outcome = RunProgram({"--help"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  for (const char* command :
       {"check", "settle", "sweep", "compare", "driveline", "steering", "original", "explain"}) {
    EXPECT_NE(outcome.out.find(std::string("\n  ") + command + " "), std::string::npos) << command;
  }
}

TEST(Usage, EveryCommandHelpsWithItsOwnOptions) {
  for (const char* command :
       {"check", "settle", "sweep", "compare", "driveline", "steering", "original"}) {
    const Outcome outcome = RunProgram({command, "--help"});
    EXPECT_EQ(outcome.exit, 0) << command;
    EXPECT_EQ(outcome.err, "") << command;
    for (const char* option : {"--csv", "--json", "--units", "--strict"}) {
      EXPECT_NE(outcome.out.find(option), std::string::npos) << command << " " << option;
    }
  }
}

TEST(Usage, VersionIsNameAndNumber) {
  const Outcome outcome = RunProgram({"--version"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(outcome.out.starts_with("linkwright ")) << outcome.out;
  EXPECT_TRUE(std::isdigit(static_cast<unsigned char>(outcome.out.at(11)))) << outcome.out;
  EXPECT_EQ(Lines(outcome.out).size(), 1U);
}

TEST(Usage, AFileOrACommandIsWanted) {
  ExpectUnusable({},
                 "linkwright: a vehicle file is wanted, or a command and a vehicle file; see "
                 "--help\n");
}

TEST(Usage, AnUnknownCommandIsNamed) {
  const Outcome outcome = RunProgram({"settel", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_NE(outcome.err.find("settel"), std::string::npos) << outcome.err;
}

TEST(Usage, AnUnknownOptionIsNamed) {
  ExpectUnusable({"sweep", VehiclePath("harbour_van"), "--stepp", "10"},
                 "linkwright: linkwright sweep has no option --stepp; did you mean --step?\n");
}

TEST(Usage, AFileIsWanted) {
  for (const char* command : {"check", "settle", "sweep", "driveline", "steering", "original"}) {
    ExpectUnusable({command}, "FILE is required\n" + kMoreHelp);
  }
  ExpectUnusable({"compare", VehiclePath("harbour_van")}, "SECOND is required\n" + kMoreHelp);
}

TEST(Usage, AFileThatIsNotThereIsNamed) {
  for (const char* command : {"check", "settle", "sweep", "driveline", "steering", "original"}) {
    ExpectUnusable({command, "nowhere/van.yaml"}, "nowhere/van.yaml: no such file\n");
  }
  ExpectUnusable({"compare", VehiclePath("harbour_van"), "nowhere.yaml"},
                 "nowhere.yaml: no such file\n");
}

TEST(Usage, UnitsAreMetricOrInch) {
  ExpectUnusable({"settle", VehiclePath("harbour_van"), "--units", "cm"},
                 "--units: 'cm' is none of metric, inch\n" + kMoreHelp);
}

TEST(Usage, AnUnknownLoadIsRefusedWithThoseThereAre) {
  const std::string complaint =
      "linkwright: --load: no load is called 'crates'; the file has empty, driver, deliveries\n";
  for (const char* command : {"settle", "sweep", "driveline", "steering"}) {
    ExpectUnusable({command, VehiclePath("harbour_van"), "--load", "crates"}, complaint);
  }
}

// What people write is understood, or answered with the nearest that there is.
TEST(Usage, OptionsAreUnderstoodAsTheyAreWritten) {
  const std::string van = VehiclePath("harbour_van");
  const auto same = [](const std::vector<std::string>& one, const std::vector<std::string>& other) {
    const Outcome first = RunProgram(one), second = RunProgram(other);
    EXPECT_EQ(first.exit, 0) << first.err;
    EXPECT_EQ(first.out, second.out);
  };
  for (const char* inch : {"inches", "in", "Imperial", "INCH"}) {
    same({"settle", van, "--units", inch}, {"settle", van, "--units", "inch"});
  }
  for (const char* wheel : {"left-front", "lf", "FL", "front left"}) {
    same({"sweep", van, "--motion", "one-wheel", "--wheel", wheel},
         {"sweep", van, "--motion", "one-wheel", "--wheel", "front-left"});
  }
  same({"sweep", van, "--motion", "bump"}, {"sweep", van, "--motion", "bounce"});
  same({"openings", van, "--center-split", "50"}, {"openings", van, "--centre-split", "50"});
  same({"openings", van, "--center-split=50"}, {"openings", van, "--centre-split", "50"});
}

TEST(Usage, WhatIsNotUnderstoodIsAnsweredWithTheNearest) {
  ExpectUnusable({"sweep", VehiclePath("harbour_van"), "--motion", "crosed"},
                 "--motion: 'crosed' is none of bounce, roll, one-wheel, crossed, steer; did you "
                 "mean crossed?\n" +
                     kMoreHelp);
  ExpectUnusable(
      {"sweep", VehiclePath("harbour_van"), "--wheel", "left"},
      "--wheel: 'left' is none of front-left, front-right, rear-left, rear-right\n" + kMoreHelp);
  EXPECT_EQ(RunProgram({"settle", VehiclePath("harbour_van"), "--load", "drivers"}).err,
            "linkwright: --load: no load is called 'drivers'; did you mean 'driver'? the file has "
            "empty, driver, deliveries\n");
}

TEST(Usage, AStepIsAboveZero) {
  ExpectSweepRefused({"--step", "0"},
                     "--step: '0' is out of range; wanted: more than 0 mm, at most 2000 mm");
  ExpectSweepRefused({"--step", "-5"},
                     "--step: '-5' is out of range; wanted: more than 0 mm, at most 2000 mm");
}

TEST(Usage, AStepIsALength) {
  const std::string wanted = "wanted: a length such as 345, '13 1/2 in' or '345 mm'";
  ExpectSweepRefused({"--step", "wide"}, "--step: 'wide' cannot be read as a number; " + wanted);
  ExpectSweepRefused({"--step", "5 kg"}, "--step: '5 kg' is a mass; " + wanted);
  ExpectSweepRefused({"--from", "nan"}, "--from: 'nan' is not a finite number; " + wanted);
}

TEST(Usage, AStepSoShortThatRowsHaveNoEndIsRefused) {
  ExpectSweepRefused({"--step", "1e-9"},
                     "--step: that makes more than 20000 rows; take a longer step");
}

TEST(Usage, FiveRowsAreFiveRowsHoweverShortTheStep) {
  const Sheet sheet = RunToSheet(
      {"sweep", VehiclePath("harbour_van"), "--from", "35.9", "--to", "36.1", "--step", "0.05"});
  EXPECT_EQ(sheet.rows.size(), 6U) << "the five asked for, and the row at 0";
}

// Each in its own range, as a key of the file would be; none is taken for not given.
TEST(Usage, AmountsOutOfRangeAndEmptyOnesAreRefused) {
  const std::vector<std::pair<std::string, std::string>> options{
      {"driveline", "--speed"}, {"driveline", "--torque"},     {"ride", "--payload"},
      {"limits", "--bump"},     {"limits", "--droop"},         {"limits", "--split"},
      {"roll", "--lateral"},    {"roll", "--torque"},          {"sweep", "--from"},
      {"sweep", "--to"},        {"sweep", "--step"},           {"openings", "--lock"},
      {"compare", "--to"},      {"openings", "--centre-split"}};
  for (const auto& [command, option] : options) {
    for (const std::string value : {"1e308", ""}) {
      std::vector<std::string> arguments{command, VehiclePath("harbour_van"), option, value};
      if (command == "compare") arguments.insert(arguments.begin() + 1, arguments[1]);
      const Outcome outcome = RunProgram(arguments);
      EXPECT_EQ(outcome.exit, 2) << command << " " << option << " " << value;
      EXPECT_EQ(outcome.out, "");
      const std::string begin = "linkwright: " + option +
                                (value.empty() ? ": the value is empty; wanted: "
                                               : ": '1e308' is out of range; wanted: ");
      EXPECT_TRUE(outcome.err.starts_with(begin)) << outcome.err;
    }
  }
  for (const std::string option : {"--csv", "--json", "--load"}) {
    EXPECT_EQ(RunProgram({"settle", VehiclePath("harbour_van"), option, ""}).exit, 2) << option;
  }
}

// Nothing that a terminal would obey: in titles, names of loads, file names, excerpts.
TEST(Usage, WhatWouldNotBeSeenIsShownAsAnEscape) {
  const Folder folder;
  const std::string file = folder.Write("esc\x1b[31m.yaml", "base: " + VehiclePath("harbour_van") +
                                                                "\ntitle: \"v\\u202Ean\\x7f\"\n"
                                                                "add: {\"loads.n\\x85y\": []}\n");
  const Outcome good = RunProgram({"settle", file});
  EXPECT_EQ(good.exit, 0) << good.err;
  EXPECT_EQ(Lines(good.out).at(0), "v\\u202ean\\x7f");
  EXPECT_TRUE(Lines(good.out).at(1).ends_with("esc\\x1b[31m.yaml"));
  EXPECT_NE(good.out.find("n\\u0085y"), std::string::npos);
  const std::string bad = folder.Write("bad\u202E.yaml", "title: [\u202Ex\n");
  for (const std::string& text : {good.out, RunProgram({"check", bad}).err}) {
    for (const char* unseen : {"\x1b", "\u202E", "\x7f", "\u0085"}) {
      EXPECT_EQ(text.find(unseen), std::string::npos) << text;
    }
  }
}

TEST(Usage, AStreamThatTakesNothingIsToldEvenByHelp) {
  std::ostringstream err;
  std::ostream full(nullptr);
  EXPECT_EQ(linkwright::Run({"--help"}, full, err), 2);
  EXPECT_EQ(err.str(), "linkwright: cannot write to standard output: is the disk full?\n");
}

TEST(Usage, FromIsNotAboveTo) {
  ExpectSweepRefused({"--from", "10", "--to", "-10"},
                     "--from is above --to: give the lower one (droop is negative) as --from");
}

TEST(Usage, TravelsThatNoVehicleHasAreRefused) {
  ExpectSweepRefused({"--from", "-3000"},
                     "--from: '-3000' is out of range; wanted: -2000 mm to 2000 mm");
}

TEST(Usage, ALoadMeansNothingToAFileWithoutMasses) {
  ExpectUnusable({"sweep", VehiclePath("bare_frame"), "--load", "empty"},
                 "linkwright: --load: the file has no masses, so it sweeps about the measured "
                 "stance\n");
}

TEST(Usage, ColumnsToCompareAreOnesThatThereAre) {
  const std::string van = VehiclePath("harbour_van");
  const Outcome outcome = RunProgram({"compare", van, van, "--column", "wheel_base"});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("wheel_base"), std::string::npos) << outcome.err;
}

TEST(Usage, EveryErrorOfAFileIsPrintedWithItsPlace) {
  const Folder folder;
  const std::string file =
      folder.Write("two.yaml", "base: " + VehiclePath("harbour_van") +
                                   "\nchange:\n  axles.rear.flor: 1\n  marks.sill rear left: 2\n");
  const Outcome outcome = RunProgram({"settle", file});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_NE(outcome.err.find(file + ":3:3: "), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find(file + ":4:25: "), std::string::npos) << outcome.err;
}

}  // namespace
}  // namespace linkwright::check
