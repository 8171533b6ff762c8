// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

bool Has(const Outcome& outcome, const std::string& text) {
  return Flat(outcome.out).find(text) != std::string::npos;
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
  EXPECT_TRUE(Has(outcome, "- front axle: bump steers 0.0054 deg/mm right at rest")) << outcome.out;
  EXPECT_TRUE(Has(outcome,
                  "With the steering wheel held the front wheels steer: 25 mm of bump 0.14 "
                  "deg right at rest, more than the 0.10 deg that are usual; "))
      << outcome.out;
  EXPECT_TRUE(Has(outcome, "The file gives no tie_rod"));
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
  EXPECT_TRUE(Has(outcome, "No axle has steering in the file"));
  EXPECT_TRUE(Has(outcome, "the rear axle stands 3 mm to the left: track bar ")) << outcome.out;
  EXPECT_TRUE(Has(outcome, " mm longer centres it")) << outcome.out;
}

TEST(SteeringCommand, GeometryAloneStandsAsMeasured) {
  const Outcome outcome = RunProgram({"steering", VehiclePath("bare_frame"), "--full"});
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
  EXPECT_TRUE(Has(outcome, "- front axle: drag link in line with its kingpin or arm at rest"))
      << outcome.out;
  const Sheet sheet = RunToSheet({"sweep", file});
  for (const auto& row : sheet.rows) {
    for (const std::string& cell : row) EXPECT_EQ(cell.find_first_of("nN"), std::string::npos);
  }
}

// The place that the answer gives the track bar, made in the file, and asked about again.
TEST(SteeringCommand, TheTrackBarMovedAsSaidSteersNothingAtRest) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const auto json = nlohmann::json::parse(RunToJson({"steering", van}));
  const auto& moved = json["front track bar moved"]["rows"];
  const auto row = std::find_if(moved.begin(), moved.end(), [](const auto& each) {
    return each["move"] == "frame end, no steer";
  });
  ASSERT_NE(row, moved.end());
  const auto number = [&](const char* column) { return (*row)[column].template get<double>(); };
  const std::string built = folder.Write(
      "built.yaml",
      fmt::format("base: {}\nchange:\n  axles.front.links.track bar.frame: [{}, {}, {}]\n"
                  "add:\n  axles.front.links.track bar.length: {}\n",
                  van, number("x_mm"), number("y_mm"), number("z_mm"), number("length_mm")));
  const Sheet then = RunToSheet({"sweep", built, "--from", "0", "--to", "10", "--step", "0.01"});
  const double per_mm = (then.Number(1, "steer_deg") - then.Number(0, "steer_deg")) / 0.01;
  EXPECT_NEAR(per_mm, 0.0, 2e-5);  // [deg/mm] its curve over the hundredth of a millimetre
  EXPECT_FALSE(Has(RunProgram({"steering", built}), "more than the 0.10 deg that are usual"));
  const std::string up = fmt::format("its frame end {:.0f} mm up", number("moved_z_mm"));
  EXPECT_TRUE(Has(RunProgram({"steering", van}), up)) << up;
}

}  // namespace
}  // namespace linkwright::check
