// SPDX-License-Identifier: MIT
// What variants do; what they may not do is in fixtures/invalid/variant_*.yaml.
#include "io/read/variant.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

using testing::ElementsAre;

constexpr std::string_view kMasses = R"(    unsprung: {mass: 118, at: [-2540, 0, 365]}
ledger:
  weighed: {front_left: 446, front_right: 439, rear_left: 352, rear_right: 345, cg_height: 655}
  added:
    - {item: tank, mass: 10, at: [-2000, 0, 500]}
    - {item: seat, mass: 20, at: [-1200, 300, 700]}
    - {item: seat, mass: 30, at: [-1200, -300, 700]}
)";

// A folder with base.yaml: kBench with masses.
class Variants : public testing::Test {
 protected:
  Variants() {
    std::string base = BenchWith(kMasses);
    base.replace(base.find("    links:"), 0, "    unsprung: {mass: 128, at: [0, 0, 365]}\n");
    folder_.Write("base.yaml", base);
  }

  VehicleFile Read(std::string_view text) {
    return ReadVehicleFile(folder_.Write("variant.yaml", text));
  }

  std::vector<std::string> Errors(std::string_view text) {
    return ErrorsOf(folder_.Write("variant.yaml", text));
  }

  TempFolder folder_;
};

TEST_F(Variants, WithoutChangesAreTheirBase) {
  const VehicleFile file = Read("base: base.yaml\n");
  EXPECT_EQ(file.vehicle.title, "Bench truck");
  EXPECT_EQ(file.units, UnitSystem::kMetric);
  EXPECT_THAT(file.inputs, ElementsAre(folder_.Path("variant.yaml"), folder_.Path("base.yaml")));
}

TEST_F(Variants, ChangeNumbersPointsAndWholeMembers) {
  const VehicleFile file = Read(R"(base: base.yaml
title: Plan
change:
  axles.rear.links.upper arm.frame: [-2040, -140, 520]
  axles.rear.links.upper arm.axle[3]: 510
  axles.front.links.track bar: {frame: [60, 440, 500], axle: [80, -470, 450], rate: 6 kN/mm}
)");
  EXPECT_EQ(file.vehicle.title, "Plan");
  const Link& upper = file.vehicle.axles[kRear].links[2];
  EXPECT_EQ(upper.name.key, "upper arm");
  EXPECT_TRUE(upper.span.p_CP.isApprox(Eigen::Vector3d(-2.04, -0.14, 0.52)));
  EXPECT_TRUE(upper.span.p_CQ.isApprox(Eigen::Vector3d(-2.52, -0.15, 0.51)));
  EXPECT_DOUBLE_EQ(file.vehicle.axles[kFront].links[3].rate, 6e6);
}

TEST_F(Variants, AddMembersKeysAndItems) {
  const VehicleFile file = Read(R"(base: base.yaml
add:
  axles.front.links.helper: {frame: [-400, 0, 400], axle: [0, 0, 400]}
  axles.rear.drive_share: 1
  ledger.added.roof rack: {mass: 45, at: [-1800, 0, 1500]}
  ledger.added[5]: {item: ladder, mass: 9, at: [-1800, 0, 1600]}
  marks: {sill: [-520, 760, 420]}
  marks."no. 2 sill": [-2010, 760, 420]
)");
  const Vehicle& vehicle = file.vehicle;
  EXPECT_EQ(vehicle.axles[kFront].links.size(), 5U);
  EXPECT_EQ(vehicle.axles[kRear].drive_share, 1.0);
  ASSERT_EQ(vehicle.ledger->added.size(), 5U);
  EXPECT_EQ(vehicle.ledger->added[3].item, "roof rack");
  EXPECT_EQ(vehicle.ledger->added[3].mass, 45.0);
  EXPECT_EQ(vehicle.ledger->added[4].item, "ladder");
  ASSERT_EQ(vehicle.marks.size(), 2U);
  EXPECT_EQ(vehicle.marks[1].name, "no. 2 sill");
}

TEST_F(Variants, RemoveByTheNumbersOfTheBase) {
  const VehicleFile file = Read(R"(base: base.yaml
add:
  ledger.added.rack: {mass: 45, at: [-1800, 0, 1500]}
remove: ["ledger.added[1]", "ledger.added[3]", axles.rear.links.upper arm, "ledger.added[1]"]
)");
  ASSERT_EQ(file.vehicle.ledger->added.size(), 2U);
  EXPECT_EQ(file.vehicle.ledger->added[0].mass, 20.0);
  EXPECT_EQ(file.vehicle.ledger->added[1].item, "rack");
  EXPECT_EQ(file.vehicle.axles[kRear].links.size(), 3U);
}

TEST_F(Variants, RemoveAPartAndThePartsInIt) {
  const VehicleFile file = Read("base: base.yaml\nremove: [ledger.added, 'ledger.added[2]']\n");
  EXPECT_EQ(file.vehicle.ledger->added.size(), 0U);
}

TEST_F(Variants, TakeTheUnitsOfTheirBase) {
  const VehicleFile file = Read("base: base.yaml\nchange:\n  ledger.weighed.cg_height: 660\n");
  EXPECT_DOUBLE_EQ(file.vehicle.ledger->cg_height, 0.660);
}

TEST_F(Variants, OrHaveUnitsOfTheirOwnForTheirOwnNumbers) {
  const VehicleFile file = Read(R"(base: base.yaml
units: inch
change:
  ledger.weighed.cg_height: 26
  axles.rear.links.upper arm.frame: [-80, -140 mm, 21 1/2]
)");
  EXPECT_DOUBLE_EQ(file.vehicle.ledger->cg_height, 26 * 0.0254);
  EXPECT_TRUE(file.vehicle.axles[kRear].links[2].span.p_CP.isApprox(
      Eigen::Vector3d(-80 * 0.0254, -0.14, 21.5 * 0.0254)));
  EXPECT_DOUBLE_EQ(file.vehicle.ledger->weighed[0], 446.0);  // the base's stay kilograms
  EXPECT_EQ(file.units, UnitSystem::kInch);
}

TEST_F(Variants, StandOnVariants) {
  folder_.Write("plan.yaml", "base: base.yaml\nunits: inch\ntitle: Plan\n");
  const VehicleFile file = Read("base: plan.yaml\nchange:\n  ledger.weighed.cg_height: 26\n");
  EXPECT_EQ(file.vehicle.title, "Plan");
  EXPECT_DOUBLE_EQ(file.vehicle.ledger->cg_height, 26 * 0.0254);
  EXPECT_EQ(file.inputs.size(), 3U);
}

TEST_F(Variants, LookForTheirBaseFromTheirOwnFolder) {
  std::filesystem::create_directory(folder_.Path("plans"));
  const std::string path = folder_.Write("plans/plan.yaml", "base: ../base.yaml\n");
  EXPECT_EQ(ReadVehicleFile(path).vehicle.title, "Bench truck");
}

TEST_F(Variants, MayStandOnEachOtherSixteenDeepAndNoMore) {
  folder_.Write("v0.yaml", "base: base.yaml\n");
  for (int i = 1; i < 16; ++i) {
    folder_.Write(fmt::format("v{}.yaml", i), fmt::format("base: v{}.yaml\n", i - 1));
  }
  EXPECT_THAT(ErrorsOf(folder_.Path("v14.yaml")), ElementsAre());
  EXPECT_THAT(ErrorsOf(folder_.Path("v15.yaml")),
              ElementsAre("v0.yaml:1:7 base: more than 16 files stand on each other here"));
}

TEST_F(Variants, GoRoundInACircleUnderAnyName) {
  std::filesystem::create_symlink(folder_.Path("variant.yaml"), folder_.Path("other.yaml"));
  EXPECT_THAT(Errors("base: other.yaml\n"),
              ElementsAre(testing::HasSubstr("the bases go round in a circle")));
}

TEST_F(Variants, ReportTheErrorsOfBothFilesInOneRun) {
  std::string base(kBench);
  folder_.Write("base.yaml", base.replace(base.find("-140, 545"), 9, "-140 kg, 545"));
  EXPECT_THAT(Errors("base: base.yaml\nchange:\n  marks: 3\nadd:\n  marks: {sill: 3}\n"),
              ElementsAre("variant.yaml:3:3 change.marks: there is no 'marks' in the base; there: "
                          "'title', 'units', 'axles'; what is new goes under 'add'",
                          "variant.yaml:5:17 marks.sill: found '3'; wanted: a point [x, y, z] of "
                          "three lengths",
                          "base.yaml:8:33 axles.front.links.upper arm.frame[2]: '-140 kg' is a "
                          "mass; wanted: a length such as 345, '13 1/2 in' or '345 mm'"));
}

TEST_F(Variants, DoNotChooseBetweenItemsOfOneName) {
  EXPECT_THAT(
      Errors("base: base.yaml\nchange:\n  ledger.added.seat.mass: 25\n"),
      ElementsAre("variant.yaml:3:3 change.ledger.added.seat.mass: two items of ledger.added "
                  "of the base are called 'seat'; use a number: 'ledger.added[1]'"));
}

TEST_F(Variants, NameTheBaseFileOfASyntaxError) {
  folder_.Write("base.yaml", "title: [\n");
  const auto errors = Errors("base: base.yaml\n");
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0], testing::StartsWith("base.yaml:2:1 a ',' or the closing ']'"));
}

TEST_F(Variants, WithWrongKindsOfChangesStillShowTheOtherErrors) {
  EXPECT_THAT(
      Errors("base: base.yaml\nchange: [1]\nadd: 3\nremove: floor\nunits: feet\n"),
      ElementsAre("variant.yaml:2:9 change: found a list of 1; wanted: a map of 'path: "
                  "value'",
                  "variant.yaml:3:6 add: found '3'; wanted: a map of 'path: value'",
                  "variant.yaml:4:9 remove: found 'floor'; wanted: a list, each item a text "
                  "on one line",
                  "variant.yaml:5:8 units: found 'feet'; wanted: one of metric, inch"));
}

TEST_F(Variants, NeedABaseWithAName) {
  EXPECT_THAT(Errors("base: [a]\n"),
              ElementsAre("variant.yaml:1:7 base: found a list of 1; wanted: a text on one line"));
}

}  // namespace
}  // namespace linkwright
