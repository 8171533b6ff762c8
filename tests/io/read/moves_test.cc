// SPDX-License-Identifier: MIT
// A variant's stretch and body: against the same moves made on the vehicle, against places worked
// out by hand, and the order in which everything of a chain counts.
#include "io/read/moves.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <map>

#include "io/read/format.h"
#include "solver/model/moves.h"
#include "solver/model/places.h"
#include "tests/io/read/temp_folder.h"
#include "tests/support/matchers.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [m] rounding at 3 m

TEST(GoesWith, IsKnownOfEveryPointOfTheFormat) {
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      if (key.kind != Kind::kPoint && key.kind != Kind::kSide) continue;
      EXPECT_TRUE(GoesWithOf(group.name, key.name)) << group.name << "." << key.name;
    }
  }
}

// Every place of a vehicle, by name.
std::map<std::string, Eigen::Vector3d> PlacesOf(Vehicle vehicle) {
  std::map<std::string, Eigen::Vector3d> places;
  const auto add = [&](const std::string& what, const Eigen::Vector3d& p) {
    places[fmt::format("{} {}", what, places.size())] = p;
  };
  for (Axle& axle : vehicle.axles) {
    const VisitPlace visit = [&](Eigen::Vector3d& place) { add(axle.name, place); };
    VisitPlaces(axle, visit, visit);
    if (axle.opening) add("opening", {axle.opening->x, 0.0, axle.opening->z});
  }
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    add("output", shaft.p_CO);
    if (shaft.center_bearing) add("bearing", shaft.center_bearing->p_CB);
  }
  for (const Mark& mark : vehicle.marks) add(mark.name, mark.p_CB);
  if (vehicle.sprung) add("sprung", vehicle.sprung->p_CM);
  if (vehicle.ledger) {
    for (const Mass& item : vehicle.ledger->removed) add(item.item, item.p_CM);
    for (const Mass& item : vehicle.ledger->added) add(item.item, item.p_CM);
  }
  for (const Load& load : vehicle.loads) {
    for (const Mass& item : load.items) add(item.item, item.p_CM);
  }
  return places;
}

// The file's way goes point by point through its keys, the solver's through the vehicle's members.
TEST(MovesOfAFile, AreThoseOfTheVehicle) {
  const TempFolder folder;
  const std::filesystem::path vehicles =
      std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "fixtures/vehicles";
  const Stretch stretch{.at = -1.3, .by = -0.11};
  const BodyPlacing body{.move = {0.04, -0.03}, .pitch = 0.02, .about = -0.9};
  int compared = 0;
  for (const auto& entry : std::filesystem::directory_iterator(vehicles)) {
    const std::string file = std::filesystem::absolute(entry.path()).string();
    Vehicle vehicle = ReadVehicleFile(file).vehicle;
    if (vehicle.only_axle || vehicle.axles[0].springs.empty()) continue;
    bool spaced = false;  // a spacer comes after its own file's moves, and here before
    for (const Axle& axle : vehicle.axles) {
      for (const Spring& spring : axle.springs) spaced = spaced || spring.spacer != 0.0;
    }
    if (spaced) continue;
    const Vehicle read =
        ReadVehicleFile(
            folder.Write("moved.yaml", fmt::format("base: {}\nunits: metric\n"
                                                   "stretch: {{at: -1300, by: -110}}\n"
                                                   "body: {{move: [40, -30], pitch: 0.02 rad, "
                                                   "about: -900}}\n",
                                                   file)))
            .vehicle;
    const auto before = PlacesOf(vehicle), got = PlacesOf(read);
    const auto wanted = PlacesOf(WithBodyPlaced(Stretched(vehicle, stretch), body));
    ASSERT_EQ(got.size(), wanted.size());
    int moved = 0;
    for (const auto& [name, place] : wanted) {
      ASSERT_TRUE(got.contains(name)) << file << ": " << name;
      EXPECT_TRUE(check::Near(got.at(name), place, kTol)) << file << ": " << name;
      if (!check::Near(before.at(name), place, 1e-6)) ++moved;
    }
    EXPECT_GT(moved, 10) << file;
    ++compared;
  }
  EXPECT_GT(compared, 8);
}

constexpr std::string_view kMore = R"(    springs:
      coil: {pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], rate: 29, free_length: 339}
openings:
  front: {center: [8, 362]}
marks:
  sill: [-1000, 700, 400]
)";

class Moves : public testing::Test {
 protected:
  Moves() { folder_.Write("base.yaml", BenchWith(kMore)); }
  Vehicle Read(const std::string& name, std::string_view text) {
    return ReadVehicleFile(folder_.Write(name, text)).vehicle;
  }
  TempFolder folder_;
};

TEST_F(Moves, MoveTheNumbersOfTheFile) {
  const Vehicle moved = Read("plan.yaml", R"(base: base.yaml
stretch: {at: -1500, by: 100}
body: {move: [20, 10]}
)");
  const Axle& rear = moved.axles[1];
  EXPECT_TRUE(check::Near(rear.p_CW_r, Eigen::Vector3d(-2.640, -0.745, 0.363), kTol));
  EXPECT_TRUE(check::Near(rear.links[0].span.p_CP, Eigen::Vector3d(-2.005, 0.430, 0.395), kTol));
  EXPECT_TRUE(check::Near(rear.links[1].span.p_CQ, Eigen::Vector3d(-2.600, -0.465, 0.300), kTol));
  EXPECT_TRUE(check::Near(rear.springs[1].span.p_CP, Eigen::Vector3d(-2.635, -0.420, 0.660), kTol));
  EXPECT_TRUE(
      check::Near(moved.axles[0].links[0].span.p_CP, Eigen::Vector3d(-0.610, 0.410, 0.425), kTol));
  EXPECT_NEAR(moved.axles[0].opening->x, 0.028, kTol);
  EXPECT_NEAR(moved.axles[0].opening->z, 0.372, kTol);
  EXPECT_TRUE(check::Near(moved.marks[0].p_CB, Eigen::Vector3d(-0.980, 0.700, 0.410), kTol));
}

TEST_F(Moves, ComeAfterTheChangesOfTheirOwnFile) {
  const Vehicle moved = Read("plan.yaml", R"(base: base.yaml
stretch: {at: -2000, by: 100}
change:
  axles.rear.links.upper arm.frame: [-2100, -140, 545]
)");
  EXPECT_NEAR(moved.axles[1].links[2].span.p_CP.x(), -2.200, kTol);  // not -2.040, not -2.140
  EXPECT_NEAR(moved.axles[1].links[0].span.p_CP.x(), -1.905, kTol);  // ahead of the cut
}

TEST_F(Moves, OfAChainCountEachInItsTurn) {
  folder_.Write("first.yaml", "base: base.yaml\nstretch: {at: -1500, by: 100}\n");
  // What the second file gives is a place on the first one's longer chassis.
  const Vehicle moved = Read("second.yaml", R"(base: first.yaml
change:
  axles.rear.links.upper arm.frame: [-2150, -140, 545]
stretch: {at: -2010, by: 50}
body: {move: [1 in, 0]}
)");
  EXPECT_NEAR(moved.axles[1].links[2].span.p_CP.x(), -2.200, kTol);
  EXPECT_NEAR(moved.axles[1].links[0].span.p_CP.x(), -2.005, kTol);  // ahead of the second cut
  EXPECT_NEAR(moved.axles[1].p_CW_l.x(), -2.690, kTol);
  EXPECT_NEAR(moved.axles[0].opening->x, 0.008 + 0.0254, kTol);
}

TEST_F(Moves, TakeTheUnitsOfTheirOwnFile) {
  const Vehicle moved =
      Read("plan.yaml", "base: base.yaml\nunits: inch\nstretch: {at: -60, by: 1 1/2}\n");
  EXPECT_NEAR(moved.axles[1].p_CW_l.x(), -2.540 - 0.0381, kTol);
}

// By hand: 100 mm out of the chassis behind the shaft's output and ahead of the arms.
TEST_F(Moves, CutAFileWithOneAxleLikeAnyOther) {
  const std::string file = std::filesystem::absolute(std::filesystem::path(LINKWRIGHT_SOURCE_DIR) /
                                                     "fixtures/vehicles/rear_axle_on_stands.yaml")
                               .string();
  const Vehicle before = ReadVehicleFile(file).vehicle;
  const Vehicle cut = Read("cut.yaml", "base: " + file + "\nstretch: {at: -1700, by: -100}\n");
  const Eigen::Vector3d ahead(0.100, 0.0, 0.0);
  const Axle &was = before.axles[1], &is = cut.axles[1];
  EXPECT_TRUE(check::Near(is.p_CW_l, was.p_CW_l + ahead, kTol));
  EXPECT_TRUE(check::Near(is.pinion->p_CY, was.pinion->p_CY + ahead, kTol));
  for (size_t i = 0; i < was.links.size(); ++i) {
    EXPECT_TRUE(check::Near(is.links[i].span.p_CP, was.links[i].span.p_CP + ahead, kTol));
    EXPECT_TRUE(check::Near(is.links[i].span.p_CQ, was.links[i].span.p_CQ + ahead, kTol));
  }
  EXPECT_TRUE(check::Near(is.gaps[0].span.p_CP, was.gaps[0].span.p_CP + ahead, kTol));
  EXPECT_EQ(is.opening->x, was.opening->x);  // the body stays
  EXPECT_EQ(cut.driveshafts[0].p_CO, before.driveshafts[0].p_CO);
  // Ahead of what is on the chassis behind the axle only that goes.
  const Vehicle behind = Read("behind.yaml", "base: " + file + "\nstretch: {at: -2830, by: 60}\n");
  EXPECT_EQ(behind.axles[1].p_CW_l, was.p_CW_l);
  EXPECT_NEAR(behind.axles[1].gaps[0].span.p_CP.x(), -2.920, kTol);
  EXPECT_EQ(behind.axles[1].links[4].span.p_CP, was.links[4].span.p_CP);
}

TEST_F(Moves, AreRefusedWhereNothingWasMeasuredBefore) {
  for (const char* key : {"body: {move: [1, 2]}", "stretch: {at: 1, by: 2}"}) {
    const auto errors = ErrorsOf(folder_.Write("bare.yaml", BenchWith(kMore) + key + "\n"));
    ASSERT_EQ(errors.size(), 1U);
    EXPECT_THAT(errors[0], testing::HasSubstr(
                               "unknown key; it goes into a variant: a file with 'base: FILE'"));
  }
}

TEST_F(Moves, ThatLeaveNoWheelbaseAreRefused) {
  const auto errors =
      ErrorsOf(folder_.Write("plan.yaml", "base: base.yaml\nstretch: {at: -1500, by: -2600}\n"));
  ASSERT_FALSE(errors.empty());
  EXPECT_THAT(errors[0], testing::HasSubstr("not behind the front wheel"));
}

TEST_F(Moves, DefaultLoadIsTheNearestFilesWord) {
  const std::string loads =
      "loads:\n  empty: []\n  driver: [{item: a, mass: 80, at: [-1000, 0, 900]}]\n";
  folder_.Write("loaded.yaml", BenchWith(std::string(kMore) + loads + "default_load: driver\n"));
  EXPECT_EQ(DefaultLoad(Read("a.yaml", "base: loaded.yaml\n")).name, "driver");
  EXPECT_EQ(DefaultLoad(Read("b.yaml", "base: loaded.yaml\ndefault_load: empty\n")).name, "empty");
  EXPECT_EQ(DefaultLoad(Read("c.yaml", "base: base.yaml\ndefault_load: empty\n")).name, "empty");
  EXPECT_THAT(ErrorsOf(folder_.Write("d.yaml", "base: loaded.yaml\ndefault_load: drivr\n")),
              testing::ElementsAre("d.yaml:2:15 default_load: no load is called 'drivr'; did you "
                                   "mean 'driver'?"));
  EXPECT_THAT(ErrorsOf(folder_.Write("e.yaml", "base: loaded.yaml\nremove: [loads.driver]\n")),
              testing::ElementsAre("loaded.yaml:25:15 default_load: no load is called 'driver'; "
                                   "the file has 'empty'"));
}

}  // namespace
}  // namespace linkwright
