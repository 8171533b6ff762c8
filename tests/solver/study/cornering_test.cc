// SPDX-License-Identifier: MIT
// Cornering against forces and moments written down by themselves, and against closed forms.
#include "solver/study/cornering.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/masses.h"
#include "solver/rest/contact_line.h"
#include "solver/rest/ride.h"
#include "solver/rest/settle.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;

constexpr double kForceTol = 1e-5;   // [N] positions to 1e-12 m at 1e6 N/m, times 10
constexpr double kMomentTol = 1e-5;  // [N m]

// What is left of force along the floor's normal and of moment about the line of contacts once
// weights, inertia and wheel loads are added up.
Eigen::Vector2d LeftOver(const Rig& rig, const Stance& stance) {
  const RestState state = StateOf(stance);
  const Eigen::Vector3d n = stance.up_C;
  std::array<Eigen::Vector3d, 2> contact;
  for (size_t i = 0; i < 2; ++i) {  // the lowest point of a flat disc midway between the wheels
    const Eigen::Isometry3d X = Transform(stance.motion[i].pose);
    const Eigen::Vector3d u = X.linear().col(1), centre = X.translation();
    const Eigen::Vector3d down = -(n - n.dot(u) * u).normalized();
    contact[i] = centre + HeightAboveFloor(stance, centre) / -down.dot(n) * down;
  }
  const Eigen::Vector3d along = (contact[0] - contact[1]).normalized(), left = n.cross(along);
  double force = 0.0, moment = 0.0;
  const auto add = [&](const Eigen::Vector3d& p, const Eigen::Vector3d& f) {
    force += f.dot(n);
    moment += along.dot((p - contact[1]).cross(f));
  };
  const auto add_mass = [&](double mass, const Eigen::Vector3d& p) {
    add(p, mass * (-kStandardGravity * n - stance.push.lateral * left));
  };
  add_mass(stance.sprung.mass, stance.sprung.p_CM);
  for (size_t i = 0; i < 2; ++i) {
    const Mass& own = *rig.vehicle->axles[i].unsprung;
    const Eigen::Isometry3d X = Transform(stance.motion[i].pose);
    add_mass(own.mass, X * (rig.axles[i].frame.X_CA.inverse() * own.p_CM));
    for (size_t side = 0; side < 2; ++side) {
      const Eigen::Vector3d W = X * WheelCentreInAxle(rig, 2 * i + side);
      add(W, stance.wheel_load[2 * i + side] * n);
    }
  }
  return {force, moment};
}

TEST(Cornering, WheelLoadsCloseTheMomentsOnTheFloor) {
  for (const Vehicle& vehicle : {sample::HarbourVan(), sample::LevelTruck()}) {
    const Rig rig = PrepareRig(vehicle);
    const Load& load = vehicle.loads.front();
    const Stance rest = Settle(rig, load);
    for (const double g : {0.3, -0.5, 0.7}) {
      const Corner corner = TakeCorner(rig, load, rest, g * kStandardGravity);
      ASSERT_EQ(corner.stance.status, StanceStatus::kRests) << corner.stance.message;
      const Eigen::Vector2d left = LeftOver(rig, corner.stance);
      EXPECT_NEAR(left[0], 0.0, kForceTol);
      // An axle steered by e rolls along its own heading: force times radius times e^2 [N m].
      double steered = 0.0;
      for (const HousingMotion& motion : corner.stance.motion) {
        steered = std::max(steered, std::abs(motion.pose.steer) + 1e-3);
      }
      EXPECT_NEAR(left[1], 0.0, 2000.0 * std::abs(g) * kStandardGravity * 0.4 * steered * steered);
    }
  }
}

TEST(Cornering, ShaftTorqueClosesThemToo) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Stance rest = Settle(rig, van.loads[0]);
  const TorqueLift lift = LiftByTorque(rig, van.loads[0], rest, kRear, 400.0);
  const Eigen::Vector2d left = LeftOver(rig, lift.stance);
  EXPECT_NEAR(left[0], 0.0, kForceTol);
  EXPECT_NEAR(left[1], 0.0, kMomentTol);
  EXPECT_GT(lift.moved[kRear], 0.0) << "the left rear wheel is pressed down";
  EXPECT_LT(lift.moved[kFront], 0.0);
  EXPECT_GT(lift.body_roll, 0.0) << "the body bears the reverse: its left side goes up";
}

// Gradient and Hessian of the energy of a turn and of shaft torque, at a stance that leans.
TEST(Cornering, DerivativesAreTheDifferencesInAllSevenUnknowns) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Push push{.lateral = 4.0, .shaft_torque = {150.0, -320.0}, .contact_radius = {0.36, 0.37}};
  const Stance stance =
      Settle(rig, van.loads[0], Push{.lateral = 3.0, .shaft_torque = {}, .contact_radius = {}});
  const auto at = [&](const RestVector& by) {
    RestState state = StateOf(stance);
    state.heave += by[kHeave];
    state.slope += by.segment<2>(kSlopeX);
    for (size_t i = 0; i < 2; ++i) {
      const int z = HeightIndex(i);
      const Pose& pose = stance.motion[i].pose;
      state.motion[i] = EvaluateMotion(
          rig.axles[i].frame,
          MovePose(rig.axles[i].frame, stance.motion[i], pose.z + by[z], pose.roll + by[z + 1])
              .pose);
    }
    return TotalEnergy(rig, stance.sprung, state, push);
  };
  const Energy energy = at(RestVector::Zero());
  using One = Eigen::Matrix<double, 1, 1>;
  for (int k = 0; k < kRestUnknowns; ++k) {
    const auto value = [&](double s) { return One(at(s * RestVector::Unit(k)).value); };
    const auto slope = [&](double s) { return RestVector(at(s * RestVector::Unit(k)).gradient); };
    EXPECT_NEAR(energy.gradient[k], FirstDifference(value, 1e-3)[0], 1e-4) << "[N], of 1e4 J";
    EXPECT_TRUE(Near(energy.hessian.col(k), FirstDifference(slope, 1e-3), 1e-2)) << k;
  }
}

// Rigid tyres, axles without mass, roll axis at hub height: the handbook leaves nothing out, so a
// small turn leans the body as it says.
TEST(Cornering, ASmallTurnLeansAsTheHandbookSaysWhereItLeavesNothingOut) {
  sample::FlatTruck is;
  is.height = 0.8;
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  // Half of a turn either way: the cross link stands to one side.
  const double lateral = 1e-3 * kStandardGravity;
  const Corner corner = TakeCorner(rig, truck.loads[0], rest, lateral);
  const Corner other = TakeCorner(rig, truck.loads[0], rest, -lateral);
  ASSERT_TRUE(corner.handbook_roll && corner.handbook);
  const double gradient = 0.5 * (corner.body_roll - other.body_roll) / lateral;
  EXPECT_NEAR(gradient, *corner.handbook_roll / lateral, 1e-7) << "[rad/(m/s2)] of 0.03";
  for (size_t i = 0; i < 2; ++i) {  // per 1 g; both sums leave out what the lean itself moves over
    const double toppling = truck.sprung->mass * kStandardGravity * 0.45 * corner.body_roll;
    EXPECT_NEAR(corner.moved[i], (*corner.handbook)[i].total, 0.01 * toppling + 1e-4);
  }
}

TEST(Cornering, TurningTheOtherWayIsTheMirrorImage) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const Corner left = TakeCorner(rig, truck.loads[0], rest, 4.0);
  const Corner right = TakeCorner(rig, truck.loads[0], rest, -4.0);
  EXPECT_NEAR(left.body_roll, -right.body_roll, 1e-10);
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(left.moved[i], -right.moved[i], kForceTol);
    EXPECT_GT(left.moved[i], 0.0) << "turning left loads the right wheels";
    EXPECT_NEAR(left.stance.wheel_load[2 * i], right.stance.wheel_load[2 * i + 1], kForceTol);
  }
}

// As everything gets stiffer the first wheel lifts where a block would tip: half the track over the
// height of its centre.
TEST(WheelLift, OfAStiffVehicleIsThatOfABlock) {
  sample::FlatTruck is;
  is.height = 0.8, is.unsprung = 100.0, is.coil = {2.5e6, 2.5e6}, is.tire = 20e6;
  is.bar_height = 0.6;  // else the body tips about its outer coils first, at 1 g
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const double centre = (1000.0 * 0.8 + 200.0 * 0.35) / 1200.0;
  EXPECT_NEAR(StiffTippingPoint(rig, rest), kStandardGravity * 0.75 / centre, 1e-4);
  const PushLimit limit =
      FindLimit(rig, truck.loads[0],
                Push{.lateral = kStandardGravity, .shaft_torque = {}, .contact_radius = {}}, 2.0);
  EXPECT_EQ(limit.kind, LimitKind::kWheelLifts) << limit.message;
  EXPECT_EQ(limit.wheel % 2, 0U) << "turning left lifts a left wheel";
  EXPECT_NEAR(limit.share, 0.75 / centre, 2e-3) << "[g] what is left of softness";
}

// A bar that is far too stiff at one end lifts that end's inner wheel while the other holds on.
TEST(WheelLift, IsWhereTheWheelCarriesNothingAndTheOtherAxleHoldsOn) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear].bar_roll_rate = 150e3;
  const Rig rig = PrepareRig(truck);
  const Push push{.lateral = kStandardGravity, .shaft_torque = {}, .contact_radius = {}};
  const PushLimit limit = FindLimit(rig, truck.loads[0], push, 2.0);
  ASSERT_EQ(limit.kind, LimitKind::kWheelLifts) << limit.message;
  EXPECT_EQ(limit.wheel, 2U);
  EXPECT_FALSE(limit.goes_over);
  const auto at = [&](double share) {
    return Settle(
        rig, truck.loads[0],
        Push{.lateral = share * kStandardGravity, .shaft_torque = {}, .contact_radius = {}});
  };
  EXPECT_GT(at(limit.share - 1e-4).wheel_load[2], 0.0);
  EXPECT_LT(at(limit.share - 1e-4).wheel_load[2], 5.0) << "[N] 1e-4 of 1e4 N per g, times 5";
  EXPECT_EQ(at(limit.share + 1e-4).status, StanceStatus::kRests);
  EXPECT_EQ(at(limit.share + 1e-4).wheel_load[2], 0.0);
}

TEST(ShaftTorque, MovesWhatTheHandbookSays) {
  sample::FlatTruck is;
  is.coil = {25e3, 40e3};
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  // Half of a torque either way: the cross link stands to one side.
  const TorqueLift lift = LiftByTorque(rig, truck.loads[0], rest, kRear, 10.0);
  const TorqueLift other = LiftByTorque(rig, truck.loads[0], rest, kRear, -10.0);
  const auto moved = [&](size_t i) { return 0.5 * (lift.moved[i] - other.moved[i]); };
  // The body's centre on the roll axis: nothing topples. The front axle takes its share K_f/K.
  const double front = SplitRollStiffness(rig, rest, 0).whole;
  const double rear = SplitRollStiffness(rig, rest, 1).whole;
  EXPECT_NEAR(lift.handbook[kRear], 10.0 * front / (front + rear) / 1.5, 1e-12);
  EXPECT_NEAR(moved(kRear), lift.handbook[kRear], 1e-6) << "[N] of 3: third order of the lean";
  EXPECT_NEAR(moved(kFront), lift.handbook[kFront], 1e-6);
}

}  // namespace
}  // namespace linkwright
