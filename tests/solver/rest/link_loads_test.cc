// SPDX-License-Identifier: MIT
#include "solver/rest/link_loads.h"

#include <gtest/gtest.h>

#include "solver/model/masses.h"
#include "solver/pose/solve.h"
#include "solver/rest/settle.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kForceTol = 1e-6;  // [N, N m] rounding of 1e4 N, times a condition of 1e4

// What is left of all forces and moments on a housing, about Co.
double Left(const Rig& rig, size_t index, const HousingMotion& motion, const Eigen::Vector3d& up,
            const HousingBalance& balance) {
  const Axle& axle = rig.vehicle->axles[index];
  const RigAxle& prepared = rig.axles[index];
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& f) {
    force += f;
    moment += at.cross(f);
  };
  add(X_CA * OnHousing(prepared.frame, axle.unsprung->p_CM),
      -axle.unsprung->mass * kStandardGravity * up);
  for (const Stop& stop : axle.bump_stops) {
    const check::ConeByHand cone = check::ConeAt(stop, X_CA * prepared.frame.X_CA.inverse());
    add(cone.meets, Evaluate(stop.law, cone.length).force * cone.push);
  }
  for (const Pusher& pusher : prepared.pushers) {
    if (pusher.cone) continue;
    const Eigen::Vector3d at = X_CA * pusher.p_AQ, along = at - pusher.p_CP;
    add(at, Evaluate(*pusher.law, along.norm()).force * along.normalized());
  }
  for (size_t i = 0; i < prepared.frame.links.size(); ++i) {
    const FrameLink& link = prepared.frame.links[i];
    const Eigen::Vector3d at = X_CA * link.p_AQ;
    add(at, -balance.link_force[i] * (at - link.p_CP).normalized());
  }
  const double half = 0.5 * prepared.frame.track;
  add(X_CA * Eigen::Vector3d(0.0, half, 0.0), balance.wheel_force[0] * up);
  add(X_CA * Eigen::Vector3d(0.0, -half, 0.0), balance.wheel_force[1] * up);
  const double wound = motion.pose.roll - prepared.frame.measured.roll;
  moment -= axle.bar_roll_rate.value_or(0.0) * wound *
            Eigen::Vector3d(std::cos(motion.pose.steer), std::sin(motion.pose.steer), 0.0);
  return std::max(force.cwiseAbs().maxCoeff(), moment.cwiseAbs().maxCoeff());
}

HousingMotion OffStance(const RigAxle& axle) {
  return EvaluateMotion(axle.frame,
                        MovePose(axle.frame, axle.measured, axle.frame.measured.z + 0.03,
                                 axle.frame.measured.roll + 0.03)
                            .pose);
}

TEST(BalanceHousing, LeavesNothingOver) {
  const Eigen::Vector3d up = Eigen::Vector3d(0.02, -0.03, 1.0).normalized();
  for (const Vehicle& vehicle : {sample::LevelTruck(), sample::HarbourVan()}) {
    const Rig rig = PrepareRig(vehicle);
    for (size_t i = 0; i < 2; ++i) {
      const HousingMotion motion = OffStance(rig.axles[i]);
      const HousingBalance balance = BalanceHousing(vehicle.axles[i], rig.axles[i], motion, up);
      EXPECT_LE(Left(rig, i, motion, up, balance), kForceTol);
    }
  }
}

// At rest the wheels' forces are the stance's own, found another way. With five links the balance
// takes their give as linear, the stance's pose has their turning in it as well: strain force over
// rate times length, 1e-6 of the load.
TEST(BalanceHousing, WheelForcesAreTheStances) {
  for (const Vehicle& vehicle : {sample::LevelTruck(), sample::HarbourVan()}) {
    const double tolerance = vehicle.axles[0].links.size() == 4 ? 1e-4 : 1e-2;  // [N]
    const Rig rig = PrepareRig(vehicle);
    const Load load{"skew", {{"item", 120.0, {-1.8, 0.3, 0.9}}}};
    const Stance stance = Settle(rig, load);
    ASSERT_EQ(stance.status, StanceStatus::kRests);
    for (size_t i = 0; i < 2; ++i) {
      const HousingBalance balance =
          BalanceHousing(vehicle.axles[i], rig.axles[i], stance.motion[i], stance.up_C);
      EXPECT_NEAR(balance.wheel_force[0], stance.wheel_load[2 * i], tolerance);
      EXPECT_NEAR(balance.wheel_force[1], stance.wheel_load[2 * i + 1], tolerance);
    }
  }
}

// Coils seated over the housing's line on level arms leave the links nothing to carry.
TEST(BalanceHousing, UprightCoilsOnLevelArmsLoadNoLink) {
  Vehicle truck = sample::LevelTruck();
  Axle& rear = truck.axles[kRear];
  rear.links = sample::EqualParallelLinks(0.6, 0.8).links;
  for (Link& link : rear.links) link.span.p_CP.x() -= 2.6, link.span.p_CQ.x() -= 2.6;
  const Rig rig = PrepareRig(truck);
  const HousingBalance balance =
      BalanceHousing(rear, rig.axles[kRear], rig.axles[kRear].measured, Eigen::Vector3d::UnitZ());
  for (double force : balance.link_force) EXPECT_NEAR(force, 0.0, kForceTol);
}

// A coil a distance behind the axle's line winds the housing: the upper arm, h above the lower
// ones, carries force x distance / h. Tension is +: the coil pushes the tail down, the nose up, so
// the upper arm ahead of the axle is pulled rearward at its axle end.
TEST(BalanceHousing, CoilBehindTheLineWindsTheHousing) {
  Vehicle truck = sample::LevelTruck();
  Axle& rear = truck.axles[kRear];
  rear.links = sample::EqualParallelLinks(0.6, 0.8).links;
  for (Link& link : rear.links) link.span.p_CP.x() -= 2.6, link.span.p_CQ.x() -= 2.6;
  const double behind = 0.08, rise = 0.55 - 0.30;
  for (Spring& spring : rear.springs)
    spring.span.p_CP.x() -= behind, spring.span.p_CQ.x() -= behind;
  const Rig rig = PrepareRig(truck);
  const HousingBalance balance =
      BalanceHousing(rear, rig.axles[kRear], rig.axles[kRear].measured, Eigen::Vector3d::UnitZ());
  const double push = 450.0 * kStandardGravity;
  EXPECT_NEAR(balance.link_force[2], push * behind / rise, kForceTol);
  EXPECT_NEAR(balance.link_force[0] + balance.link_force[1], -push * behind / rise, kForceTol);
}

}  // namespace
}  // namespace linkwright
