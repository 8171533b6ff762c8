// SPDX-License-Identifier: MIT
// Parts through variants of a file: what is kept, what is swapped, and what that does to where the
// vehicle stands.
#include "io/read/parts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "io/read/vehicle_file.h"
#include "solver/model/arms_kept.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

const std::string kVehicles = std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/";

struct Parts : testing::Test {
  TempFolder folder;

  // A variant of a fixture.
  VehicleFile Variant(const std::string& base, const std::string& changes) {
    return ReadVehicleFile(
        folder.Write("variant.yaml", "base: " + kVehicles + base + ".yaml\n" + changes));
  }
  // A variant of what Variant wrote as `first.yaml`.
  VehicleFile After(const std::string& base, const std::string& first, const std::string& second) {
    folder.Write("first.yaml", "base: " + kVehicles + base + ".yaml\n" + first);
    return ReadVehicleFile(folder.Write("second.yaml", "base: first.yaml\n" + second));
  }
};

std::string ReadTextOf(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

const Link& LinkOf(const VehicleFile& file, size_t axle, const std::string& name) {
  for (const Link& link : file.vehicle.axles[axle].links) {
    if (DisplayName(link.name) == name) return link;
  }
  throw std::runtime_error(name);
}

const Spring& CoilOf(const VehicleFile& file, size_t axle, size_t which) {
  return file.vehicle.axles[axle].springs.at(which);
}

Pose Held(const VehicleFile& file, size_t axle) {
  return PrepareRig(file.vehicle).axles[axle].measured.pose;
}

double RiseFront(const VehicleFile& file) {
  const Rig rig = PrepareRig(file.vehicle);
  const Stance stance = Settle(rig, file.vehicle.loads.front());
  EXPECT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  return ReportStance(rig, stance).axles[0].body_rise;
}

TEST_F(Parts, AMovedHoleKeepsItsArm) {
  const VehicleFile van = ReadVehicleFile(kVehicles + "harbour_van.yaml");
  const VehicleFile moved = Variant(
      "harbour_van", "change:\n  axles.rear.links.lower arm left.frame: [-1914.5, 430, 395]\n");
  for (const char* name : {"lower arm left", "lower arm right", "upper arm left", "track bar"}) {
    EXPECT_EQ(LengthOf(LinkOf(moved, kRear, name)), LengthOf(LinkOf(van, kRear, name))) << name;
  }
  EXPECT_EQ(LinkOf(moved, kRear, "lower arm right").span.p_CP,
            Eigen::Vector3d(-1.905, -0.430, 0.395));
  EXPECT_GT(std::abs(Held(moved, kRear).steer), 0.003);  // it steers the axle
}

// Every hole of a four-link axle back by 3/4 in moves it by that and nothing else.
TEST_F(Parts, EveryHoleMovedBackMovesTheAxle) {
  const VehicleFile truck = ReadVehicleFile(kVehicles + "depot_truck.yaml");
  std::string changes = "change:\n";
  for (const Link& link : truck.vehicle.axles[kRear].links) {
    if (link.name.side == Side::kRight) continue;
    const double x = link.span.p_CP.x() / 0.0254 - 0.75;
    changes += "  axles.rear.links." + link.name.key + ".frame[1]: " + std::to_string(x) + "\n";
  }
  const VehicleFile moved = Variant("depot_truck", changes);
  const Pose before = Held(truck, kRear), after = Held(moved, kRear);
  EXPECT_NEAR(after.x - before.x, -0.75 * 0.0254, 1e-7);  // six decimals of an inch were written
  EXPECT_NEAR(after.y, before.y, 1e-7);
  EXPECT_NEAR(after.steer, before.steer, 1e-7);
  EXPECT_NEAR(after.pitch, before.pitch, 1e-7);
}

TEST_F(Parts, FitMakesTheArmAnewAndLaterVariantsKeepIt) {
  const std::string fit =
      "change:\n  axles.rear.links.lower arm.frame: [-1905, 430, 355]\n"
      "  axles.rear.links.lower arm.length: fit\n";
  const VehicleFile made = Variant("harbour_van", fit);
  EXPECT_FALSE(HasKeptArms(made.vehicle.axles[kRear]));
  const VehicleFile after =
      After("harbour_van", fit, "change:\n  axles.rear.links.lower arm.frame: [-1905, 430, 395]\n");
  EXPECT_EQ(LengthOf(LinkOf(after, kRear, "lower arm left")),
            LengthOf(LinkOf(made, kRear, "lower arm left")));
}

TEST_F(Parts, ALengthInAVariantMovesTheHousingAndInAMeasurementThePoints) {
  const VehicleFile turned =
      Variant("harbour_van", "change:\n  axles.rear.links.track bar.length: 903\n");
  const Link& bar = LinkOf(turned, kRear, "track bar");
  EXPECT_EQ(bar.span.p_CP, Eigen::Vector3d(-2.650, 0.455, 0.505));
  EXPECT_NEAR(LengthOf(bar), 0.903, 1e-12);
  EXPECT_LT(Held(turned, kRear).y, -0.003);
  // The same key in the file that measured.
  std::string van = ReadTextOf(kVehicles + "harbour_van.yaml");
  const std::string points = "track bar: {frame: [-2650, 455, 505], axle: [-2660, -440, 440]";
  van.replace(van.find(points), points.size(), points + ", length: 903");
  const VehicleFile measured = ReadVehicleFile(folder.Write("measured.yaml", van));
  const Link& corrected = LinkOf(measured, kRear, "track bar");
  EXPECT_NEAR(MeasuredLength(corrected.span), 0.903, 1e-12);
  EXPECT_FALSE(corrected.length);
  EXPECT_NEAR(corrected.taped_short, 0.903 - MeasuredLength(bar.span), 1e-12);
  EXPECT_NEAR((corrected.span.p_CP + corrected.span.p_CQ - bar.span.p_CP - bar.span.p_CQ).norm(),
              0.0, 1e-12);
}

// A tyre that a variant changes is not the one that stood on the scales: neither it nor what later
// variants keep of it is held against them.
TEST_F(Parts, AChangedTyreIsNotTheOneThatWasMeasured) {
  const auto changed = [](const VehicleFile& file) {
    return file.vehicle.axles[kFront].tire.changed;
  };
  EXPECT_FALSE(changed(ReadVehicleFile(kVehicles + "harbour_van.yaml")));
  EXPECT_FALSE(changed(Variant("harbour_van", "change: {axles.front.tire.width: 255}\n")));
  for (const char* change : {"axles.front.tire.radius: 400", "axles.front.tire.rate: 260 N/mm",
                             "axles.front.tire: {radius: 400, width: 255, rate: 260 N/mm}"}) {
    const std::string first = "change: {" + std::string(change) + "}\n";
    EXPECT_TRUE(changed(Variant("harbour_van", first))) << change;
    EXPECT_TRUE(changed(After("harbour_van", first, "title: later\n"))) << change;
  }
}

// The spacer case: an axle seat 1 in up under a coil that was weighed.
TEST_F(Parts, ASpacerUnderAWeighedCoilLiftsTheBody) {
  const VehicleFile truck = ReadVehicleFile(kVehicles + "orchard_tractor_truck.yaml");
  const VehicleFile weighed =
      Variant("orchard_tractor_truck", "change:\n  axles.front.springs.coil.axle[3]: 17\n");
  EXPECT_EQ(CoilOf(weighed, kFront, 0).law.free_length, CoilOf(truck, kFront, 0).law.free_length);
  EXPECT_EQ(CoilOf(weighed, kFront, 1).law.free_length, CoilOf(truck, kFront, 1).law.free_length);
  EXPECT_GT(RiseFront(weighed) - RiseFront(truck), 0.8 * 0.0254);
  // As under coils of the same rate with those lengths given.
  VehicleFile given = weighed;
  for (Spring& spring : given.vehicle.axles[kFront].springs) spring.weighed = false;
  EXPECT_NEAR(RiseFront(given), RiseFront(weighed), 1e-12);
}

TEST_F(Parts, AnotherRateUnderAWeighedCoilWantsItsLength) {
  try {
    (void)Variant("orchard_tractor_truck", "change:\n  axles.front.springs.coil.rate: 180\n");
    FAIL() << "an error is wanted";
  } catch (const InputErrors& errors) {
    ASSERT_EQ(errors.errors.size(), 1U);
    EXPECT_EQ(errors.errors[0].place.line, 3);
    EXPECT_NE(errors.errors[0].message.find("give its own free_length too"), std::string::npos);
  }
}

TEST_F(Parts, NewScalesCorrectTheMeasurement) {
  const VehicleFile truck = ReadVehicleFile(kVehicles + "depot_truck.yaml");
  const VehicleFile heavier =
      Variant("depot_truck",
              "change:\n  ledger.weighed.front_left: 1160\n"
              "  axles.front.springs.coil.axle[3]: 18\n");  // its place does not matter
  EXPECT_GT(CoilOf(heavier, kFront, 0).law.free_length,
            CoilOf(truck, kFront, 0).law.free_length + 0.1 * 0.0254);
  const VehicleFile plain = Variant("depot_truck", "change:\n  ledger.weighed.front_left: 1160\n");
  for (const size_t i : {0, 1}) {
    EXPECT_EQ(CoilOf(heavier, kFront, i).law.free_length, CoilOf(plain, kFront, i).law.free_length);
  }
}

TEST_F(Parts, ArmsThatCannotBePutTogetherAreAnErrorAtTheWorst) {
  const VehicleFile file =
      Variant("depot_truck", "change:\n  axles.rear.links.lower arm left.length: 2\n");
  try {
    (void)PrepareRig(file.vehicle);
    FAIL() << "an error is wanted";
  } catch (const ModelError& error) {
    const InputErrors located = Locate(file, error);
    EXPECT_NE(located.errors[0].message.find("cannot be put together"), std::string::npos);
    EXPECT_EQ(located.errors[0].message.find("{}"), std::string::npos);
    EXPECT_GT(located.errors[0].place.line, 0);
  }
}

// A shaft keeps its length: an axle moved back uses up its slip.
TEST_F(Parts, AShaftKeepsItsLength) {
  std::string changes = "change:\n";
  for (const char* arm : {"lower arm", "upper arm"}) {
    changes += std::string("  axles.rear.links.") + arm +
               (arm[0] == 'l' ? ".frame[1]: -1925\n" : ".frame[1]: -2060\n");
  }
  const VehicleFile moved = Variant("harbour_van", changes);
  const Driveshaft& shaft = moved.vehicle.driveshafts[0];
  EXPECT_FALSE(shaft.length);  // the points as measured are where they were
  const VehicleFile output =
      Variant("harbour_van", "change:\n  driveshafts.rear.output[1]: -1150\n");
  ASSERT_TRUE(output.vehicle.driveshafts[0].length);
  EXPECT_NEAR(*output.vehicle.driveshafts[0].length,
              std::hypot(2230.0 - 1130.0, 470.0 - 395.0) / 1e3, 1e-12);
}

}  // namespace
}  // namespace linkwright
