// SPDX-License-Identifier: MIT
// Cornering against forces and moments written down by themselves, and against closed forms.
#include "solver/study/ride/cornering.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "solver/model/force_law.h"
#include "solver/model/masses.h"
#include "solver/rest/rest_balance.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;

constexpr double kForceTol = 1e-5;   // [N] positions to 1e-12 m at 1e6 N/m, times 10
constexpr double kMomentTol = 1e-5;  // [N m] 1e-9 of what a vehicle of 10 kN weighs on its track

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
      EXPECT_NEAR(left[1], 0.0, kMomentTol);
    }
  }
}

// What one housing's balance of forces and moments makes of four links, the tyres' push along the
// axle and a pull along the vehicle, both at the contact under its middle.
struct HousingForces {
  double sideways, along;   // [N]
  Eigen::Vector3d push;     // of the two together
  Eigen::Vector3d contact;  // in C
};

HousingForces SolveHousing(const Rig& rig, const Stance& stance, size_t i,
                           const Eigen::Vector3d& along) {
  const Axle& axle = rig.vehicle->axles[i];
  const Eigen::Vector3d n = stance.up_C, left = n.cross(along);
  const Eigen::Isometry3d X = Transform(stance.motion[i].pose);
  const auto carried = [&](const Eigen::Vector3d& p) {
    return Eigen::Vector3d(X * (rig.axles[i].frame.X_CA.inverse() * p));
  };
  using Wrench = Eigen::Matrix<double, 6, 1>;
  const auto at = [](const Eigen::Vector3d& p, const Eigen::Vector3d& f) {
    Wrench w;
    w << f, p.cross(f);
    return w;
  };
  Wrench known = at(carried(axle.unsprung->p_CM),
                    axle.unsprung->mass * (-kStandardGravity * n - stance.push.lateral * left));
  for (const Spring& spring : axle.springs) {
    const Eigen::Vector3d q = carried(spring.span.p_CQ), d = q - spring.span.p_CP;
    known += at(q, Evaluate(spring.law, d.norm()).force * d.normalized());
  }
  for (size_t side = 0; side < 2; ++side) {
    const Eigen::Vector3d W = X * WheelCentreInAxle(rig, 2 * i + side);
    known += at(W, stance.wheel_load[2 * i + side] * n);
  }
  const Eigen::Vector3d u = X.linear().col(1), centre = X.translation();
  const Eigen::Vector3d down = -(n - n.dot(u) * u).normalized();
  HousingForces forces{};
  forces.contact = centre + HeightAboveFloor(stance, centre) / -down.dot(n) * down;
  const Eigen::Vector3d sideways = (u - u.dot(n) * n).normalized();
  Eigen::Matrix<double, 6, 6> A;
  for (int l = 0; l < 4; ++l) {
    const Span& span = axle.links[static_cast<size_t>(l)].span;
    const Eigen::Vector3d q = carried(span.p_CQ);
    A.col(l) = at(q, (q - span.p_CP).normalized());
  }
  A.col(4) = at(forces.contact, sideways);
  A.col(5) = at(forces.contact, along);
  const Wrench x = A.fullPivLu().solve(-known);
  forces.sideways = x[4], forces.along = x[5];
  forces.push = x[4] * sideways + x[5] * along;
  return forces;
}

// Each housing by itself, from forces alone: what its tyres must push adds up to the whole's mass
// times its acceleration, with no moment about the centre of mass, and nothing along the vehicle.
TEST(Cornering, EachHousingIsInBalanceUnderItsSideForce) {
  Vehicle truck = sample::LevelTruck();
  truck.loads = {{"crate", {{"crate", 120.0, {-1.9, 0.4, 0.9}}}}};
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  for (const double g : {0.5, -0.35}) {
    const Corner corner = TakeCorner(rig, truck.loads[0], rest, g * kStandardGravity);
    ASSERT_EQ(corner.stance.status, StanceStatus::kRests) << corner.stance.message;
    const Stance& stance = corner.stance;
    const Eigen::Vector3d n = stance.up_C;
    const auto contact = [&](size_t i) {
      return SolveHousing(rig, stance, i, Eigen::Vector3d::UnitX()).contact;
    };
    const Eigen::Vector3d along = (contact(0) - contact(1)).normalized(), left = n.cross(along);
    const std::array<HousingForces, 2> tyres{SolveHousing(rig, stance, 0, along),
                                             SolveHousing(rig, stance, 1, along)};
    const StanceReport report = ReportStance(rig, stance);
    const Eigen::Vector3d sum = tyres[0].push + tyres[1].push;
    EXPECT_NEAR(sum.dot(left), report.total_mass * g * kStandardGravity, 1e-4) << "[N] of 6e3";
    EXPECT_NEAR(sum.dot(along), 0.0, 1e-4);
    EXPECT_NEAR(tyres[0].along, tyres[1].along, 1e-4) << "the thrust is shared";
    const Eigen::Vector3d moment = (tyres[0].contact - report.cg_C).cross(tyres[0].push) +
                                   (tyres[1].contact - report.cg_C).cross(tyres[1].push);
    EXPECT_NEAR(moment.dot(n), 0.0, 1e-4) << "[N m] it does not yaw";
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

// The slope of all seven equations of a turn under shaft torque, at a stance that leans.
TEST(Cornering, TheSlopeIsTheDifferenceInAllSevenUnknowns) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Push push{.lateral = 4.0, .shaft_torque = {150.0, -320.0}};
  const Stance stance = Settle(rig, van.loads[0], Push{.lateral = 3.0, .shaft_torque = {}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const RestQuestion question{rig, stance.sprung, push};
  const RestState state = StateOf(stance);
  const Balance balance = BalanceAt(question, state);
  for (int k = 0; k < kRestUnknowns; ++k) {
    const auto work = [&](double s) {
      const auto moved = Moved(rig, state, s * RestVector::Unit(k));
      return RestVector(BalanceAt(question, moved.value()).work);
    };
    EXPECT_TRUE(Near(balance.slope.col(k), FirstDifference(work, 1e-3), 1e-2))
        << k << " [N/m] of 1e7";
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

// A vehicle as stiff as a block, its mass to one side, goes over where a block does: g times how
// far the centre stands inside the outer wheels over its height. And by the scales: g T (inner
// wheels' loads) / (weight h).
TEST(GoesOver, StiffVehicleAsABlockWithItsMassToOneSide) {
  sample::FlatTruck is;
  is.height = 0.8, is.unsprung = 100.0, is.coil = {2.5e8, 2.5e8}, is.tire = 20e8;
  is.bar_height = 0.6;  // else the body tips about its outer coils first, at 1 g
  Vehicle truck = sample::MakeFlatTruck(is);
  truck.loads = {{"crate", {{"crate", 300.0, {-1.3, 0.3, 0.9}}}}};
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const double weight = 1500.0, aside = 300.0 * 0.3 / weight;
  const double height = (1000.0 * 0.8 + 200.0 * 0.35 + 300.0 * 0.9) / weight;
  for (const bool left : {true, false}) {
    const double inside = 0.75 + (left ? aside : -aside);
    const TippingPoint block = StiffTippingPoint(rig, rest, left);
    EXPECT_NEAR(block.inside, inside, 1e-5) << "[m] 1 um of squeeze";
    ASSERT_TRUE(block.lateral);
    EXPECT_NEAR(*block.lateral, kStandardGravity * inside / height, 1e-4);
    const size_t inner = left ? 0 : 1;
    const double carried = rest.wheel_load[inner] + rest.wheel_load[2 + inner];
    EXPECT_NEAR(block.inside, 1.5 * carried / (weight * kStandardGravity), 1e-6);
    const PushEnds ends = TightenTurn(rig, truck.loads[0], rest, left);
    ASSERT_TRUE(ends.over && ends.lift);
    EXPECT_NEAR(*ends.over, inside / height, 2e-5) << "[g] what is left of softness";
    EXPECT_EQ(ends.lift->wheel % 2, inner);
    EXPECT_LE(ends.lift->share, *ends.over);
  }
}

// No turn tips what stands on the floor or below it: no number is made of a negative height.
TEST(GoesOver, AsABlockWithoutANumberWhereTheCentreIsBelowTheFloor) {
  sample::FlatTruck is;
  is.height = -0.1;
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  ASSERT_EQ(rest.status, StanceStatus::kRests);
  for (const bool left : {true, false}) {
    const TippingPoint block = StiffTippingPoint(rig, rest, left);
    EXPECT_NEAR(block.height, -0.1, 1e-6);
    EXPECT_FALSE(block.lateral);
  }
}

// A bar that is far too stiff at one end lifts that end's inner wheel while the other holds on; it
// goes over later, and then no position is near.
TEST(GoesOver, AfterOneWheelHasLiftedAndTheOtherAxleHeldOn) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear].bar_roll_rate = 150e3;
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const PushEnds ends = TightenTurn(rig, truck.loads[0], rest, true);
  ASSERT_TRUE(ends.lift && ends.over);
  EXPECT_EQ(ends.lift->wheel, 2U);
  EXPECT_GT(*ends.over, ends.lift->share + 0.01);
  EXPECT_LT(*ends.over, *StiffTippingPoint(rig, rest, true).lateral / kStandardGravity);
  const Push one_g{.lateral = kStandardGravity, .shaft_torque = {}};
  const auto at = [&](double share) {
    return Settle(rig, truck.loads[0], ShareOf(one_g, share), nullptr);
  };
  EXPECT_GT(at(ends.lift->share - 1e-4).wheel_load[2], 0.0);
  EXPECT_LT(at(ends.lift->share - 1e-4).wheel_load[2], 5.0) << "[N] 1e-4 of 1e4 N per g, times 5";
  const Stance lifted = at(ends.lift->share + 1e-4);
  EXPECT_EQ(lifted.status, StanceStatus::kRests);
  EXPECT_EQ(lifted.wheel_load[2], 0.0);
  const Eigen::Vector2d left = LeftOver(rig, lifted);
  EXPECT_NEAR(left[0], 0.0, kForceTol);
  EXPECT_NEAR(left[1], 0.0, kMomentTol) << "three wheels carry it";
  const Corner tight =
      TakeCorner(rig, truck.loads[0], rest, (*ends.over - 1e-4) * kStandardGravity);
  EXPECT_EQ(tight.stance.status, StanceStatus::kRests);
  EXPECT_NE(Settle(rig, truck.loads[0], ShareOf(one_g, *ends.over + 1e-4), &tight.stance).status,
            StanceStatus::kRests);
}

// Whichever way it leans: the mirror image in the other turn.
TEST(GoesOver, InTheOtherTurnAsItsMirrorImage) {
  Vehicle truck = sample::LevelTruck();
  truck.loads = {{"crate", {{"crate", 150.0, {-1.2, 0.5, 1.0}}}}};
  Vehicle image = sample::MirrorImage(truck);
  image.loads = {{"crate", {{"crate", 150.0, {-1.2, -0.5, 1.0}}}}};
  const Rig rig = PrepareRig(truck), other = PrepareRig(image);
  const PushEnds left = TightenTurn(rig, truck.loads[0], Settle(rig, truck.loads[0]), true);
  const PushEnds right = TightenTurn(other, image.loads[0], Settle(other, image.loads[0]), false);
  ASSERT_TRUE(left.over && right.over && left.lift && right.lift);
  EXPECT_NEAR(*left.over, *right.over, 1e-5);
  EXPECT_NEAR(left.lift->share, right.lift->share, 1e-8);
  EXPECT_EQ(left.lift->wheel, right.lift->wheel - 1);
  const PushEnds heavy_side = TightenTurn(rig, truck.loads[0], Settle(rig, truck.loads[0]), false);
  EXPECT_GT(*left.over, *heavy_side.over + 0.02) << "the load stands left: over that side sooner";
}

// Dampers that open early hold the inner wheels up with the body: they are named, they give a
// millimetre, and a wheel lifts sooner.
TEST(GoesOver, MembersAtTheirEndsHold) {
  Vehicle truck = sample::LevelTruck();
  const Rig free_rig = PrepareRig(truck);
  const PushEnds free =
      TightenTurn(free_rig, truck.loads[0], Settle(free_rig, truck.loads[0]), true);
  for (const double y : {0.5, -0.5}) {
    Damper damper{};
    damper.name = {"damper", y > 0.0 ? Side::kLeft : Side::kRight};
    damper.span = {{0.1, y, 0.75}, {0.1, y, 0.35}};
    damper.shortest = 0.25, damper.longest = 0.425;  // 25 mm of droop
    truck.axles[kFront].dampers.push_back(damper);
  }
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const PushEnds ends = TightenTurn(rig, truck.loads[0], rest, true);
  ASSERT_TRUE(ends.member && ends.lift && free.lift && ends.over);
  EXPECT_FALSE(free.member);
  EXPECT_EQ(ends.member->what, "front damper left is fully open");
  EXPECT_LT(ends.member->share, ends.lift->share);
  EXPECT_EQ(ends.lift->wheel, 0U) << "held up by its damper";
  EXPECT_NE(free.lift->wheel, 0U);
  const double lateral = 0.5 * (ends.member->share + ends.lift->share) * kStandardGravity;
  const Corner corner = TakeCorner(rig, truck.loads[0], rest, lateral);
  EXPECT_EQ(corner.at_end, "front damper left is fully open");
  const Eigen::Vector2d left = LeftOver(rig, corner.stance);
  EXPECT_NEAR(left[0], 0.0, kForceTol);
  EXPECT_NEAR(left[1], 0.0, kMomentTol);
}

// Arms that rise by tan a to the frame behind the axle push an end that rises by dz forward by
// tan a dz (0.8 dx - 0.08 dz = 0 for a length that stays); with the body's left side up the left
// end is down by s phi and goes back, the right one forward: the axle steers left, by tan a of the
// roll.
TEST(Cornering, SlopedArmsSteerTheAxleAsItRolls) {
  Vehicle truck = sample::MakeFlatTruck({});
  truck.sprung->p_CM.z() = 0.7;
  constexpr double kSlope = 0.1;  // frame end 80 mm higher over 800 mm
  for (Link& link : truck.axles[kRear].links) {
    if (link.name.key == "lower arm") link.span.p_CP.z() += 0.8 * kSlope;
  }
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const double lateral = 1e-3 * kStandardGravity;
  const Corner one = TakeCorner(rig, truck.loads[0], rest, lateral);
  const Corner two = TakeCorner(rig, truck.loads[0], rest, -lateral);
  const double steer = 0.5 * (one.axle_steer[kRear] - two.axle_steer[kRear]);
  const double roll = 0.5 * (one.body_roll - two.body_roll);  // rigid tyres: the axle stays level
  EXPECT_NEAR(steer / roll, kSlope, 1e-5) << "[rad/rad]";
  EXPECT_NEAR(RollGeometryOf(rig, rest).roll_steer[kRear], kSlope, 1e-5);
}

// Torque alone: the driven axle's right wheel loses load, the other axle's left one; nothing is
// left over on the floor. Enough of it lifts the wheel it unloads.
TEST(ShaftTorque, LiftsTheRightWheelOfTheDrivenAxle) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) axle.bar_roll_rate = 80e3;
  const Rig rig = PrepareRig(truck);
  const Stance rest = Settle(rig, truck.loads[0]);
  const TorqueLift lift = LiftByTorque(rig, truck.loads[0], rest, kRear, 600.0);
  double sum = 0.0;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    sum += lift.stance.wheel_load[wheel] - rest.wheel_load[wheel];
  }
  EXPECT_NEAR(sum, 0.0, kForceTol) << "[N] the weight stays";
  EXPECT_NEAR(LeftOver(rig, lift.stance)[1], 0.0, kMomentTol) << "a shaft's torque is internal";
  EXPECT_GT(lift.moved[kRear], 0.0);
  EXPECT_LT(lift.moved[kFront], 0.0);
  ASSERT_TRUE(lift.ends.lift);
  const double share = lift.ends.lift->share;
  const TorqueLift there = LiftByTorque(rig, truck.loads[0], rest, kRear, 600.0 * share);
  EXPECT_NEAR(there.stance.wheel_load[lift.ends.lift->wheel], 0.0, 1e-3) << "[N]";
  EXPECT_EQ(lift.ends.lift->wheel, 3U) << "an engine's torque lifts the right rear wheel";
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

// The torque at which a member reaches its end is the vehicle's own: neither the torque asked about
// nor the datum has a say in it, and it is the end itself: just before it the member has some of
// its travel left, just behind it none.
TEST(ShaftTorque, EndsWhereAMemberDoesWhateverTorqueIsAskedAbout) {
  const Vehicle van = sample::HarbourVan();
  const Vehicle elsewhere = sample::FromAnotherDatum(van, {1.37, 0.0, -0.211});
  // [N m] 1e-9 of the 20 times that are looked at, doubled, of the greatest torque below
  constexpr double kTorqueTol = 2.0 * 1e-9 * 20.0 * 5000.0;
  std::optional<double> first;
  for (const Vehicle* vehicle : {&van, &elsewhere}) {
    const Rig rig = PrepareRig(*vehicle);
    const Load& load = vehicle->loads[0];
    const Stance rest = Settle(rig, load);
    for (double torque : {400.0, 500.0, 600.0, 800.0, 5000.0}) {
      const TorqueLift lift = LiftByTorque(rig, load, rest, kRear, torque);
      ASSERT_TRUE(lift.ends.member) << torque;
      const double limit = lift.ends.member->share * torque;
      if (!first) first = limit;
      EXPECT_NEAR(limit, *first, kTorqueTol) << torque;
    }
    const auto at_end = [&](double torque) {
      Push push;
      push.shaft_torque[kRear] = torque;
      return MemberAtEnd(rig, PushedBy(rig, load, rest, push)).has_value();
    };
    EXPECT_FALSE(at_end(*first - 0.05)) << "[N m] before it";
    EXPECT_TRUE(at_end(*first + 0.05)) << "[N m] behind it";
  }
}

// Where a vehicle goes over is its own, wherever the datum is.
TEST(GoingOver, DoesNotHangOnTheDatum) {
  const Vehicle van = sample::HarbourVan();
  const Vehicle elsewhere = sample::FromAnotherDatum(van, {25.0, 3.0, -4.0});
  std::array<std::optional<double>, 2> over;
  size_t i = 0;
  for (const Vehicle* vehicle : {&van, &elsewhere}) {
    const Rig rig = PrepareRig(*vehicle);
    const Load& load = vehicle->loads[0];
    over[i++] = TightenTurn(rig, load, Settle(rig, load), true).over;
  }
  ASSERT_EQ(over[0].has_value(), over[1].has_value());
  ASSERT_TRUE(over[0]);
  EXPECT_NEAR(*over[0], *over[1], 2.0 * kOverMet * kMostLateralInG) << "[g]";
}

}  // namespace
}  // namespace linkwright
