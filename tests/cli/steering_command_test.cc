// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

bool Has(const Outcome& outcome, const std::string& text) {
  return outcome.out.find(text) != std::string::npos;
}

std::string WithTieRod(const Folder& folder) {
  return folder.Write("tied.yaml",
                      "base: " + VehiclePath("harbour_van") +
                          "\nadd:\n  axles.front.steering.tie_rod: {left: [-150, 600, 330]}\n");
}

TEST(SteeringCommand, PointsAtSteerInBump) {
  const Outcome outcome = RunProgram({"steering", VehiclePath("harbour_van")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(Has(outcome, "look at this: the front axle: with the steering wheel held, bump"))
      << outcome.out;
  EXPECT_TRUE(Has(outcome, "no tie_rod in the file"));
  EXPECT_EQ(RunProgram({"steering", VehiclePath("harbour_van"), "--strict"}).exit, 1);
}

TEST(SteeringCommand, ALimitOfTheFileDecides) {
  const Folder folder;
  EXPECT_EQ(RunProgram({"steering", PleasedVehicle(folder), "--strict"}).exit, 0);
}

TEST(SteeringCommand, WithATieRodItTurnsLockToLock) {
  const Folder folder;
  const auto json = nlohmann::json::parse(RunToJson({"steering", WithTieRod(folder)}));
  EXPECT_EQ(json["front lock to lock"]["rows"].size(), 13U);
  EXPECT_EQ(json["front track bar moved"]["rows"].size(), 4U);
  EXPECT_EQ(json["sideways"]["rows"].size(), 2U);
}

TEST(SteeringCommand, CsvHoldsEveryTable) {
  const Folder folder;
  const Sheet sheet = RunToSheet({"steering", WithTieRod(folder)});
  std::vector<std::string> tables;
  for (const CsvRecord& row : sheet.rows) {
    if (tables.empty() || tables.back() != row.at(0)) tables.push_back(row.at(0));
  }
  EXPECT_EQ(tables, (std::vector<std::string>{"standing", "front travel", "front roll",
                                              "front lock to lock", "front lines",
                                              "front track bar moved", "sideways"}));
}

TEST(SteeringCommand, WithoutADragLinkItStillCentresAxles) {
  const Outcome outcome = RunProgram({"steering", VehiclePath("quarry_pickup")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "no axle has steering"));
  EXPECT_TRUE(Has(outcome, "the rear axle stands 2.8 mm to the left of centre"));
  EXPECT_TRUE(Has(outcome, "the rear axle: track bar longer by")) << outcome.out;
}

TEST(SteeringCommand, GeometryAloneStandsAsMeasured) {
  const Outcome outcome = RunProgram({"steering", VehiclePath("bare_frame")});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(Has(outcome, "rest is the measured stance"));
}

// A drag link parallel to its kingpin turns the wheel neither way: no rate, a warning, and no rows
// that leap from one of its two positions to the other.
TEST(SteeringCommand, ADragLinkAtItsDeadCentreIsPointedAt) {
  const Folder folder;
  const std::string file = folder.Write(
      "dead.yaml",
      "base: " + VehiclePath("harbour_van") +
          "\nchange:\n"
          "  axles.front.kingpin: {caster: 0, inclination: 0, at: [0, 662, 380]}\n"
          "  axles.front.steering.drag_link: {frame: [142, 566, 600], axle: [142, 566, 432]}\n");
  const Outcome outcome = RunProgram({"steering", file});
  EXPECT_EQ(outcome.out.find("nan"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("look at this: the front axle: at rest the drag link stands in line"),
            std::string::npos)
      << outcome.out;
  const Sheet sheet = RunToSheet({"sweep", file});
  for (const auto& row : sheet.rows) {
    for (const std::string& cell : row) EXPECT_EQ(cell.find_first_of("nN"), std::string::npos);
  }
}

}  // namespace
}  // namespace linkwright::check
