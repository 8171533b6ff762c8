// SPDX-License-Identifier: MIT
// Columns of a sweep against the definitions of docs/columns: from poses, with the test's own sums.
#include <gtest/gtest.h>

#include "solver/geometry/front_view.h"
#include "solver/model/masses.h"
#include "solver/pose/solve.h"
#include "solver/rest/ride.h"
#include "solver/rest/settle.h"
#include "solver/study/curves/sweep.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;

constexpr double kTol = 1e-11;      // [m, rad] poses to 1e-12 by another way
constexpr double kForceTol = 1e-6;  // [N, N/m] 28 N/mm over 1e-11 m
constexpr double kHertzTol = 1e-9;  // [Hz]
constexpr double kTravel = 0.03;    // [m] of the row looked at

class VanRow : public testing::Test {
 protected:
  Vehicle vehicle = sample::HarbourVan();
  Rig rig = PrepareRig(vehicle);
  Stance stance = Settle(rig, vehicle.loads[1]);  // driver: not level from side to side
  Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = kTravel, .step = kTravel});
  const SweepRow& rest = sweep.rows.front();
  const SweepRow& row = sweep.rows.back();

  // The pose by the definition: mean of both wheels' travels in the stance, plus t, chassis level.
  [[nodiscard]] Pose PoseAt(size_t axle, double travel) const {
    const AxleFrame& frame = rig.axles[axle].frame;
    const Travels at_rest = TravelsOf(frame, stance.motion[axle].pose);
    const double t = 0.5 * (at_rest.left + at_rest.right) + travel;
    const AxlePlace wanted = PlaceAt(frame, t, {});
    return MovePose(frame, rig.axles[axle].measured, wanted.z, wanted.roll).pose;
  }
  [[nodiscard]] double LoadedRadius(size_t axle) const {
    return 0.5 * (stance.wheel_height[2 * axle] + stance.wheel_height[2 * axle + 1]);
  }
  // Elevation of the line under both tyres, by the external tangent of two circles.
  [[nodiscard]] double FloorElevation(double travel) const {
    const Pose f = PoseAt(0, travel), r = PoseAt(1, travel);
    const double d = std::hypot(f.x - r.x, f.z - r.z);
    return std::atan2(f.z - r.z, f.x - r.x) - std::asin((LoadedRadius(0) - LoadedRadius(1)) / d);
  }
};

TEST_F(VanRow, WheelbaseIsAlongTheFloor) {
  for (const double travel : {0.0, kTravel}) {
    const Pose f = PoseAt(0, travel), r = PoseAt(1, travel);
    const double elevation = FloorElevation(travel);
    const double along = (f.x - r.x) * std::cos(elevation) + (f.z - r.z) * std::sin(elevation);
    EXPECT_NEAR(*(travel == 0.0 ? rest : row).wheelbase, along, kTol);
  }
  EXPECT_NEAR(*row.wheelbase_change, *row.wheelbase - *rest.wheelbase, kTol);
}

TEST_F(VanRow, AxlesLengthenTheWheelbaseFrontForwardRearRearward) {
  EXPECT_NEAR(row.axles[0]->wheelbase_change, PoseAt(0, kTravel).x - PoseAt(0, 0.0).x, kTol);
  EXPECT_NEAR(row.axles[1]->wheelbase_change, -(PoseAt(1, kTravel).x - PoseAt(1, 0.0).x), kTol);
}

TEST_F(VanRow, LateralShiftSteerAndPitchAreThePoses) {
  for (size_t i = 0; i < 2; ++i) {
    const Pose pose = PoseAt(i, kTravel);
    EXPECT_NEAR(row.axles[i]->lateral_shift, pose.y - PoseAt(i, 0.0).y, kTol);
    EXPECT_NEAR(row.axles[i]->axle_steer, pose.steer, kTol);
    const Eigen::Vector3d forward = Transform(pose).linear().col(0);
    EXPECT_NEAR(row.axles[i]->housing_pitch, std::asin(forward.z()), kTol);
  }
}

TEST_F(VanRow, AnglesToTheFloorAreChassisAnglesPlusRake) {
  constexpr double kDegree = M_PI / 180.0;
  const double turned_front = row.axles[0]->housing_pitch - FloorElevation(kTravel);
  const double turned_rear = row.axles[1]->housing_pitch - FloorElevation(kTravel);
  EXPECT_TRUE(Holds(row.axles[0]->caster, 6.0 * kDegree + turned_front, kTol));
  EXPECT_TRUE(Holds(row.axles[1]->pinion_angle, 3.0 * kDegree + turned_rear, kTol));
  EXPECT_FALSE(row.axles[0]->pinion_angle);
  EXPECT_FALSE(row.axles[1]->caster);
}

// A pinion that points rearward (its yoke behind the wheel centre) goes down as the housing's nose
// goes up.
TEST_F(VanRow, PinionBehindTheWheelsTurnsTheOtherWay) {
  Vehicle other = vehicle;
  other.axles[kFront].pinion = Pinion{{-0.3, 0.0, 0.40}, 0.05};
  const Rig other_rig = PrepareRig(other);
  const Sweep swept =
      SweepBounce({other_rig, &stance}, {.from = 0.0, .to = kTravel, .step = kTravel});
  const double turned = row.axles[0]->housing_pitch - FloorElevation(kTravel);
  EXPECT_TRUE(Holds(swept.rows.back().axles[0]->pinion_angle, 0.05 - turned, kTol));
}

TEST_F(VanRow, SpringsAreTheirMeanInLengthAndForce) {
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    const Eigen::Isometry3d X_CA = Transform(PoseAt(i, kTravel));
    double length = 0.0, force = 0.0;
    for (const Spring& spring : axle.springs) {
      const double l =
          (X_CA * OnHousing(rig.axles[i].frame, spring.span.p_CQ) - spring.span.p_CP).norm();
      length += 0.5 * l;
      force += 0.5 * std::max(0.0, spring.law.rate * (spring.law.free_length - l));
    }
    EXPECT_TRUE(Holds(row.axles[i]->spring_length, length, kTol));
    EXPECT_TRUE(Holds(row.axles[i]->spring_force, force, kForceTol));
  }
}

TEST_F(VanRow, RideFrequencyIsOfWhatTheAxleCarriesAtRest) {
  for (size_t i = 0; i < 2; ++i) {
    const AxleRow& axle = *row.axles[i];
    const double carried =
        (stance.wheel_load[2 * i] + stance.wheel_load[2 * i + 1]) / kStandardGravity -
        vehicle.axles[i].unsprung->mass;
    EXPECT_NEAR(1.0 / *axle.ride_rate, 1.0 / *axle.wheel_rate + 1.0 / 230e3, 1e-15);
    EXPECT_TRUE(Holds(axle.ride_frequency,
                      std::sqrt(2.0 * *axle.ride_rate / carried) / (2.0 * M_PI), kHertzTol));
  }
}

// Virtual work: what the coils and stops lift per unit of bounce, over g, is the mass that would
// rest.
TEST_F(VanRow, RestFrequencyIsOfWhatWouldRestThere) {
  for (size_t i = 0; i < 2; ++i) {
    const auto energy = [&](double travel) {
      const Eigen::Isometry3d X_CA = Transform(PoseAt(i, travel));
      double sum = 0.0;
      for (const Pusher& pusher : rig.axles[i].pushers) {
        if (pusher.cone) continue;
        sum += Evaluate(*pusher.law, (X_CA * pusher.p_AQ - pusher.p_CP).norm()).energy;
      }
      for (const Stop& stop : rig.vehicle->axles[i].bump_stops) {
        const check::ConeByHand cone =
            check::ConeAt(stop, X_CA * rig.axles[i].frame.X_CA.inverse());
        sum += Evaluate(stop.law, cone.length).energy;
      }
      return sum;
    };
    constexpr double h = 1e-3;  // [m] five-point difference good to 1e-8 of its value
    const double lift = (8.0 * (energy(kTravel + h) - energy(kTravel - h)) -
                         (energy(kTravel + 2.0 * h) - energy(kTravel - 2.0 * h))) /
                        (12.0 * h);
    ASSERT_GT(lift, 1000.0);
    EXPECT_TRUE(
        Holds(row.axles[i]->rest_frequency,
              std::sqrt(2.0 * *row.axles[i]->ride_rate / (lift / kStandardGravity)) / (2.0 * M_PI),
              1e-6));
  }
}

TEST_F(VanRow, OpeningsAreWheelLessOpening) {
  for (size_t i = 0; i < 2; ++i) {
    const Pose pose = PoseAt(i, kTravel);
    EXPECT_TRUE(Holds(row.axles[i]->opening_ahead, pose.x - vehicle.axles[i].opening->x, kTol));
    EXPECT_TRUE(Holds(row.axles[i]->opening_up, pose.z - vehicle.axles[i].opening->z, kTol));
  }
}

TEST_F(VanRow, StrainForceIsTheGreatestWithoutItsSign) {
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Isometry3d X_CA = Transform(PoseAt(i, kTravel));
    double greatest = 0.0;
    for (const FrameLink& link : rig.axles[i].frame.links) {
      const double stretch = (X_CA * link.p_AQ - link.p_CP).norm() - link.length;
      greatest = std::max(greatest, std::abs(link.rate * stretch));
    }
    ASSERT_GT(greatest, 1.0);
    EXPECT_TRUE(Holds(row.axles[i]->link_strain_force, greatest, 1e-4));  // 5 MN/m over 1e-11 m
  }
}

TEST(LevelTruckRow, FourLinksHaveNoStrainForce) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = 0.02, .step = 0.02});
  for (const auto& axle : sweep.rows.back().axles)
    EXPECT_TRUE(Holds(axle->link_strain_force, 0.0, 0.0));
}

// At rest in the stance it was measured in, what would rest there is what does.
TEST(LevelTruckRow, RestFrequencyAtRestIsTheRideFrequency) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = 0.0, .step = 0.01});
  ASSERT_EQ(sweep.rows.size(), 1u);
  for (const std::optional<AxleRow>& axle : sweep.rows[0].axles) {
    ASSERT_TRUE(axle->ride_frequency);
    EXPECT_TRUE(Holds(axle->rest_frequency, *axle->ride_frequency, 1e-6));
  }
}

// Unladen coils push nothing: no mass would rest there.
TEST(LevelTruckRow, RestFrequencyIsEmptyWhereCoilsHangFree) {
  Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = -0.14, .to = 0.0, .step = 0.01});
  EXPECT_FALSE(sweep.rows.front().axles[kRear]->rest_frequency);
  EXPECT_TRUE(sweep.rows.back().axles[kRear]->rest_frequency);
}

// Drive and brakes: signs of DESIGN's four names, on a truck whose rear contact points go back and
// whose front ones go forward in bump.
TEST(LevelTruckRow, AntiValuesAreVirtualWork) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = 0.0, .step = 0.01});
  const double length = 2.6;
  const double height = (1000.0 * 0.75 + 200.0 * 0.36) / 1200.0;
  std::array<double, 2> slope{};
  for (size_t i = 0; i < 2; ++i) {  // dx/dz of the contact point, wheels locked, by differences
    const AxleFrame& frame = rig.axles[i].frame;
    const Eigen::Vector3d p_AK(0.0, 0.0, -0.34);
    constexpr double h = 1e-4;  // [m] good to 1e-8
    const auto at = [&](double s) -> Eigen::Vector3d {
      Pose guess = frame.measured;
      guess.z += s;
      const Pose pose = SolvePose(frame, guess).pose;
      // The lowest point of the wheel at rest, carried by the housing.
      return Transform(pose) * p_AK;
    };
    slope[i] = (at(h).x() - at(-h).x()) / (at(h).z() - at(-h).z());
  }
  const SweepRow& row = sweep.rows[0];
  constexpr double kAntiTol = 1e-6;  // [-]
  EXPECT_TRUE(Holds(row.axles[kRear]->anti_drive, -0.6 * slope[1] * length / height, kAntiTol));
  EXPECT_TRUE(Holds(row.axles[kFront]->anti_drive, 0.4 * slope[0] * length / height, kAntiTol));
  EXPECT_TRUE(Holds(row.axles[kFront]->anti_brake, 0.7 * slope[0] * length / height, kAntiTol));
  EXPECT_TRUE(Holds(row.axles[kRear]->anti_brake, -0.3 * slope[1] * length / height, kAntiTol));
}

// Lower arms that rise from the axle to the frame behind it squat less: anti-squat is +.
TEST(LevelTruckRow, ConvergingArmsOpposeSquatAndDive) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = 0.0, .step = 0.01});
  EXPECT_GT(*sweep.rows[0].axles[kRear]->anti_drive, 0.1);
  EXPECT_GT(*sweep.rows[0].axles[kFront]->anti_brake, 0.1);
}

TEST(GeometryOnlyRow, KeepsEveryColumnThatNeedsNoLoad) {
  Vehicle van = sample::HarbourVan();
  van.ledger.reset();
  const Rig rig = PrepareRig(van);
  const Sweep sweep = SweepBounce({rig, nullptr}, {.from = -0.02, .to = 0.02, .step = 0.02});
  for (const SweepRow& row : sweep.rows) {
    EXPECT_FALSE(row.roll_axis_height);
    EXPECT_EQ(row.driveshafts.size(), 1u);
    for (const std::optional<AxleRow>& axle : row.axles) {
      EXPECT_TRUE(axle->spring_length && axle->instant_center && axle->opening_ahead);
      EXPECT_FALSE(axle->anti_drive || axle->anti_brake || axle->spring_force || axle->wheel_rate ||
                   axle->ride_rate || axle->ride_frequency || axle->rest_frequency ||
                   axle->link_strain_force);
    }
  }
  // About the measured stance: travel 0 is where it was measured.
  EXPECT_NEAR(*sweep.rows[1].wheelbase, 2.540,
              1e-4);  // floor slopes by the 4 mm between the centres
  EXPECT_NEAR(*sweep.rows[1].axles[kFront]->opening_ahead, -0.008, kTol);
}

TEST_F(VanRow, RollAxisIsReadUnderTheSprungCentre) {
  const Pose f = PoseAt(0, kTravel), r = PoseAt(1, kTravel);
  const double elevation = FloorElevation(kTravel);
  const Eigen::Vector2d e(std::cos(elevation), std::sin(elevation));
  const double front = e.dot(Eigen::Vector2d(f.x, f.z)), rear = e.dot(Eigen::Vector2d(r.x, r.z));
  const double mass = e.dot(Eigen::Vector2d(stance.sprung.p_CM.x(), stance.sprung.p_CM.z()));
  const double hf = *row.axles[0]->roll_center_height, hr = *row.axles[1]->roll_center_height;
  EXPECT_TRUE(Holds(row.roll_axis_height, hr + (hf - hr) * (mass - rear) / (front - rear), kTol));
  EXPECT_NEAR(*row.roll_axis_slope, std::atan((hf - hr) / (front - rear)), kTol);
}

}  // namespace
}  // namespace linkwright
