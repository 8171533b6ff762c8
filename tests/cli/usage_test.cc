// SPDX-License-Identifier: MIT
// What the command line asks of its user: help, and exit status 2 for what cannot be run.
#include <gtest/gtest.h>

#include <cctype>

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
       {"check", "settle", "sweep", "compare", "driveline", "steering", "original"}) {
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

TEST(Usage, ACommandIsWanted) { ExpectUnusable({}, "A subcommand is required\n" + kMoreHelp); }

TEST(Usage, AnUnknownCommandIsNamed) {
  const Outcome outcome = RunProgram({"settel", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_EQ(outcome.out, "");
  EXPECT_NE(outcome.err.find("settel"), std::string::npos) << outcome.err;
}

TEST(Usage, AnUnknownOptionIsNamed) {
  ExpectUnusable({"sweep", VehiclePath("harbour_van"), "--stepp", "10"},
                 "The following arguments were not expected: 10 --stepp\n" + kMoreHelp);
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
                 "--units: cm not in {metric,inch}\n" + kMoreHelp);
}

TEST(Usage, AnUnknownLoadIsRefusedWithThoseThereAre) {
  const std::string complaint =
      "linkwright: --load: no load is called 'crates'; the file has empty, driver, deliveries\n";
  for (const char* command : {"settle", "sweep", "driveline", "steering"}) {
    ExpectUnusable({command, VehiclePath("harbour_van"), "--load", "crates"}, complaint);
  }
}

TEST(Usage, AStepIsAboveZero) {
  ExpectSweepRefused({"--step", "0"}, "--step: a step above zero is wanted");
  ExpectSweepRefused({"--step", "-5"}, "--step: a step above zero is wanted");
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

TEST(Usage, FromIsNotAboveTo) {
  ExpectSweepRefused({"--from", "10", "--to", "-10"},
                     "--from is above --to: give the lower one (droop is negative) as --from");
}

TEST(Usage, TravelsThatNoVehicleHasAreRefused) {
  ExpectSweepRefused({"--from", "-3000"},
                     "--from, --to: nothing is swept beyond 2000 mm either way");
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
