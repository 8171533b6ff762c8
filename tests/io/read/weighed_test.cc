// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <array>

#include "io/read/vehicle_file.h"
#include "solver/model/force_law.h"
#include "solver/pose/solve.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

std::string Weighed(std::string_view coil) {
  std::string text = BenchWith(fmt::format(R"(    unsprung: {{mass: 118, at: [-2540, 0, 365]}}
    springs:
      coil: {{pair: true, frame: [-2535, 420, 660], axle: [-2545, 430, 420], {}}}
ledger:
  weighed: {{front_left: 446, front_right: 439, rear_left: 352, rear_right: 345, cg_height: 655}}
)",
                                           coil));
  text.replace(text.find("    links:"), 0, "    unsprung: {mass: 128, at: [0, 0, 365]}\n");
  return text;
}

// The axle's energy by travel, differenced over solved poses: what its coils hold up [N].
double HeldUp(const Axle& axle) {
  constexpr double kStep = 1e-4;  // [m] balances the difference's own error and rounding
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion start = EvaluateMotion(frame, frame.measured);
  std::array<double, 2> energy{};
  for (size_t side = 0; side < 2; ++side) {
    const double z = frame.measured.z + (side == 0 ? -kStep : kStep);
    const Eigen::Isometry3d X_CA = Transform(MovePose(frame, start, z, frame.measured.roll).pose);
    for (const Spring& spring : axle.springs) {
      EXPECT_TRUE(spring.weighed);
      const double length = (X_CA * OnHousing(frame, spring.span.p_CQ) - spring.span.p_CP).norm();
      energy[side] += Evaluate(spring.law, length).energy;
    }
  }
  return (energy[1] - energy[0]) / (2.0 * kStep);
}

constexpr double kHeldTol = 1e-3;  // [N] of 5678 N: the difference's own error at that step

TEST(WeighedFreeLength, IsWhatHoldsTheAxleUpAsMeasured) {
  const TempFolder folder;
  const VehicleFile file =
      ReadVehicleFile(folder.Write("van.yaml", Weighed("rate: 29, free_length: weighed")));
  const Axle& rear = file.vehicle.axles[kRear];
  ASSERT_EQ(rear.springs.size(), 2U);
  // The left scale says 7 kg more than the right one: so does its coil, at some other length.
  EXPECT_GT(rear.springs[0].law.free_length, rear.springs[1].law.free_length + 0.002);
  EXPECT_NEAR(HeldUp(rear), (352.0 + 345.0 - 118.0) * 9.80665, kHeldTol);
}

TEST(WeighedFreeLength, TakesTheRateOfAWireToo) {
  const TempFolder folder;
  const VehicleFile file = ReadVehicleFile(folder.Write(
      "van.yaml", Weighed("wire: 15, mean_diameter: 127, active_coils: 7, free_length: weighed")));
  EXPECT_NEAR(HeldUp(file.vehicle.axles[kRear]), (352.0 + 345.0 - 118.0) * 9.80665, kHeldTol);
}

TEST(WeighedFreeLength, LeavesOtherSpringsAlone) {
  const TempFolder folder;
  const VehicleFile file =
      ReadVehicleFile(folder.Write("van.yaml", Weighed("rate: 29, free_length: 339")));
  EXPECT_FALSE(file.vehicle.axles[kRear].springs[0].weighed);
  EXPECT_DOUBLE_EQ(file.vehicle.axles[kRear].springs[0].law.free_length, 0.339);
}

}  // namespace
}  // namespace linkwright
