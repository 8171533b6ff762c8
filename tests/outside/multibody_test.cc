// SPDX-License-Identifier: MIT
// Against a general multibody library (tests/multibody): the same rods give the same poses, our
// rest is its standstill and where it comes to rest, our body modes are modes of its linearised
// motion.
#include "tests/multibody/multibody.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "solver/model/masses.h"
#include "solver/pose/solve.h"
#include "solver/rest/ride.h"
#include "solver/rest/settle.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

std::vector<multibody::Rod> RodsOf(const AxleFrame& frame) {
  std::vector<multibody::Rod> rods;
  for (const FrameLink& link : frame.links) rods.push_back({link.p_CP, link.p_AQ, link.length});
  return rods;
}

// For axles of four links without stops and bars, whose coils stay seated.
multibody::VehicleModel ModelOf(const Rig& rig, const SprungMass& sprung, double pitch_inertia) {
  multibody::VehicleModel model{sprung.mass, sprung.p_CM, pitch_inertia, kStandardGravity, {}};
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const AxleFrame& frame = rig.axles[i].frame;
    model.axles[i] = {axle.unsprung->mass,
                      OnHousing(frame, axle.unsprung->p_CM),
                      0.5 * frame.track,
                      *axle.tire.radius,
                      *axle.tire.rate,
                      RodsOf(frame),
                      {}};
    for (const Spring& spring : axle.springs) {
      model.axles[i].coils.push_back({spring.span.p_CP, OnHousing(frame, spring.span.p_CQ),
                                      spring.law.rate, spring.law.free_length});
    }
  }
  return model;
}

Eigen::Isometry3d OnTheFloor(const Eigen::Vector3d& up_C, double heave) {
  const Eigen::Vector3d x = (Eigen::Vector3d::UnitX() - up_C.x() * up_C).normalized();
  Eigen::Isometry3d X_GC = Eigen::Isometry3d::Identity();
  X_GC.linear().row(0) = x;
  X_GC.linear().row(1) = up_C.cross(x);
  X_GC.linear().row(2) = up_C;
  X_GC.translation().z() = heave;
  return X_GC;
}

void Place(multibody::Vehicle& other, const Stance& stance, double heave) {
  other.Place(OnTheFloor(stance.up_C, heave),
              {Transform(stance.motion[0].pose), Transform(stance.motion[1].pose)});
}

TEST(Multibody, SameRodsSamePoses) {
  constexpr double kAccuracy = 1e-13;  // [m] asked of its projection
  constexpr double kPoseTol = 1e-10;   // [m, -] that, times a condition of 1e3
  for (const Axle& axle : {sample::TriangulatedRear(), sample::ThreeLinkTrackBar()}) {
    const AxleFrame frame = PrepareAxle(axle);
    multibody::Housing other(RodsOf(frame), 0.5 * frame.track, frame.X_CA);
    HousingMotion here = EvaluateMotion(frame, frame.measured);
    for (const auto& [left, right] : std::vector<std::pair<double, double>>{{0.03, 0.03},
                                                                            {0.08, 0.04},
                                                                            {0.13, 0.05},
                                                                            {0.04, 0.0},
                                                                            {-0.04, -0.08},
                                                                            {-0.15, -0.05}}) {
      const AxlePlace wanted = PlaceAt(frame, 0.0, {left, right});
      const PoseSolution moved = MovePose(frame, here, wanted.z, wanted.roll);
      ASSERT_EQ(moved.status, SolveStatus::kConverged);
      const Eigen::Isometry3d X_CA =
          other.MoveTo(axle.p_CW_l.z() + left, axle.p_CW_r.z() + right, kAccuracy);
      EXPECT_TRUE(check::Near(Transform(moved.pose).matrix(), X_CA.matrix(), kPoseTol))
          << left << " " << right;
      here = EvaluateMotion(frame, moved.pose);
    }
  }
}

constexpr double kPitchInertia = 1800.0;  // [kg m2] any
const Load kSkew{"skew", {{"crate", 240.0, {-1.9, 0.35, 0.95}}}};

TEST(Multibody, NothingAcceleratesAtOurRest) {
  constexpr double kStill = 1e-6;  // [m/s2, rad/s2] 1e-5 N on 100 kg, and to spare
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, kSkew);
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  multibody::Vehicle other(ModelOf(rig, stance.sprung, kPitchInertia));
  Place(other, stance, stance.heave);
  EXPECT_TRUE(check::Near(other.Accelerations(), Eigen::VectorXd::Zero(18), kStill));
  // A micrometre off, it does: the test can fail.
  Place(other, stance, stance.heave + 1e-6);
  EXPECT_FALSE(check::Near(other.Accelerations(), Eigen::VectorXd::Zero(18), kStill));
}

TEST(Multibody, ItComesToRestWhereOursDoes) {
  constexpr double kHeightTol = 1e-6;  // [m] its integrator's accuracy of 1e-7, ten times
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, kSkew);
  multibody::Vehicle other(ModelOf(rig, stance.sprung, kPitchInertia));
  other.Place(OnTheFloor(Eigen::Vector3d::UnitZ(), 0.0),
              {rig.axles[0].frame.X_CA, rig.axles[1].frame.X_CA});
  other.SinkToRest();
  for (const double x : {0.2, -2.8}) {
    for (const double y : {0.7, -0.7}) {
      const Eigen::Vector3d p_C(x, y, 0.5);
      EXPECT_NEAR(other.HeightOfBodyPoint(p_C), HeightAboveFloor(stance, p_C), kHeightTol);
    }
  }
}

// Our two modes come from ride rates alone, the library's from everything at once. They differ by
// what a two-mass model leaves out: the housings' mass (2 kg here) and the load's own lever as
// wheels move fore and aft. Under 1 %.
TEST(Multibody, BodyModesAreModesOfItsLinearisedMotion) {
  constexpr double kShare = 0.01;  // [-]
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) {
    axle.tire.radius =
        *axle.tire.radius - 0.5 * (axle.unsprung->mass - 2.0) * kStandardGravity / *axle.tire.rate;
    axle.unsprung->mass = 2.0;
  }
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  multibody::Vehicle other(ModelOf(rig, stance.sprung, kPitchInertia));
  Place(other, stance, stance.heave);
  const std::vector<double> hertz = other.Frequencies();
  std::array<double, 2> rate{};
  for (size_t i = 0; i < 2; ++i) {
    const RigAxle& prepared = rig.axles[i];
    const AxleEnergy energy =
        StoredEnergy(truck.axles[i], prepared.frame, prepared.pushers, stance.motion[i]);
    rate[i] = 2.0 * RideRate(WheelRate(energy), truck.axles[i].tire);
  }
  const double b = -stance.sprung.p_CM.x(), c = 2.6 - b;
  const auto modes = TwoModes(rate[0], rate[1], b, c, stance.sprung.mass, kPitchInertia);
  ASSERT_TRUE(modes);
  const auto nearest = [&](double wanted) {
    return *std::min_element(hertz.begin(), hertz.end(), [&](double x, double y) {
      return std::abs(x - wanted) < std::abs(y - wanted);
    });
  };
  EXPECT_NEAR(nearest(modes->bounce) / modes->bounce, 1.0, kShare);
  EXPECT_NEAR(nearest(modes->pitch) / modes->pitch, 1.0, kShare);
  EXPECT_NE(nearest(modes->bounce), nearest(modes->pitch)) << "one mode found twice";
}

}  // namespace
}  // namespace linkwright
