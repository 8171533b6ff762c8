// SPDX-License-Identifier: MIT
// A plan is checked by carrying it out by hand, point by point, and settling again.
#include "solver/study/openings/centring.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/rest/stance_report.h"
#include "tests/solver/study/stood.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kCentred = 1e-7;  // [m] the plan stops at 1e-9 of its own steps

Vehicle VanWithBody() {
  Vehicle van = sample::HarbourVan();
  van.ledger->added[0].fixed_to = FixedTo::kBody;
  van.ledger->added[2].fixed_to = FixedTo::kRear;
  return van;
}

// What `settle` says of both openings under the first load.
std::array<Offset, 2> Settled(const Vehicle& vehicle) {
  const Stood stood(vehicle);
  EXPECT_EQ(stood.stance.status, StanceStatus::kRests);
  const StanceReport report = ReportStance(stood.rig, stood.stance);
  std::array<Offset, 2> offset{};
  for (size_t i = 0; i < 2; ++i) {
    offset[i] = {report.axles[i].opening_ahead.value(), report.axles[i].opening_up.value()};
  }
  return offset;
}

// The rear axle and its brackets as a person would shift them in the file.
// A gap at the rear axle goes back with it: as wide then as before.
TEST(Centring, AGapGoesWithItsAxle) {
  Vehicle van = VanWithBody();
  const Eigen::Vector3d hub = van.axles[1].p_CW_l;
  van.axles[1].gaps = {{"hose", {hub + Eigen::Vector3d(0.0, -0.1, 0.2), hub}, {}}};
  const Vehicle moved =
      WithBodyMoved(van, {.ahead = 0.0, .up_front = 0.0, .up_rear = 0.0, .longer = 0.08});
  const Span &before = van.axles[1].gaps[0].span, &after = moved.axles[1].gaps[0].span;
  EXPECT_EQ(after.p_CP, Eigen::Vector3d(before.p_CP - Eigen::Vector3d(0.08, 0.0, 0.0)));
  EXPECT_EQ(after.p_CQ, Eigen::Vector3d(before.p_CQ - Eigen::Vector3d(0.08, 0.0, 0.0)));
}

void ShiftRear(Vehicle& vehicle, double back) {
  Axle& rear = vehicle.axles[1];
  const auto shift = [&](Eigen::Vector3d& p) { p.x() -= back; };
  shift(rear.p_CW_l), shift(rear.p_CW_r), shift(rear.unsprung->p_CM), shift(rear.pinion->p_CY);
  for (Link& link : rear.links) shift(link.span.p_CP), shift(link.span.p_CQ);
  for (Spring& spring : rear.springs) shift(spring.span.p_CP), shift(spring.span.p_CQ);
  for (Stop& stop : rear.bump_stops) shift(stop.span.p_CP), shift(stop.span.p_CQ);
  for (Damper& damper : rear.dampers) shift(damper.span.p_CP), shift(damper.span.p_CQ);
}

TEST(Centre, CarriedOutByHandCentresBothWheels) {
  const Vehicle van = VanWithBody();
  const CentringPlan plan = Centre(van, &van.loads[0], 1.0);
  ASSERT_TRUE(plan.found) << plan.message;
  // By hand: openings moved and tilted with the body, masses one by one, the frame's own weight by
  // what it puts on each axle.
  Vehicle built = van;
  ShiftRear(built, plan.move.longer);
  Opening& front = *built.axles[0].opening;
  Opening& rear = *built.axles[1].opening;
  const double dx = rear.x - front.x, dz = rear.z - front.z, length = std::hypot(dx, dz);
  const double dz_then = dz + plan.move.up_rear - plan.move.up_front;
  const double dx_then = -std::sqrt(length * length - dz_then * dz_then);
  const double turn = std::atan2(dz_then, -dx_then) - std::atan2(dz, -dx);  // rear up
  const Eigen::Vector3d pivot(front.x, 0.0, front.z);
  const Eigen::Vector3d moved_pivot =
      pivot + Eigen::Vector3d(plan.move.ahead, 0.0, plan.move.up_front);
  front = {moved_pivot.x(), moved_pivot.z(), front.radius, {}, {}};
  rear = {moved_pivot.x() + dx_then, moved_pivot.z() + dz_then, rear.radius, {}, {}};
  const SprungMass before = FinishedSprungMass(van);
  const Mass& body = van.ledger->added[0];
  const Mass& tank = van.ledger->added[2];
  Eigen::Vector3d moment = before.mass * before.p_CM;
  const double rest_x = (moment - body.mass * body.p_CM - tank.mass * tank.p_CM).x();
  moment.x() -= -rest_x / 2.540 * plan.move.longer;  // front axle at x = 0
  moment.x() -= tank.mass * plan.move.longer;
  const Eigen::Vector3d arm = body.p_CM - pivot;
  const Eigen::Vector3d turned(arm.x() * std::cos(turn) + arm.z() * std::sin(turn), arm.y(),
                               -arm.x() * std::sin(turn) + arm.z() * std::cos(turn));
  moment += body.mass * (moved_pivot + turned - body.p_CM);
  built.sprung = before;
  built.sprung->p_CM = moment / before.mass;
  built.ledger.reset();
  for (const Offset& offset : Settled(built)) {
    EXPECT_NEAR(offset.ahead, 0.0, kCentred);
    // [m] settle lets the chassis roll, the plan holds it level: second order in a mean
    EXPECT_NEAR(offset.up, 0.0, 1e-6);
  }
}

TEST(Centre, TakesTheMismatchOutOfTheChassisAndTheRestOutOfTheBody) {
  // Without masses nothing settles: plain sums of the file's numbers.
  Vehicle van = sample::HarbourVan();
  van.ledger.reset();
  const CentringPlan plan = Centre(van, nullptr, 1.0);
  ASSERT_TRUE(plan.found);
  // Openings 8 mm ahead of the hubs in front, 8 mm behind them at the rear: 2556 against 2540.
  constexpr double kTilt = 1e-4;  // [m] 3 mm and 9 mm of packing turn the body by 0.13 deg
  EXPECT_NEAR(plan.before[0].ahead, -0.008, 1e-12);
  EXPECT_NEAR(plan.before[1].ahead, 0.008, 1e-12);
  EXPECT_NEAR(plan.move.longer, 0.016, kTilt);
  EXPECT_NEAR(plan.move.ahead, -0.008, kTilt);
  EXPECT_NEAR(plan.move.up_front, -0.003, kTilt);
  EXPECT_NEAR(plan.move.up_rear, -0.009, kTilt);
}

TEST(Centre, LeavesEvenlyWhatTheChassisDoesNotTake) {
  const Vehicle van = VanWithBody();
  const double mismatch = [&] {
    const CentringPlan whole = Centre(van, &van.loads[0], 1.0);
    return whole.before[1].ahead - whole.before[0].ahead;
  }();
  for (const double share : {0.25, 0.6}) {
    const CentringPlan plan = Centre(van, &van.loads[0], share);
    ASSERT_TRUE(plan.found);
    EXPECT_NEAR(plan.after[1].ahead, 0.5 * (1.0 - share) * mismatch, kCentred);
    EXPECT_NEAR(plan.after[0].ahead, -0.5 * (1.0 - share) * mismatch, kCentred);
  }
  const CentringPlan alone = Centre(van, &van.loads[0], 0.0);
  ASSERT_TRUE(alone.found);
  EXPECT_EQ(alone.move.longer, 0.0);
  EXPECT_NEAR(alone.after[0].ahead, -alone.after[1].ahead, kCentred);
}

TEST(Centre, ABodyThatWeighsMovesTheRest) {
  // 522 kg of body moved by 100 mm shift some 52 kg m: the front axle settles lower.
  const Vehicle van = VanWithBody();
  const Vehicle moved =
      WithBodyMoved(van, {.ahead = 0.1, .up_front = 0, .up_rear = 0, .longer = 0});
  const double shift = FinishedSprungMass(moved).p_CM.x() - FinishedSprungMass(van).p_CM.x();
  EXPECT_NEAR(shift, 0.1 * 522.0 / FinishedSprungMass(van).mass, 1e-12);
  const Stood one(van), other(moved);
  EXPECT_GT(other.stance.wheel_load[0], one.stance.wheel_load[0] + 50.0);
  Vehicle unmarked = sample::HarbourVan();
  const Vehicle still =
      WithBodyMoved(unmarked, {.ahead = 0.1, .up_front = 0, .up_rear = 0, .longer = 0});
  EXPECT_NEAR(FinishedSprungMass(still).p_CM.x(), FinishedSprungMass(unmarked).p_CM.x(), 1e-12);
}

TEST(Centre, ACutFrameKeepsWhatItPutsOnEachAxle) {
  // With no item placed the sprung mass is two lumps over the axles, so that a stretch leaves the
  // load each axle carries.
  const Vehicle van = sample::HarbourVan();
  const Vehicle longer =
      WithBodyMoved(van, {.ahead = 0, .up_front = 0, .up_rear = 0, .longer = 0.3});
  const SprungMass a = FinishedSprungMass(van), b = FinishedSprungMass(longer);
  EXPECT_NEAR(a.p_CM.x() / 2.540, b.p_CM.x() / 2.840, 1e-12);
  EXPECT_NEAR(a.p_CM.z(), b.p_CM.z(), 1e-12);
}

TEST(Centre, LoadItemsGoWithTheBodyUnlessTheySayOtherwise) {
  const Vehicle van = sample::HarbourVan();
  Load load = van.loads[2];
  load.items[1].fixed_to = FixedTo::kRear;
  const BodyMove move{.ahead = 0.05, .up_front = 0.0, .up_rear = 0.0, .longer = 0.2};
  const Load moved = WithBodyMoved(load, move, van);
  EXPECT_TRUE(
      check::Near(moved.items[0].p_CM, load.items[0].p_CM + Eigen::Vector3d(0.05, 0, 0), 1e-12));
  EXPECT_TRUE(
      check::Near(moved.items[1].p_CM, load.items[1].p_CM - Eigen::Vector3d(0.2, 0, 0), 1e-12));
}

TEST(Centre, WantsBothOpenings) {
  Vehicle van = sample::HarbourVan();
  van.axles[1].opening.reset();
  EXPECT_THROW((void)Centre(van, &van.loads[0], 1.0), ModelError);
}

TEST(HangAxles, IsTheDifferenceOfTwoPoses) {
  const Stood stood(sample::HarbourVan());
  const auto hanging = HangAxles({stood.rig, &stood.stance});
  for (size_t i = 0; i < 2; ++i) {
    const AxleFrame& frame = stood.rig.axles[i].frame;
    const Pose rest =
        MovePose(frame, stood.rig.axles[i].measured, stood.stance.motion[i].pose.z, 0.0).pose;
    const Pose down =
        MovePose(frame, stood.rig.axles[i].measured, rest.z + hanging[i].travel, 0.0).pose;
    constexpr double kTol = 1e-9;  // [m] two walks to one place
    EXPECT_LT(hanging[i].travel, -0.03);
    EXPECT_NEAR(hanging[i].ahead, down.x - rest.x, kTol);
    EXPECT_NEAR(hanging[i].left, down.y - rest.y, kTol);
    EXPECT_NEAR(hanging[i].up, hanging[i].travel, kTol);
    EXPECT_NEAR(hanging[i].in_opening->ahead, down.x - stood.vehicle.axles[i].opening->x, kTol);
  }
}

}  // namespace
}  // namespace linkwright
