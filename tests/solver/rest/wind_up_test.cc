// SPDX-License-Identifier: MIT
// Wind-up against a balance of forces and moments written in plain vectors, and against rigid
// links.
#include "solver/rest/wind_up.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/model/force_law.h"
#include "solver/model/masses.h"
#include "solver/pose/link_equations.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTorque = 3000.0;   // [N m] a light truck in low gear
constexpr double kForceTol = 1e-4;   // [N] links of 5 MN/m at 1e-12 m, times 20
constexpr double kMomentTol = 1e-4;  // [N m] the same at a metre

struct Sums {
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  void Add(const Eigen::Vector3d& p, const Eigen::Vector3d& f) {
    force += f;
    moment += p.cross(f);
  }
};

// Everything that acts on the housing at a pose, about Co: written without generalised coordinates.
Sums OnHousingAt(const Rig& rig, const Stance& stance, size_t index, double torque,
                 const Pose& pose) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  const Eigen::Isometry3d X = Transform(pose);
  const auto carried = [&](const Eigen::Vector3d& p_C) -> Eigen::Vector3d {
    return X * (frame.X_CA.inverse() * p_C);
  };
  Sums sums;
  for (const Link& link : axle.links) {
    const Eigen::Vector3d q = carried(link.span.p_CQ), d = q - link.span.p_CP;
    sums.Add(q, -link.rate * (d.norm() - MeasuredLength(link.span)) * d.normalized());
  }
  for (const Spring& spring : axle.springs) {
    const Eigen::Vector3d q = carried(spring.span.p_CQ), d = q - spring.span.p_CP;
    sums.Add(q, spring.law.rate * (spring.law.free_length - d.norm()) * d.normalized());
  }
  const Eigen::Vector3d up = stance.up_C;
  sums.Add(carried(axle.unsprung->p_CM), -axle.unsprung->mass * kStandardGravity * up);
  const StanceReport report = ReportStance(rig, stance);
  const double radius = 0.5 * (stance.wheel_height[2 * index] + stance.wheel_height[2 * index + 1]);
  const double drive = torque / radius;
  const double base = 0.5 * (report.wheelbase_left + report.wheelbase_right);
  const double moved = drive * report.cg_height / base;  // onto the rear, which drives alone
  const Eigen::Vector3d ahead = up.cross(Eigen::Vector3d::UnitX()).cross(up).normalized();
  for (size_t side = 0; side < 2; ++side) {
    const Eigen::Vector3d hub = carried(side == 0 ? axle.p_CW_l : axle.p_CW_r);
    sums.Add(hub, (stance.wheel_load[2 * index + side] + 0.5 * moved) * up + 0.5 * drive * ahead);
  }
  sums.moment -= torque * X.linear().col(1);  // nose up: about the right-pointing lateral axis
  return sums;
}

TEST(WindUp, EveryForceAndMomentOnTheHousingBalances) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  const auto wind = WindUpUnder(rig, stance, kRear, kTorque);
  ASSERT_TRUE(wind);
  for (const double torque : {0.0, kTorque}) {
    const Sums sums =
        OnHousingAt(rig, stance, kRear, torque, torque > 0.0 ? wind->wound : wind->free);
    EXPECT_LT(sums.force.norm(), kForceTol);
    EXPECT_LT(sums.moment.norm(), kMomentTol);
  }
  EXPECT_GT(wind->wound.pitch, wind->free.pitch);  // driving forward lifts the nose
}

// Links as stiff as rods: wound or not, the housing is where rods put it at that height and roll.
TEST(WindUp, StiffLinksLeaveOnlyTheRodsMotion) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) {
    for (Link& link : axle.links) link.rate = 5e11;
  }
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  const auto wind = WindUpUnder(rig, stance, kRear, 500.0);
  ASSERT_TRUE(wind);
  const PoseSolution rods =
      MovePose(rig.axles[kRear].frame, stance.motion[kRear], wind->wound.z, wind->wound.roll);
  EXPECT_NEAR(wind->wound.pitch, rods.pose.pitch, 1e-6);  // [rad] 10 kN over 5e11 N/m, levered
  EXPECT_NEAR(wind->wound.x, rods.pose.x, 1e-6);
}

// An axle on radius arms: what its bushings hold is a slope of their energy, so that the work of
// the loads along any way is the energy's change there.
TEST(WindUp, OnRadiusArmsTheLoadsAreTheSlopeOfTheBushingsEnergy) {
  Vehicle van = sample::HarbourVan();
  Axle& rear = van.axles[kRear];
  const Link bar = rear.links[4];
  rear.links = {bar};
  for (const double side : {1.0, -1.0}) {
    rear.radius_arms.push_back({.name = {"radius arm", side > 0.0 ? Side::kLeft : Side::kRight},
                                .p_CP = {-1.600, side * 0.430, 0.430},
                                .p_CQ = {Eigen::Vector3d(-2.440, side * 0.450, 0.350),
                                         Eigen::Vector3d(-2.640, side * 0.450, 0.370)}});
  }
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const auto wind = WindUpUnder(rig, stance, kRear, kTorque);
  ASSERT_TRUE(wind);
  const AxleFrame& frame = rig.axles[kRear].frame;
  const auto energy = [&](const Pose& pose) {
    std::vector<double> stretch(frame.links.size());
    LinkResiduals(frame.links, pose, stretch.data(), nullptr);
    double sum = StrainOf(frame, stretch).energy;
    const Eigen::Isometry3d X = Transform(pose);
    for (const Pusher& pusher : rig.axles[kRear].pushers) {
      if (pusher.cone) continue;
      sum += Evaluate(*pusher.law, (X * pusher.p_AQ - pusher.p_CP).norm()).energy;
    }
    for (const Stop& stop : van.axles[kRear].bump_stops) {
      const check::ConeByHand cone = check::ConeAt(stop, X * frame.X_CA.inverse());
      sum += Evaluate(stop.law, cone.length).energy;
    }
    return sum;
  };
  // Forward and up: the loads' shares are what the tyres push with and the weight.
  const StanceReport report = ReportStance(rig, stance);
  const double radius = 0.5 * (stance.wheel_height[2] + stance.wheel_height[3]);
  const double drive = kTorque / radius;
  const double base = 0.5 * (report.wheelbase_left + report.wheelbase_right);
  const double up = stance.wheel_load[2] + stance.wheel_load[3] + drive * report.cg_height / base -
                    rear.unsprung->mass * kStandardGravity;
  const Eigen::Vector3d ahead =
      stance.up_C.cross(Eigen::Vector3d::UnitX()).cross(stance.up_C).normalized();
  const Eigen::Vector3d load = up * stance.up_C + drive * ahead;
  constexpr double kStep = 1e-5;  // [m] differences of an energy of some 500 J: 1e-13/1e-5 of it
  constexpr double kTol = 0.05;   // [N] that, and the third derivative
  Pose a = wind->wound, b = wind->wound;
  a.x -= kStep, b.x += kStep;
  EXPECT_NEAR((energy(b) - energy(a)) / (2.0 * kStep), load.x(), kTol);
  a = wind->wound, b = wind->wound;
  a.z -= kStep, b.z += kStep;
  EXPECT_NEAR((energy(b) - energy(a)) / (2.0 * kStep), load.z(), kTol);
  // Nose up the tyres' pushes at the hubs do nothing; the torque and the weight do.
  a = wind->wound, b = wind->wound;
  a.pitch -= kStep, b.pitch += kStep;
  const Eigen::Vector3d p_AM = OnHousing(frame, rear.unsprung->p_CM);
  const auto weight = [&](const Pose& pose) {
    return rear.unsprung->mass * kStandardGravity * stance.up_C.dot(Transform(pose) * p_AM);
  };
  EXPECT_NEAR((energy(b) + weight(b) - energy(a) - weight(a)) / (2.0 * kStep), kTorque, kTol);
}

TEST(WindUp, SmallTorquesWindInProportionAndBack) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const auto pitch = [&](double torque) {
    const auto wind = WindUpUnder(rig, stance, kRear, torque);
    return wind->wound.pitch - wind->free.pitch;
  };
  const double one = pitch(10.0);
  EXPECT_GT(one, 0.0);
  EXPECT_NEAR(pitch(20.0) / one, 2.0, 2e-3);  // second order: 10 N m turn it by 5e-5 rad
  EXPECT_NEAR(pitch(-10.0) / one, -1.0, 2e-3);
}

}  // namespace
}  // namespace linkwright
