// SPDX-License-Identifier: MIT
// The modes of the whole linear model where fewer parts must give the same: quarter cars, the
// two-degree body, a body on its roll axis.
#include "solver/rest/modes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "solver/model/masses.h"
#include "solver/rest/roll.h"
#include "solver/rest/settle.h"
#include "solver/study/ride/ride_study.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using sample::FlatTruck;
using sample::kFlatHub;

std::vector<Mode> ModesOf(const FlatTruck& is) {
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  EXPECT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  return FindModes(Linearise(rig, stance, InertiasOf(rig, stance)));
}

const Mode& Named(const std::vector<Mode>& modes, MotionPart part) {
  for (const Mode& mode : modes) {
    if (mode.part == part) return mode;
  }
  throw std::runtime_error("no mode of part " + std::to_string(part));
}

// A quarter car at each corner: with a dynamic index of 1 and its centre at hub height each end of
// the body moves alone.
FlatTruck QuarterCars(double sprung, double coil, double tire, double unsprung, double damper) {
  FlatTruck is;
  is.mass = 4.0 * sprung;
  is.pitch_inertia = is.mass * is.b * is.c;
  is.coil = {coil, coil};
  is.tire = tire;
  is.unsprung = 2.0 * unsprung;
  is.damper = damper;
  return is;
}

// ASTM E1926, the golden car of road roughness (from memory): tyre, coil and damper over the sprung
// mass 653, 63.3 and 6.0, unsprung 0.15 of it. Recomputed: undamped 1.208297 and 11.004728 Hz,
// roots -2.5901 +- 7.3234j and -20.4099 +- 64.4226j.
TEST(Modes, GoldenCarUndamped) {
  const std::vector<Mode> modes =
      ModesOf(QuarterCars(250.0, 63.3 * 250.0, 653.0 * 250.0, 0.15 * 250.0, 0.0));
  EXPECT_NEAR(Named(modes, kBodyHeave).undamped, 1.208297, 5e-7);
  EXPECT_NEAR(Named(modes, kBodyPitch).undamped, 1.208297, 5e-7);
  EXPECT_NEAR(Named(modes, kFrontHop).undamped, 11.004728, 5e-7);
  EXPECT_NEAR(Named(modes, kRearHop).undamped, 11.004728, 5e-7);
}

TEST(Modes, GoldenCarDamped) {
  const std::vector<Mode> modes =
      ModesOf(QuarterCars(250.0, 63.3 * 250.0, 653.0 * 250.0, 0.15 * 250.0, 6.0 * 250.0));
  for (const auto& [part, real, imaginary] :
       {std::tuple{kBodyHeave, -2.5901, 7.3234}, std::tuple{kBodyPitch, -2.5901, 7.3234},
        std::tuple{kFrontHop, -20.4099, 64.4226}, std::tuple{kRearHop, -20.4099, 64.4226}}) {
    const Mode& mode = Named(modes, part);
    EXPECT_NEAR(2.0 * M_PI * mode.damped, imaginary, 5.1e-5) << "[rad/s], printed to 4 decimals";
    EXPECT_NEAR(-2.0 * M_PI * mode.natural * mode.damping, real, 5.1e-5);
  }
  EXPECT_NEAR(Named(modes, kBodyHeave).damping, 0.3334, 5.1e-5);
  EXPECT_NEAR(Named(modes, kFrontHop).damping, 0.3020, 5.1e-5);
}

// A quarter car of a student's exercise (studypool 147429, inputs seen, recomputed): 300 kg on 17
// kN/m, 30 kg on 150 kN/m.
TEST(Modes, QuarterCarOfAnExercise) {
  const std::vector<Mode> modes = ModesOf(QuarterCars(300.0, 17e3, 150e3, 30.0, 0.0));
  EXPECT_NEAR(Named(modes, kBodyHeave).undamped, 1.134865, 5e-7);
  EXPECT_NEAR(Named(modes, kRearHop).undamped, 11.880773, 5e-7);
}

// Critical damping of the first car's body alone, 2 sqrt(k m) = 4516.636 N s/m: on rigid tyres its
// bounce just does not swing; with more of it there are two real roots, whose product is k/m.
TEST(Modes, CriticalDampingIsWhereItStopsSwinging) {
  FlatTruck is = QuarterCars(300.0, 17e3, 0.0, 1e-10, 0.999 * 4516.636);
  is.tire.reset();
  EXPECT_GT(Named(ModesOf(is), kBodyHeave).damped, 0.0);
  EXPECT_NEAR(Named(ModesOf(is), kBodyHeave).damping, 0.999, 1e-6);
  is.damper = 2.0 * 4516.636;
  const Mode creeping = Named(ModesOf(is), kBodyHeave);
  EXPECT_EQ(creeping.damped, 0.0);
  EXPECT_NEAR(creeping.damping, 2.0, 1e-6);
  EXPECT_NEAR(creeping.natural, creeping.undamped, 1e-9);
}

// Rao, Mechanical Vibrations, example 5.7 (inputs seen in a university tutorial, results from
// memory, recomputed), as a whole vehicle on rigid tyres.
TEST(Modes, CarOfAVibrationsBookAsAWholeVehicle) {
  FlatTruck is;
  is.b = 1.0, is.c = 1.5;
  is.pitch_inertia = 1000.0 * 0.9 * 0.9;
  is.coil = {9e3, 11e3};
  const std::vector<Mode> modes = ModesOf(is);
  ASSERT_EQ(modes.size(), 3U) << "bounce, pitch and roll: rigid tyres leave no more";
  EXPECT_NEAR(2.0 * M_PI * Named(modes, kBodyHeave).undamped, 5.859292, 5e-7);
  EXPECT_NEAR(2.0 * M_PI * Named(modes, kBodyPitch).undamped, 9.434089, 5e-7);
}

// Rigid tyres, no unsprung mass, the centre at hub height: the whole model is the two-degree one.
TEST(Modes, AreTheTwoDegreeModelsWhereTheyMustAgree) {
  FlatTruck is;
  is.b = 1.1, is.c = 1.6, is.pitch_inertia = 2100.0, is.coil = {17e3, 15e3}, is.damper = 1.2e3;
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const RideReport report = ReportRide(rig, Settle(rig, truck.loads[0]));
  for (const ModeReport& row : report.modes) {
    ASSERT_TRUE(row.textbook);
    EXPECT_NEAR(row.mode.undamped, row.textbook->frequency, 1e-8) << row.mode.part;
    if (row.mode.part == kBodyRoll) continue;
    ASSERT_TRUE(row.centre_ahead && row.textbook->centre_ahead);
    EXPECT_NEAR(*row.centre_ahead, *row.textbook->centre_ahead, 1e-6);
  }
}

// About a cross link r above the hubs the body leans at d = height - r above the roll axis; at
// steady axle height the stored energy misses what lifting by r phi^2 / 2 costs, so that
// w^2 = (K - m g (d - r)) / (I + m d^2), worked out by hand for this truck.
TEST(Modes, RollOfABodyOnItsRollAxis) {
  for (const double r : {0.0, 0.12}) {
    FlatTruck is;
    is.height = 0.8, is.bar_height = kFlatHub + r;
    const Vehicle truck = sample::MakeFlatTruck(is);
    const Rig rig = PrepareRig(truck);
    const Stance stance = Settle(rig, truck.loads[0]);
    const double d = is.height - is.bar_height;
    const double K =
        SplitRollStiffness(rig, stance, 0).whole + SplitRollStiffness(rig, stance, 1).whole;
    const double squared =
        (K - is.mass * kStandardGravity * (d - r)) / (is.roll_inertia + is.mass * d * d);
    EXPECT_NEAR(Named(ModesOf(is), kBodyRoll).undamped, std::sqrt(squared) / (2.0 * M_PI), 1e-8);
  }
}

// Wheel hop with the body held (course notes, recomputed): 100 lb on 100 and 1000 lb/in, 10.3719
// Hz. The body's 661 lb a corner move a little the other way: by its equations
// (M w^2 - ks)(m w^2 - ks - kt) = ks^2 the hop is 0.1 % higher.
TEST(Modes, WheelHopWithTheBodyHeld) {
  const double pound = 0.45359237, rate = 175.12683524647636;
  const double M = 300.0, m = 100.0 * pound, ks = 100.0 * rate, kt = 1000.0 * rate;
  const Vehicle truck = sample::MakeFlatTruck(QuarterCars(M, ks, kt, m, 0.0));
  const Rig rig = PrepareRig(truck);
  const RideReport report = ReportRide(rig, Settle(rig, truck.loads[0]));
  for (const ModeReport& row : report.modes) {
    if (row.mode.part != kFrontHop) continue;
    ASSERT_TRUE(row.textbook);
    EXPECT_NEAR(row.textbook->frequency, 10.3719, 5.1e-5);
    const double w2 = std::pow(2.0 * M_PI * row.mode.undamped, 2);
    EXPECT_NEAR((M * w2 - ks) * (m * w2 - ks - kt) / (ks * ks), 1.0, 1e-6);
  }
}

}  // namespace
}  // namespace linkwright
