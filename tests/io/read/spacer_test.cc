// SPDX-License-Identifier: MIT
// A spacer under a weighed coil: the coil keeps the length that the weighed file gave it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

constexpr double kInch = 0.0254;

std::string Fixture(const char* name) {
  return (std::filesystem::absolute(LINKWRIGHT_SOURCE_DIR) / "fixtures/vehicles" / name).string();
}

// Where the body stands over both axles under the first load [m].
std::array<double, 2> RiseOf(const Vehicle& vehicle) {
  const Rig rig = PrepareRig(vehicle);
  const Stance stance = Settle(rig, vehicle.loads.front());
  EXPECT_EQ(stance.status, StanceStatus::kRests);
  const StanceReport report = ReportStance(rig, stance);
  return {report.axles[0].body_rise, report.axles[1].body_rise};
}

class Spacers : public testing::Test {
 protected:
  Vehicle Read(const std::string& name, const std::string& text) {
    return ReadVehicleFile(folder_.Write(name, text)).vehicle;
  }
  TempFolder folder_;
  const Vehicle truck_ = ReadVehicleFile(Fixture("orchard_tractor_truck.yaml")).vehicle;
};

TEST_F(Spacers, LeaveTheLengthThatAWeighedCoilWasFoundToHave) {
  const Vehicle spaced = ReadVehicleFile(Fixture("orchard_tractor_truck_spacer.yaml")).vehicle;
  EXPECT_EQ(spaced.axles[0].springs[0].law.free_length, truck_.axles[0].springs[0].law.free_length);
  EXPECT_NEAR(MeasuredLength(spaced.axles[0].springs[1].span),
              MeasuredLength(truck_.axles[0].springs[1].span) - kInch, 1e-12);
}

// The same coil bought with that length, its seats where tape and spacer put them.
TEST_F(Spacers, LiftTheBodyAsUnderACoilOfGivenLength) {
  const Span& span = truck_.axles[0].springs[0].span;
  const Eigen::Vector3d seat =
      span.p_CP + kInch * (span.p_CQ - span.p_CP) / (span.p_CQ - span.p_CP).norm();
  const Vehicle given =
      Read("given.yaml",
           fmt::format("base: {}\nchange:\n"
                       "  axles.front.springs.coil.frame: [{:.17g} m, {:.17g} m, {:.17g} m]\n"
                       "  axles.front.springs.coil left.free_length: {:.17g} m\n"
                       "  axles.front.springs.coil right.free_length: {:.17g} m\n",
                       Fixture("orchard_tractor_truck.yaml"), seat.x(), seat.y(), seat.z(),
                       truck_.axles[0].springs[0].law.free_length,
                       truck_.axles[0].springs[1].law.free_length));
  const auto spaced = RiseOf(ReadVehicleFile(Fixture("orchard_tractor_truck_spacer.yaml")).vehicle);
  const auto wanted = RiseOf(given), before = RiseOf(truck_);
  constexpr double kSame = 1e-9;  // [m] two ways to the same numbers
  EXPECT_NEAR(spaced[0], wanted[0], kSame);
  EXPECT_NEAR(spaced[1], wanted[1], kSame);
  EXPECT_GT(spaced[0] - before[0], 0.7 * kInch);  // the coil stands near the wheel
  // Another road: an upright coil longer by an inch is one with an inch under it.
  Vehicle longer = truck_;
  for (Spring& spring : longer.axles[0].springs) spring.law.free_length += kInch;
  constexpr double kUpright = 2e-4;  // [m] the seats are 1/4 in apart fore and aft of 11 1/2
  EXPECT_NEAR(spaced[0], RiseOf(longer)[0], kUpright);
}

TEST_F(Spacers, OfALaterVariantTakeThePlaceOfTheEarlier) {
  const Vehicle spaced =
      Read("two.yaml", fmt::format("base: {}\nchange:\n  axles.front.springs.coil.spacer: 2\n",
                                   Fixture("orchard_tractor_truck_spacer.yaml")));
  EXPECT_NEAR(MeasuredLength(spaced.axles[0].springs[0].span),
              MeasuredLength(truck_.axles[0].springs[0].span) - 2.0 * kInch, 1e-12);
}

TEST_F(Spacers, GoUnderStopsToo) {
  const Vehicle spaced =
      Read("stop.yaml", fmt::format("base: {}\nadd:\n  axles.rear.bump_stops.cone.spacer: 1/2\n",
                                    Fixture("orchard_tractor_truck.yaml")));
  for (const size_t side : {0U, 1U}) {
    EXPECT_NEAR(MeasuredLength(spaced.axles[1].bump_stops[side].span),
                MeasuredLength(truck_.axles[1].bump_stops[side].span) - 0.5 * kInch, 1e-12);
  }
}

TEST_F(Spacers, AreRefusedWhereTheyLeaveNoRoom) {
  const auto refused = [&](const std::string& path) {
    const auto errors = ErrorsOf(folder_.Write(
        "bad.yaml",
        fmt::format("base: {}\nadd:\n  {}\n", Fixture("orchard_tractor_truck.yaml"), path)));
    return errors.empty() ? std::string() : errors.front();
  };
  EXPECT_EQ(refused("axles.front.springs.coil.spacer: 12"),
            "bad.yaml:3:36 axles.front.springs.coil.spacer: it is no shorter than the seats are "
            "apart, 11.5027 in");
  EXPECT_EQ(refused("axles.front.springs.coil.spacer: 6"),
            "bad.yaml:3:36 axles.front.springs.coil.spacer: it leaves 5.50272 in between the seats "
            "as measured, no more than it has when solid, 6 in");
  // 2 3/8 in high, 1 5/8 in of it gives: 3/4 in; the seats are 4.5017 in apart.
  EXPECT_EQ(refused("axles.front.bump_stops.cone.spacer: 3.7"), "");
  EXPECT_THAT(refused("axles.front.bump_stops.cone.spacer: 3.8"),
              testing::HasSubstr("no more than it has when solid, 0.75 in"));
}

}  // namespace
}  // namespace linkwright
