// SPDX-License-Identifier: MIT
#include "solver/rest/settle.h"

#include <gtest/gtest.h>

#include "solver/geometry/travel_limits.h"
#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/matchers.h"
#include "tests/support/statics.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kForceTol = 1e-5;  // [N, N m] a last step of 1e-12 m on 5 MN/m of link, twice
constexpr double kRestTol = 1e-9;   // [m, rad] what 1e-5 N moves on 28 N/mm, and to spare

const Load kEmpty{"empty", {}};

Load Carrying(double mass, const Eigen::Vector3d& p_CM) { return {"load", {{"item", mass, p_CM}}}; }

void ExpectBalanced(const Rig& rig, const Stance& stance) {
  const check::Imbalance left = check::OfWholeVehicle(rig, stance);
  EXPECT_NEAR(left.force, 0.0, kForceTol);
  EXPECT_NEAR(left.moment_x, 0.0, kForceTol);
  EXPECT_NEAR(left.moment_y, 0.0, kForceTol);
  for (size_t i = 0; i < 2; ++i) {
    if (rig.axles[i].frame.links.size() != 4) continue;
    EXPECT_LE(check::LeftOnHousing(rig, stance, i), kForceTol) << "axle " << i;
  }
}

Travels TravelsOfAxle(const Rig& rig, const Stance& stance, size_t axle) {
  return TravelsOf(rig.axles[axle].frame, stance.motion[axle].pose);
}

TEST(Settle, StandsWhereItWasMeasuredWhenTheCoilsCarryTheirShare) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, kEmpty);
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  EXPECT_TRUE(stance.message.empty());
  EXPECT_NEAR(stance.heave, 0.0, kRestTol);
  EXPECT_NEAR(Rake(stance), 0.0, kRestTol);
  EXPECT_NEAR(Roll(stance), 0.0, kRestTol);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_TRUE(Near(check::SixOf(stance.motion[i].pose), check::SixOf(rig.axles[i].frame.measured),
                     kRestTol));
  }
  const double front = 0.5 * (550.0 + 100.0) * kStandardGravity;
  const double rear = 0.5 * (450.0 + 100.0) * kStandardGravity;
  EXPECT_NEAR(stance.wheel_load[0], front, kForceTol);
  EXPECT_NEAR(stance.wheel_load[1], front, kForceTol);
  EXPECT_NEAR(stance.wheel_load[2], rear, kForceTol);
  EXPECT_NEAR(stance.wheel_load[3], rear, kForceTol);
  for (double height : stance.wheel_height) EXPECT_NEAR(height, 0.34, kRestTol);
}

// A floor elsewhere is the same floor.
TEST(Settle, FloorHeightOfTheFileIsOnlyADatum) {
  const Vehicle low = sample::FromAnotherDatum(sample::LevelTruck(), {0.0, 0.0, -0.27});
  const Stance stance = Settle(PrepareRig(low), kEmpty);
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  EXPECT_NEAR(stance.heave, 0.27, kRestTol);
}

TEST(Settle, ForcesBalanceUnderEveryLoadOfTheReferenceVehicle) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  for (const Load& load : van.loads) {
    const Stance stance = Settle(rig, load);
    ASSERT_EQ(stance.status, StanceStatus::kRests) << load.name << ": " << stance.message;
    EXPECT_EQ(stance.load, load.name);
    ExpectBalanced(rig, stance);
  }
}

TEST(Settle, ForcesBalanceUnderLoadsAnywhere) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  for (const Eigen::Vector3d& place :
       {Eigen::Vector3d(-0.4, 0.5, 1.0), Eigen::Vector3d(-2.4, -0.3, 0.6),
        Eigen::Vector3d(-1.2, 0.0, 1.3)}) {
    const Stance stance = Settle(rig, Carrying(220.0, place));
    ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    ExpectBalanced(rig, stance);
  }
}

TEST(Settle, FivelinkForcesBalanceToo) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear].links = sample::FourArmsTrackBar(4e5).links;
  for (Link& link : truck.axles[kRear].links) {
    link.span.p_CP.x() -= 2.6;
    link.span.p_CQ.x() -= 2.6;
  }
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, Carrying(250.0, {-2.0, 0.3, 0.9}));
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  ExpectBalanced(rig, stance);
}

TEST(Settle, LoadOnTheLeftLeansLeftAndItsMirrorImageRight) {
  const Vehicle truck = sample::LevelTruck();
  const Vehicle image = sample::MirrorImage(truck);
  const Stance left = Settle(PrepareRig(truck), Carrying(150.0, {-1.2, 0.6, 1.0}));
  const Stance right = Settle(PrepareRig(image), Carrying(150.0, {-1.2, -0.6, 1.0}));
  ASSERT_EQ(left.status, StanceStatus::kRests);
  ASSERT_EQ(right.status, StanceStatus::kRests);
  EXPECT_LT(Roll(left), -0.01);  // left side down
  EXPECT_GT(left.wheel_load[0], left.wheel_load[1]);
  EXPECT_NEAR(Roll(right), -Roll(left), kRestTol);
  EXPECT_NEAR(right.wheel_load[1], left.wheel_load[0], kForceTol);
  EXPECT_NEAR(Rake(right), Rake(left), kRestTol);
}

// 200 kg over the rear axle: rake nose up; the rear sinks by more than the front rises.
TEST(Settle, LoadBehindRaisesTheNose) {
  const Vehicle truck = sample::LevelTruck();
  const Stance stance = Settle(PrepareRig(truck), Carrying(200.0, {-2.6, 0.0, 0.75}));
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  EXPECT_GT(Rake(stance), 0.005);
  EXPECT_LT(HeightAboveFloor(stance, {-2.6, 0.0, 0.34}), 0.34 - 0.02);
  EXPECT_NEAR(HeightAboveFloor(stance, {0.0, 0.0, 0.34}), 0.34, 0.005);
}

TEST(Settle, StopThatTouchesTakesItsShare) {
  Vehicle truck = sample::LevelTruck();
  const Rig without = PrepareRig(truck);
  const Load heavy = Carrying(500.0, {-2.2, 0.0, 0.9});
  const Stance free = Settle(without, heavy);
  for (const double y : {0.42, -0.42}) {
    truck.axles[kRear].bump_stops.push_back(
        {.name = {"stop", y > 0.0 ? Side::kLeft : Side::kRight},
         .span = {{-2.6, y, 0.52}, {-2.6, y, 0.40}},
         .law = {.free_length = 0.09,
                 .rate = 0.0,
                 .curve = {{0.0, 0.0}, {0.03, 2000.0}, {0.06, 9000.0}}}});
  }
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, heavy);
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  ExpectBalanced(rig, stance);
  const double travel = TravelsOfAxle(rig, stance, kRear).left;
  EXPECT_GT(travel, 0.031);  // past the gap of 0.12 - 0.09 m
  EXPECT_LT(travel, TravelsOfAxle(without, free, kRear).left);
  const Stance light = Settle(rig, kEmpty);
  EXPECT_NEAR(TravelsOfAxle(rig, light, kRear).left, 0.0, kRestTol);  // and takes none before
}

// One rear coil far too short to reach its seat: the other three carry the vehicle.
TEST(Settle, UnseatedCoilCarriesNothing) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) axle.bar_roll_rate = 40e3;
  truck.axles[kRear].springs[1].law.free_length = 0.25;
  truck.axles[kRear].springs[0].law.rate = 60e3;
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, kEmpty);
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const Spring& coil = truck.axles[kRear].springs[1];
  const double length =
      (Transform(stance.motion[kRear].pose) * OnHousing(rig.axles[kRear].frame, coil.span.p_CQ) -
       coil.span.p_CP)
          .norm();
  ASSERT_GT(length, coil.law.free_length) << "it is seated after all: the test proves nothing";
  ExpectBalanced(rig, stance);
}

TEST(Settle, PastAnEndIsNamed) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear].springs[0].solid_length = 0.27;
  truck.axles[kRear].springs[1].solid_length = 0.26;
  const Rig rig = PrepareRig(truck);
  EXPECT_EQ(Settle(rig, kEmpty).status, StanceStatus::kRests);
  const Stance stance = Settle(rig, Carrying(400.0, {-2.6, 0.0, 0.75}));
  EXPECT_EQ(stance.status, StanceStatus::kPastEnd);
  EXPECT_EQ(stance.message, "before it rests, rear coil left is coil-bound");
  const check::Imbalance left = check::OfWholeVehicle(rig, stance);
  EXPECT_NEAR(left.force, 0.0, kForceTol) << "held there, the whole is in balance";
  EXPECT_NEAR(left.moment_y, 0.0, kForceTol);
}

// A weight that no coil of the file can carry lands on the damper that closes first, and does not
// fall through it, turn the coils over and hang in the opened dampers.
TEST(Settle, NamesWhatItLandsOnAndNotWhatLiesBehind) {
  Vehicle truck = sample::LevelTruck();
  for (const double y : {0.5, -0.5}) {
    Damper damper{};
    damper.name = {"damper", y > 0.0 ? Side::kLeft : Side::kRight};
    damper.span = {{-2.6, y, 0.75}, {-2.6, y, 0.35}};
    damper.shortest = 0.28, damper.longest = 0.5;
    truck.axles[kRear].dampers.push_back(damper);
  }
  for (const double mass : {900.0, 1500.0, 2500.0}) {
    const Stance stance = Settle(PrepareRig(truck), Carrying(mass, {-2.6, 0.02, 0.9}));
    EXPECT_EQ(stance.status, StanceStatus::kPastEnd);
    EXPECT_EQ(stance.message, "before it rests, rear damper left is fully closed") << mass;
  }
}

// Stops that lie nearly flat, so that a long step lets a housing pass under them and finds them let
// go on the other side. They carry the load where they are: the truth is a walk in steps of a
// hundredth of the load.
TEST(Settle, DoesNotJumpOverSlantedStops) {
  int touching = 0;
  for (const double rise : {0.02, 0.035, 0.05}) {
    for (const double mass : {300.0, 500.0, 700.0}) {
      Vehicle truck = sample::LevelTruck();
      for (const double side : {1.0, -1.0}) {
        truck.axles[kRear].bump_stops.push_back(
            {.name = {"stop", side > 0.0 ? Side::kLeft : Side::kRight},
             .span = {{-2.6, side * 0.52, 0.45 + rise}, {-2.6, side * 0.44, 0.45}},
             .law = {.free_length = std::hypot(0.08, rise),
                     .rate = 0.0,
                     .curve = {{0.0, 0.0}, {0.005, 6000.0}, {0.06, 400e3}}}});
      }
      const Rig rig = PrepareRig(truck);
      const Stance at_once = Settle(rig, Carrying(mass, {-2.6, 0.0, 0.9}));
      Stance walked = Settle(rig, kEmpty);
      for (int step = 1; step <= 100; ++step) {
        walked = Settle(rig, Carrying(0.01 * step * mass, {-2.6, 0.0, 0.9}), {}, &walked);
      }
      ASSERT_EQ(walked.status, StanceStatus::kRests) << walked.message;
      ASSERT_EQ(at_once.status, StanceStatus::kRests) << at_once.message << rise << " " << mass;
      EXPECT_NEAR(at_once.motion[kRear].pose.z, walked.motion[kRear].pose.z, kRestTol)
          << rise << " " << mass;
      if (at_once.motion[kRear].pose.z - 0.34 < rise) ++touching;
    }
  }
  EXPECT_GE(touching, 3) << "the stops hold in few cases: the test proves little";
}

// A truck whose rear axle, on level links, goes up and along their arcs aside, so that its pads
// leave their cones the farther the higher it stands.
Vehicle OnNarrowPads(double pad_radius) {
  Vehicle truck = sample::MakeFlatTruck({.tire = 200e3});
  Axle& rear = truck.axles[kRear];
  for (const double side : {1.0, -1.0}) {
    const Eigen::Vector3d hub = rear.p_CW_l;
    rear.bump_stops.push_back(
        {.name = {"stop", side > 0.0 ? Side::kLeft : Side::kRight},
         .span = {{hub.x(), side * 0.4, hub.z() + 0.19}, {hub.x(), side * 0.4, hub.z() + 0.10}},
         .law = {.free_length = 0.08, .rate = 150e3, .curve = {}},
         .cone_on_axle = false,
         .pad_radius = pad_radius});
  }
  return truck;
}

// Two rests: on the stops, and past the pads' rims, where nothing but the coils holds it. The one
// that the measured stance leads to counts; both are stationary, told by the statics of a housing
// alone.
TEST(Settle, OfTwoRestsTheOneFromTheMeasuredStanceCounts) {
  const Load load = Carrying(420.0, {-2.6, 0.0, 0.75});
  const auto travel = [&](double radius, const Stance* start) {
    const Vehicle truck = OnNarrowPads(radius);
    const Rig rig = PrepareRig(truck);
    const Stance stance = Settle(rig, load, {}, start);
    EXPECT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    ExpectBalanced(rig, stance);
    return TravelsOfAxle(rig, stance, kRear).left;
  };
  const double on_wide = travel(1.0, nullptr);
  const double without = travel(1e-9, nullptr);
  ASSERT_GT(on_wide, 0.012) << "the stops do not touch: the test proves nothing";
  ASSERT_GT(without, on_wide + 0.02) << "the stops carry little: the test proves nothing";
  // A pad whose rim the axle has not come to where it rests on the stop, and has where it would
  // rest without: the cone's meeting place goes back by the arc.
  const auto gone = [](double t) {
    const Vehicle truck = OnNarrowPads(1.0);
    const Rig rig = PrepareRig(truck);
    const RigAxle& axle = rig.axles[kRear];
    const PoseSolution at = MovePose(axle.frame, axle.measured, axle.frame.measured.z + t, 0.0);
    return check::ConeAt(truck.axles[kRear].bump_stops[0],
                         Transform(at.pose) * axle.frame.X_CA.inverse())
        .beside;
  };
  const double rim = 0.5 * (gone(on_wide) + gone(without));
  ASSERT_GT(rim, gone(on_wide));
  EXPECT_NEAR(travel(rim, nullptr), on_wide, kRestTol);
  // From the other one the search stays there.
  const Vehicle bare = OnNarrowPads(1e-9);
  const Rig without_pads = PrepareRig(bare);
  const Stance low = Settle(without_pads, load);
  EXPECT_NEAR(travel(rim, &low), without, kRestTol);
}

// Both sides of an end: a coil solid just below and just above where it stands.
TEST(Settle, PastAnEndMeansPastIt) {
  Vehicle truck = sample::LevelTruck();
  for (const double beyond : {-1e-6, 1e-6}) {
    for (Spring& coil : truck.axles[kFront].springs) coil.solid_length = 0.30 + beyond;
    const Stance stance = Settle(PrepareRig(truck), kEmpty);
    EXPECT_EQ(stance.status, beyond > 0.0 ? StanceStatus::kPastEnd : StanceStatus::kRests);
  }
}

// Coils that carry the weight of a tall body but cannot hold it upright: mass x g x height above
// the roll axis against the roll stiffness of coils and tyres.
TEST(Settle, TopHeavyBalancesButDoesNotStand) {
  Vehicle truck = sample::LevelTruck();
  const auto status_at = [&](double height) {
    truck.sprung->p_CM.z() = height;
    return Settle(PrepareRig(truck), kEmpty).status;
  };
  // 2 k s^2 of two axles with the tyres in series, 16 kN m/rad, on 9.8 kN: tips somewhat above 1.6
  // m.
  EXPECT_EQ(status_at(1.2), StanceStatus::kRests);
  EXPECT_EQ(status_at(3.0), StanceStatus::kUnstable);
}

TEST(Settle, UnstableSaysSo) {
  Vehicle truck = sample::LevelTruck();
  truck.sprung->p_CM.z() = 3.0;
  EXPECT_EQ(Settle(PrepareRig(truck), kEmpty).message,
            "it balances but does not stand: the coils and tyres cannot hold it upright");
}

TEST(Settle, CoilsTooShortForAnyHoldAreNotARest) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) {
    for (Spring& coil : axle.springs) coil.law.rate = 50.0;  // [N/m] would need 50 m of travel
  }
  const Stance stance = Settle(PrepareRig(truck), kEmpty);
  EXPECT_EQ(stance.status, StanceStatus::kNotFound);
  EXPECT_EQ(stance.message,
            "no position was found in which the coils, stops and tyres carry the weight");
}

TEST(Settle, WantsUnsprungMassesAndCoils) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear].unsprung.reset();
  try {
    (void)Settle(PrepareRig(truck), kEmpty);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, (std::vector<std::string>{"axles", "rear"}));
    EXPECT_STREQ(error.what(), "unsprung: {mass, at} is wanted to settle the vehicle");
  }
  truck = sample::LevelTruck();
  truck.axles[kFront].springs.clear();
  try {
    (void)Settle(PrepareRig(truck), kEmpty);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_STREQ(error.what(), "no coil carries the front axle: springs is wanted to settle");
  }
}

}  // namespace
}  // namespace linkwright
