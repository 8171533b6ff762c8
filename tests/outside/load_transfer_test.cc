// SPDX-License-Identifier: MIT
// Load transfer of a chassis book, and the roll stiffness of coils at their spacing.
#include <gtest/gtest.h>

#include <cmath>

#include "solver/rest/ride.h"
#include "solver/rest/roll.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

// Barton & Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 174, seen: 1280 kg sprung,
// 54 % in front, roll centres at 0.07 and 0.32 m, unsprung 140 kg at 0.280 and 180 kg at 0.300 m,
// track 1.46 m, 28 650 N m/rad in all, arm 0.365 m, 0.6 g of 9.81. The split of the stiffness,
// 20 000 and 8650, follows from the printed roll terms. The book prints 195, 158, 1556 in front
// and 760, 218, 671 behind; its front total of 1919 is a misprint of 1909.
TEST(LoadTransfer, CarOfAChassisBook) {
  const double lateral = 0.6 * 9.81;
  const double roll = 1280.0 * 0.365 / (28650.0 - 1280.0 * 9.81 * 0.365) * lateral;
  const HandbookTransfer front =
      TransferOfAxle({0.54 * 1280.0, 140.0, 0.07, 0.280, 20000.0, 1.46}, lateral, roll);
  const HandbookTransfer rear =
      TransferOfAxle({0.46 * 1280.0, 180.0, 0.32, 0.300, 8650.0, 1.46}, lateral, roll);
  EXPECT_NEAR(front.sprung, 195.0, 0.5);
  EXPECT_NEAR(front.unsprung, 158.0, 0.5);
  EXPECT_NEAR(rear.sprung, 760.0, 0.5);
  EXPECT_NEAR(rear.unsprung, 218.0, 0.5);
  EXPECT_NEAR(front.roll_moment, 1556.0, 16.0) << "1 %: the book rounds its roll gradient";
  EXPECT_NEAR(rear.roll_moment, 671.0, 7.0);
  EXPECT_NEAR(front.total, 1909.0, 17.0);
  EXPECT_NEAR(rear.total, 1649.0, 8.0);
}

// Half k s^2 (handbook form; forum and wiki pages seen): 200 lb/in 40 in apart make 2792.5268 in
// lb/deg. Coils that carry nothing lean for nothing, so the energy gives the same.
TEST(RollStiffness, OfCoilsAtTheirSpacingIsHalfKSSquared) {
  constexpr double kRate = 200.0 * 175.12683524647636;  // [N/m]
  Vehicle truck = sample::MakeFlatTruck({});
  for (Spring& coil : truck.axles[0].springs) {
    const double y = coil.name.side == Side::kLeft ? 20.0 * sample::kInch : -20.0 * sample::kInch;
    coil.span.p_CP.y() = coil.span.p_CQ.y() = y;
    coil.law = {.free_length = 0.30 + 1e-12, .rate = kRate, .curve = {}};
  }
  const Rig rig = PrepareRig(truck);
  Stance stance;
  stance.motion = {rig.axles[0].measured, rig.axles[1].measured};
  const double in_lb_per_deg = 0.1129848290276167 * 180.0 / M_PI;  // in N m/rad
  EXPECT_NEAR(SplitRollStiffness(rig, stance, 0).coils / in_lb_per_deg, 2792.5268, 5.1e-5);
  const std::optional<CoilSpread> spread = SpreadOfCoils(rig, stance, 0);
  ASSERT_TRUE(spread);
  EXPECT_NEAR(spread->stiffness / in_lb_per_deg, 2792.5268, 5.1e-5);
  EXPECT_NEAR(spread->spacing, 40.0 * sample::kInch, 1e-12);
}

}  // namespace
}  // namespace linkwright
