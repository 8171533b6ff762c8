// SPDX-License-Identifier: MIT
#include "io/read/vehicle_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kRounding = 1e-12;  // [m, rad] parse and one multiplication

std::string Fixture(const std::string& name) {
  return std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/" + name;
}

testing::AssertionResult Near(const Eigen::Vector3d& point, double x, double y, double z) {
  const bool near = ((point - Eigen::Vector3d(x, y, z)).cwiseAbs().array() <= kRounding).all();
  return near ? testing::AssertionSuccess() : testing::AssertionFailure() << point.transpose();
}

class HarbourVan : public testing::Test {
 protected:
  const VehicleFile file_ = ReadVehicleFile(Fixture("harbour_van.yaml"));
  const Vehicle& vehicle_ = file_.vehicle;
  const Axle& front_ = vehicle_.axles[kFront];
  const Axle& rear_ = vehicle_.axles[kRear];
};

TEST_F(HarbourVan, KnowsItself) {
  EXPECT_EQ(vehicle_.title, "Harbour delivery van");
  EXPECT_EQ(file_.units, UnitSystem::kMetric);
  EXPECT_EQ(file_.path, Fixture("harbour_van.yaml"));
  EXPECT_THAT(file_.inputs, testing::ElementsAre(Fixture("harbour_van.yaml")));
  EXPECT_EQ(vehicle_.floor_z, 0.0);
}

TEST_F(HarbourVan, HasWheelsTyresAndShares) {
  EXPECT_EQ(front_.name, "front");
  EXPECT_TRUE(Near(rear_.p_CW_l, -2.54, 0.745, 0.363));
  EXPECT_TRUE(Near(rear_.p_CW_r, -2.54, -0.745, 0.363));
  EXPECT_NEAR(front_.tire.radius.value(), 0.378, kRounding);
  EXPECT_NEAR(front_.tire.width.value(), 0.235, kRounding);
  EXPECT_DOUBLE_EQ(front_.tire.rate.value(), 230e3);
  EXPECT_EQ(front_.unsprung->mass, 128.0);
  EXPECT_TRUE(Near(front_.unsprung->p_CM, 0.0, 0.0, 0.365));
  EXPECT_EQ(front_.drive_share, 0.0);
  EXPECT_EQ(rear_.brake_share, 0.36);
}

TEST_F(HarbourVan, HasItsPairsAsTwoMembersEach) {
  ASSERT_EQ(front_.links.size(), 5U);
  EXPECT_EQ(front_.links[0].name.key, "lower arm");
  EXPECT_EQ(front_.links[0].name.side, Side::kLeft);
  EXPECT_TRUE(Near(front_.links[0].span.p_CP, -0.610, 0.410, 0.425));
  EXPECT_EQ(front_.links[1].name.key, "lower arm");
  EXPECT_EQ(front_.links[1].name.side, Side::kRight);
  EXPECT_TRUE(Near(front_.links[1].span.p_CP, -0.610, -0.410, 0.425));
  EXPECT_TRUE(Near(front_.links[1].span.p_CQ, -0.040, -0.452, 0.300));
  EXPECT_EQ(front_.links[4].name.key, "track bar");
  EXPECT_EQ(front_.links[4].name.side, Side::kMiddle);
  EXPECT_TRUE(Near(front_.links[4].span.p_CQ, 0.080, -0.470, 0.440));
  EXPECT_DOUBLE_EQ(front_.links[4].rate, 5e6);
}

TEST_F(HarbourVan, HasCoilsStopsAndDampers) {
  ASSERT_EQ(rear_.springs.size(), 2U);
  EXPECT_DOUBLE_EQ(rear_.springs[1].law.rate, 29e3);
  EXPECT_NEAR(rear_.springs[1].law.free_length, 0.339, kRounding);
  EXPECT_NEAR(rear_.springs[1].solid_length.value(), 0.120, kRounding);
  EXPECT_FALSE(rear_.springs[1].weighed);
  EXPECT_TRUE(rear_.springs[1].law.curve.empty());
  ASSERT_EQ(rear_.bump_stops.size(), 2U);
  ASSERT_EQ(rear_.bump_stops[0].law.curve.size(), 4U);
  EXPECT_NEAR(rear_.bump_stops[0].law.curve[3].deflection, 0.040, kRounding);
  EXPECT_EQ(rear_.bump_stops[0].law.curve[3].force, 8000.0);
  EXPECT_NEAR(rear_.bump_stops[0].law.free_length, 0.067, kRounding);
  ASSERT_EQ(rear_.dampers.size(), 2U);
  EXPECT_NEAR(rear_.dampers[0].shortest.value(), 0.315, kRounding);
  EXPECT_NEAR(rear_.dampers[0].longest.value(), 0.505, kRounding);
  EXPECT_DOUBLE_EQ(rear_.dampers[0].bump.value(), 1000.0);
  EXPECT_DOUBLE_EQ(rear_.dampers[0].rebound.value(), 2200.0);
}

TEST_F(HarbourVan, HasSteeringBarPinionAndOpenings) {
  EXPECT_NEAR(front_.kingpin->caster, 6.0 * kDegree, kRounding);
  EXPECT_NEAR(front_.kingpin->inclination, 9.0 * kDegree, kRounding);
  EXPECT_TRUE(Near(front_.kingpin->p_CK.value(), 0.0, 0.665, 0.359));
  EXPECT_TRUE(Near(front_.steering->drag_link.p_CP, 0.180, 0.430, 0.470));
  EXPECT_TRUE(Near(front_.steering->drag_link.p_CQ, 0.140, -0.560, 0.415));
  EXPECT_NEAR(front_.bar_roll_rate.value(), 210.0 / kDegree, 1e-9);
  EXPECT_FALSE(rear_.bar_roll_rate.has_value());
  EXPECT_TRUE(Near(rear_.pinion->p_CY, -2.230, 0.0, 0.395));
  EXPECT_NEAR(rear_.pinion->angle, 3.0 * kDegree, kRounding);
  EXPECT_NEAR(front_.opening->x, 0.008, kRounding);
  EXPECT_NEAR(rear_.opening->z, 0.372, kRounding);
  EXPECT_NEAR(rear_.opening->radius.value(), 0.425, kRounding);
}

TEST_F(HarbourVan, HasItsDriveshaft) {
  ASSERT_EQ(vehicle_.driveshafts.size(), 1U);
  const Driveshaft& shaft = vehicle_.driveshafts[0];
  EXPECT_EQ(shaft.name, "rear");
  EXPECT_TRUE(Near(shaft.p_CO, -1.130, 0.0, 0.470));
  EXPECT_NEAR(shaft.output_angle, -3.0 * kDegree, kRounding);
  EXPECT_EQ(shaft.axle, kRear);
  EXPECT_EQ(shaft.output_joint, JointKind::kSingle);
  EXPECT_EQ(shaft.phase, 0.0);
  EXPECT_NEAR(shaft.slip.value(), 0.055, kRounding);
  EXPECT_NEAR(shaft.slip_left.value(), 0.0275, kRounding);
  EXPECT_NEAR(shaft.top_speed.value(), 120.0 * std::numbers::pi, 1e-9);
}

TEST_F(HarbourVan, HasLedgerLoadsAndMarks) {
  ASSERT_TRUE(vehicle_.ledger.has_value());
  EXPECT_THAT(vehicle_.ledger->weighed, testing::ElementsAre(446, 439, 352, 345));
  EXPECT_NEAR(vehicle_.ledger->cg_height, 0.655, kRounding);
  ASSERT_EQ(vehicle_.ledger->removed.size(), 2U);
  ASSERT_EQ(vehicle_.ledger->added.size(), 3U);
  EXPECT_EQ(vehicle_.ledger->added[0].item, "van body, doors and glass");
  EXPECT_EQ(vehicle_.ledger->added[2].mass, 52.0);
  EXPECT_TRUE(Near(vehicle_.ledger->added[2].p_CM, -2.960, -0.120, 0.520));
  EXPECT_FALSE(vehicle_.sprung.has_value());
  ASSERT_EQ(vehicle_.loads.size(), 3U);
  EXPECT_EQ(vehicle_.loads[0].name, "empty");
  EXPECT_EQ(vehicle_.loads[0].items.size(), 0U);
  EXPECT_EQ(vehicle_.loads[2].items[1].item, "crates");
  ASSERT_EQ(vehicle_.marks.size(), 4U);
  EXPECT_EQ(vehicle_.marks[3].name, "sill rear left");
  EXPECT_TRUE(Near(vehicle_.marks[3].p_CB, -2.010, 0.760, 0.420));
}

TEST_F(HarbourVan, IsTheSameWithEveryNumberInInches) {
  // Each length of the van, written in inches with a unit, comes back to the millimetre values.
  EXPECT_NEAR(0.745, 29.330708661417322 * 0.0254, kRounding);
  const TempFolder folder;
  const std::string path = folder.Write(
      "inch.yaml", fmt::format("base: {}\nunits: inch\nchange:\n  axles.rear.wheel_center: "
                               "[-100, 29.330708661417322, 14.291338582677165]\n",
                               Fixture("harbour_van.yaml")));
  EXPECT_TRUE(Near(ReadVehicleFile(path).vehicle.axles[kRear].p_CW_l, -2.54, 0.745, 0.363));
}

TEST(VehicleFile, OfEveryFixtureCanBeRead) {
  for (const auto& entry : std::filesystem::directory_iterator(Fixture(""))) {
    if (entry.path().extension() != ".yaml") continue;
    EXPECT_THAT(ErrorsOf(entry.path().string()), testing::ElementsAre()) << entry.path();
  }
}

// Reads a text as a file.
Vehicle Read(const std::string& text) {
  const TempFolder folder;
  return ReadVehicleFile(folder.Write("van.yaml", text)).vehicle;
}

TEST(VehicleFile, MayBeGeometryOnly) {
  const Vehicle bench = Read(std::string(kBench));
  EXPECT_FALSE(bench.ledger || bench.sprung);
  EXPECT_FALSE(bench.axles[kFront].unsprung.has_value());
  ASSERT_EQ(bench.loads.size(), 1U);
  EXPECT_EQ(bench.loads[0].name, "empty");
  EXPECT_TRUE(bench.loads[0].items.empty());
}

TEST(VehicleFile, GivesTheSprungMassItself) {
  std::string text = BenchWith(
      "    unsprung: {mass: 118, at: [-2540, 0, 365]}\n"
      "sprung: {mass: 2600 lb, at: [-1100, 0, 700], pitch_inertia: 50000 lb ft2}\n");
  text.replace(text.find("    links:"), 0, "    unsprung: {mass: 128, at: [0, 0, 365]}\n");
  const Vehicle vehicle = Read(text);
  EXPECT_DOUBLE_EQ(vehicle.sprung->mass, 2600 * 0.45359237);
  EXPECT_TRUE(Near(vehicle.sprung->p_CM, -1.1, 0.0, 0.7));
  EXPECT_NEAR(vehicle.sprung->pitch_inertia.value(), 50000 * 0.45359237 * 0.3048 * 0.3048, 1e-9);
}

TEST(VehicleFile, TakesARightWheelOfItsOwn) {
  std::string text(kBench);
  text.replace(text.find("    links:"), 0, "    wheel_center_right: [3, -747, 358]\n");
  EXPECT_TRUE(Near(Read(text).axles[kFront].p_CW_r, 0.003, -0.747, 0.358));
}

TEST(VehicleFile, TakesATieRodAndMirrorsItsEnd) {
  const auto with_rod = [](std::string_view rod) {
    std::string text(kBench);
    text.replace(text.find("    links:"), 0,
                 fmt::format("    kingpin: {{caster: 6, at: [0, 665, 359]}}\n    steering:\n      "
                             "drag_link: {{frame: [180, 430, 470], axle: [140, -560, 415]}}\n{}",
                             rod));
    return Read(text).axles[kFront].steering.value();
  };
  EXPECT_FALSE(with_rod("").tie_rod.has_value());
  const TieRod even = with_rod("      tie_rod: {left: [-120, 610, 380]}\n").tie_rod.value();
  EXPECT_TRUE(Near(even.p_CL, -0.12, 0.61, 0.38));
  EXPECT_TRUE(Near(even.p_CR, -0.12, -0.61, 0.38));
  const TieRod odd = with_rod("      tie_rod: {left: [-120, 610, 380], right: [-118, -605, 379]}\n")
                         .tie_rod.value();
  EXPECT_TRUE(Near(odd.p_CR, -0.118, -0.605, 0.379));
}

TEST(VehicleFile, LetsAPairMeetOnTheCentreline) {
  std::string text(kBench);
  text.replace(text.find("upper arm: {frame: [-480, -140, 545], axle: [15, -150, 480]}"), 60,
               "upper arm: {pair: true, frame: [-480, 300, 545], axle: [15, 0, 480]}");
  const Vehicle vehicle = Read(text);
  EXPECT_TRUE(Near(vehicle.axles[kFront].links[3].span.p_CP, -0.480, -0.300, 0.545));
  EXPECT_TRUE(Near(vehicle.axles[kFront].links[3].span.p_CQ, 0.015, 0.0, 0.480));
}

// Handbook check 4 of EN 13906-1's own worked sheet: wire 5, mean diameter 34.60, 9.5 active coils,
// 81.5 GPa give 16.181 N/mm (printed to 1e-3; dsoftcon.be, ComprSpringVerOutp).
TEST(VehicleFile, WorksOutTheRateOfAHelicalCoil) {
  const Vehicle vehicle = Read(BenchWith(
      "    springs:\n      coil: {pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], "
      "wire: 5, mean_diameter: 34.60, active_coils: 9.5, free_length: 300}\n"));
  const Spring& coil = vehicle.axles[kRear].springs[0];
  EXPECT_NEAR(coil.law.rate, 16181.0, 0.5);
  EXPECT_DOUBLE_EQ(coil.wire->shear_modulus, 81.5e9);
  EXPECT_DOUBLE_EQ(coil.wire->active_coils, 9.5);
  EXPECT_NEAR(coil.wire->wire_diameter, 0.005, kRounding);
  EXPECT_NEAR(coil.wire->mean_diameter, 0.0346, kRounding);
}

TEST(VehicleFile, TakesAnotherShearModulus) {
  const Vehicle vehicle = Read(BenchWith(
      "    springs:\n      coil: {pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], "
      "wire: 0.62 in, mean_diameter: 5 in, active_coils: 7, shear_modulus: 11.2 Mpsi, "
      "free_length: 13 in}\n"));
  // G d^4 / (8 D^3 n) = 236.4214 lbf/in, worked out by hand.
  EXPECT_NEAR(vehicle.axles[kRear].springs[0].law.rate, 236.4214 * 175.126835246, 0.01);
}

TEST(VehicleFile, TakesCurvesForCoilsAndRatesForStops) {
  const Vehicle vehicle = Read(BenchWith(
      "    springs:\n      coil: {pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], "
      "curve: [[0, 0], [2 in, 300 lbf], [150, 5000]], free_length: 339}\n"
      "    bump_stops:\n      block: {frame: [-2537, 0, 560], axle: [-2536, 0, 458], "
      "free_length: 67, rate: 1 kN/mm}\n"));
  const Axle& rear = vehicle.axles[kRear];
  ASSERT_EQ(rear.springs[0].law.curve.size(), 3U);
  EXPECT_NEAR(rear.springs[0].law.curve[1].deflection, 0.0508, kRounding);
  EXPECT_DOUBLE_EQ(rear.springs[0].law.curve[1].force, 300 * 4.4482216152605);
  EXPECT_DOUBLE_EQ(rear.bump_stops[0].law.rate, 1e6);
  EXPECT_EQ(rear.bump_stops.size(), 1U);
  EXPECT_FALSE(rear.bump_stops[0].cone_on_axle);
  EXPECT_FALSE(rear.bump_stops[0].pad_radius);
}

TEST(VehicleFile, TakesWhichBodyCarriesTheConeAndHowWideThePadIs) {
  const Vehicle vehicle =
      Read(BenchWith("    bump_stops:\n      block: {pair: true, frame: [-2537, 500, 560], axle: "
                     "[-2536, 500, 458], "
                     "free_length: 67, rate: 1 kN/mm, cone_on: axle, pad_radius: 1 1/2 in}\n"));
  for (const Stop& stop : vehicle.axles[kRear].bump_stops) {
    EXPECT_TRUE(stop.cone_on_axle);
    EXPECT_NEAR(stop.pad_radius.value(), 0.0381, kRounding);
  }
  EXPECT_EQ(vehicle.axles[kRear].bump_stops.size(), 2U);
}

// A yoke ahead of the wheels comes up under power, one behind goes down: preset against it.
TEST(VehicleFile, APinionBehindADoubleJointIsPresetAgainstItsWindUp) {
  const auto low = [](const char* yoke, const char* more) {
    return Read(BenchWith(std::string("    pinion: {yoke: ") + yoke +
                          ", angle: 2}\ndriveshafts:\n  main: {output: [-1130, 0, 470], "
                          "output_angle: 0, axle: rear, joints: [double, single]" +
                          more + "}\n"))
        .driveshafts.at(0)
        .pinion_low;
  };
  EXPECT_NEAR(low("[-2230, 0, 395]", ""), 1.5 * kDegree, kRounding);
  EXPECT_NEAR(low("[-2830, 0, 395]", ""), -1.5 * kDegree, kRounding);
  EXPECT_NEAR(low("[-2830, 0, 395]", ", pinion_low: 1"), 1.0 * kDegree, kRounding);
}

TEST(VehicleFile, TakesJointsPhaseAndSlipOfAShaft) {
  const Vehicle vehicle = Read(BenchWith(
      "    pinion: {yoke: [-2230, 0, 395], angle: -1.5}\ndriveshafts:\n  main: {output: [-1130, 0, "
      "470], output_angle: 0.05 rad, axle: rear, joints: [double, single], phase: 15, slip: 60, "
      "slip_left: 0}\n"));
  const Driveshaft& shaft = vehicle.driveshafts.at(0);
  EXPECT_EQ(shaft.output_joint, JointKind::kDouble);
  EXPECT_EQ(shaft.axle_joint, JointKind::kSingle);
  EXPECT_NEAR(shaft.phase, 15 * kDegree, kRounding);
  EXPECT_NEAR(shaft.output_angle, 0.05, kRounding);
  EXPECT_EQ(shaft.slip_left, 0.0);
  EXPECT_FALSE(shaft.top_speed.has_value());
}

TEST(VehicleFile, TakesStrapsLocksJointLimitsAndWhatAnItemIsFixedTo) {
  std::string text = BenchWith(
      "    straps:\n      band: {pair: true, frame: [-2600, 300, 700], axle: [-2600, 300, 400], "
      "length: 420}\n      spare: {frame: [-2600, 0, 700], axle: [-2600, 0, 400]}\n"
      "    springs:\n      coil: {pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], "
      "rate: 29, free_length: 339, keep_seated: true}\n"
      "openings:\n  rear: {center: [-2548, 372], radius: 425, lip_y: 790, inner_panel_y: 560}\n"
      "loads:\n  crates: [{item: a, mass: 1, at: [0, 0, 0], fixed_to: rear}, "
      "{item: b, mass: 1, at: [0, 0, 0]}]\n");
  text.replace(text.find("axle: [15, -150, 480]}"), 22,
               "axle: [15, -150, 480], misalignment_limit: 12}");
  const Vehicle vehicle = Read(text);
  const Axle& rear = vehicle.axles[kRear];
  ASSERT_EQ(rear.straps.size(), 3U);
  EXPECT_NEAR(rear.straps[1].length.value(), 0.420, kRounding);
  EXPECT_TRUE(Near(rear.straps[1].span.p_CQ, -2.6, -0.3, 0.4));
  EXPECT_FALSE(rear.straps[2].length.has_value());
  EXPECT_TRUE(rear.springs[0].keep_seated);
  EXPECT_NEAR(rear.opening->lip_y.value(), 0.790, kRounding);
  EXPECT_NEAR(rear.opening->inner_panel_y.value(), 0.560, kRounding);
  EXPECT_EQ(vehicle.loads.at(0).items.at(0).fixed_to, FixedTo::kRear);
  EXPECT_FALSE(vehicle.loads.at(0).items.at(1).fixed_to.has_value());
  size_t limited = 0;
  for (const Link& link : vehicle.axles[kFront].links) {
    if (link.misalignment_limit) ++limited;
  }
  EXPECT_EQ(limited, 1U);
}

}  // namespace
}  // namespace linkwright
