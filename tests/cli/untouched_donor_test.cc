// SPDX-License-Identifier: MIT
// A donor from which nothing came off and onto which nothing went settles where the tape found it:
// by definition, every travel 0, the chassis as level as it was measured, every mark as high above
// the floor as its place says.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "io/read/vehicle_file.h"
#include "solver/model/masses.h"
#include "tests/cli/program.h"

namespace linkwright::check {
namespace {

constexpr double kHalfMillimetre = 0.5;  // [mm] what is promised
constexpr double kStill = 1e-6;  // [mm, deg, kg] what a rest leaves where all of it is exact
constexpr double kDegree = std::numbers::pi / 180.0;

struct Donor {
  Vehicle vehicle;
  Sheet settled;  // one load, one row
  [[nodiscard]] double At(const std::string& column) const { return settled.Number(0, column); }
};

Donor Settled(const std::string& name) {
  return {ReadVehicleFile(VehiclePath(name)).vehicle,
          RunToSheet({"settle", VehiclePath(name), "--units", "metric"})};
}

TEST(UntouchedDonor, OnFourScalesStandsAtEachCornerWhereTheTapeFoundIt) {
  const Donor donor = Settled("ferry_wagon");
  // Not a file in which both sides are alike and nothing could lean.
  const std::array<double, 4>& scales = donor.vehicle.ledger->weighed;
  ASSERT_FALSE(donor.vehicle.ledger->by_axle);
  ASSERT_GT(std::abs(scales[0] - scales[1]), 10.0);
  ASSERT_GT(std::abs(scales[2] - scales[3]), 10.0);
  size_t wheel = 0;
  for (const char* corner : {"front_left", "front_right", "rear_left", "rear_right"}) {
    const double travel = donor.At(std::string("travel_") + corner + "_mm");
    EXPECT_NEAR(travel, 0.0, kHalfMillimetre) << corner;
    EXPECT_NEAR(travel, 0.0, kStill) << corner;  // with two coils, two scales: exactly
    EXPECT_NEAR(donor.At(std::string("wheel_load_") + corner + "_n"),
                scales[wheel++] * kStandardGravity, 1e-3)
        << corner;
  }
  EXPECT_NEAR(donor.At("rake_deg"), 0.0, kStill);
  EXPECT_NEAR(donor.At("roll_deg"), 0.0, kStill);
  ASSERT_EQ(donor.vehicle.marks.size(), 3U);
  for (const Mark& mark : donor.vehicle.marks) {
    EXPECT_NEAR(donor.At("height " + mark.name + "_mm"),
                (mark.p_CB.z() - donor.vehicle.floor_z) * 1e3, kStill)
        << mark.name;
  }
}

// What axle scales tell is each axle's load: its height, and with both the rake. How it leans they
// do not tell, and coils taken to be alike let it lean: here because the axles' own masses hang off
// the centreline.
TEST(UntouchedDonor, OnAxleScalesKeepsItsAxlesHeightsWhereItLeans) {
  const Donor donor = Settled("ferry_wagon_axle_scales");
  ASSERT_TRUE(donor.vehicle.ledger->by_axle);
  for (const std::string axle : {"front", "rear"}) {
    const double left = donor.At("travel_" + axle + "_left_mm");
    const double right = donor.At("travel_" + axle + "_right_mm");
    EXPECT_NEAR(0.5 * (left + right), 0.0, kHalfMillimetre) << axle;
    EXPECT_GT(std::abs(left - right), 0.2) << axle;  // it does lean
    const size_t i = axle == "front" ? 0 : 1;
    EXPECT_NEAR(
        donor.At("wheel_load_" + axle + "_left_n") + donor.At("wheel_load_" + axle + "_right_n"),
        2.0 * donor.vehicle.ledger->weighed[2 * i] * kStandardGravity, 0.5)
        << axle;
  }
  // Half a millimetre at either axle.
  const double wheelbase = 2605.0;  // [mm] of the file, mean of both sides
  EXPECT_NEAR(donor.At("rake_deg") * kDegree * wheelbase, 0.0, kHalfMillimetre);
  EXPECT_GT(std::abs(donor.At("roll_deg")), 0.01);
}

// The measurement's coils of a pair are alike there, and are made from the scales of the variant at
// the places of the file that measured.
TEST(UntouchedDonor, OnAxleScalesHasAlikeCoilsAndEachTyreItsOwnRadius) {
  const Vehicle vehicle = ReadVehicleFile(VehiclePath("ferry_wagon_axle_scales")).vehicle;
  for (const size_t i : {0, 1}) {
    const Axle& axle = vehicle.axles[i];
    EXPECT_EQ(axle.springs[0].law.free_length, axle.springs[1].law.free_length);
    const double load = vehicle.ledger->weighed[2 * i] * kStandardGravity;
    for (const size_t side : {0, 1}) {
      const double hub = (side == 0 ? axle.p_CW_l : axle.p_CW_r).z() - vehicle.floor_z;
      EXPECT_NEAR(FreeRadius(axle.tire, side) - load / *axle.tire.rate, hub, 1e-12);
    }
  }
}

}  // namespace
}  // namespace linkwright::check
