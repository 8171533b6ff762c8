// SPDX-License-Identifier: MIT
// The total energy written again as a sum over parts placed on the floor, and differenced in all
// seven unknowns.
#include "solver/rest/total_energy.h"

#include <gtest/gtest.h>

#include "solver/model/masses.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;
using One = Eigen::Matrix<double, 1, 1>;

constexpr double kStep = 1e-3;       // [m, rad] stays on one piece of every curve
constexpr double kEnergyTol = 1e-8;  // [J] rounding of 1e4 J, times 1e4
constexpr double kSlopeTol = 1e-4;   // [N, N m] 1e-12 of 1e4 J over 1 mm, times 10
constexpr double kCurveTol =
    1e-2;  // [N/m ...] of 1e5; slopes of 1e4 N to 1e-14 over 1 mm, times 1e5

struct Scene {
  Vehicle vehicle;
  RestVector at;
};

// Off every special place: pitched, rolled, one axle in bump and turned, the other in droop.
RestVector Somewhere(const Vehicle& vehicle) {
  RestVector at;
  at << -0.008 - vehicle.floor_z, 0.021, -0.017, vehicle.axles[0].p_CW_l.z() + 0.013, 0.011,
      vehicle.axles[1].p_CW_l.z() - 0.016, -0.014;
  return at;
}

RestState StateAt(const Rig& rig, const RestVector& at) {
  RestState state{.heave = at[kHeave], .slope = at.segment<2>(kSlopeX), .motion = {}};
  for (size_t i = 0; i < 2; ++i) {
    const int z = i == 0 ? kFrontHeight : kRearHeight;
    const PoseSolution moved =
        MovePose(rig.axles[i].frame, rig.axles[i].measured, at[z], at[z + 1]);
    EXPECT_EQ(moved.status, SolveStatus::kConverged);
    state.motion[i] = EvaluateMotion(rig.axles[i].frame, moved.pose);
  }
  return state;
}

double HeightOf(const RestState& state, const Eigen::Vector3d& p_C) {
  const double a = state.slope.x(), b = state.slope.y();
  return state.heave + a * p_C.x() + b * p_C.y() + std::sqrt(1.0 - a * a - b * b) * p_C.z();
}

// Part by part, with nothing but positions.
double EnergyByParts(const Vehicle& vehicle, const Rig& rig, const SprungMass& sprung,
                     const RestState& state) {
  double sum = sprung.mass * kStandardGravity * HeightOf(state, sprung.p_CM);
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    const AxleFrame& frame = rig.axles[i].frame;
    const Eigen::Isometry3d X = Transform(state.motion[i].pose);
    const auto carried = [&](const Eigen::Vector3d& p) -> Eigen::Vector3d {
      return X * (frame.X_CA.inverse() * p);
    };
    sum += axle.unsprung->mass * kStandardGravity * HeightOf(state, carried(axle.unsprung->p_CM));
    for (const Spring& spring : axle.springs) {
      sum += Evaluate(spring.law, (carried(spring.span.p_CQ) - spring.span.p_CP).norm()).energy;
    }
    for (const Stop& stop : axle.bump_stops) {
      const check::ConeByHand cone = check::ConeAt(stop, X * frame.X_CA.inverse());
      sum += Evaluate(stop.law, cone.length).energy;
    }
    if (axle.links.size() > 4) {
      for (const Link& link : axle.links) {
        const double stretch =
            (carried(link.span.p_CQ) - link.span.p_CP).norm() - MeasuredLength(link.span);
        sum += 0.5 * link.rate * stretch * stretch;
      }
    }
    const double wound = state.motion[i].pose.roll - frame.measured.roll;
    sum += 0.5 * axle.bar_roll_rate.value_or(0.0) * wound * wound;
    for (const Eigen::Vector3d& wheel : {axle.p_CW_l, axle.p_CW_r}) {
      const double squeeze = *axle.tire.radius - HeightOf(state, carried(wheel));
      if (squeeze > 0.0) sum += 0.5 * *axle.tire.rate * squeeze * squeeze;
    }
  }
  return sum;
}

std::vector<Vehicle> Vehicles() {
  Vehicle low = sample::HarbourVan();
  for (Axle& axle : low.axles) {
    for (Stop& stop : axle.bump_stops) stop.law.free_length += 0.05;  // stops touch
    axle.bump_stops[1].cone_on_axle = true;
    axle.tire.radius = *axle.tire.radius + 0.02;
  }
  return {sample::LevelTruck(), sample::HarbourVan(), low};
}

TEST(TotalEnergy, IsTheSumOfItsParts) {
  for (const Vehicle& vehicle : Vehicles()) {
    const Rig rig = PrepareRig(vehicle);
    const SprungMass sprung = FinishedSprungMass(vehicle);
    const RestState state = StateAt(rig, Somewhere(vehicle));
    EXPECT_NEAR(TotalEnergy(rig, sprung, state).value, EnergyByParts(vehicle, rig, sprung, state),
                kEnergyTol);
  }
}

TEST(TotalEnergy, GradientIsItsDifferencesInAllSevenUnknowns) {
  for (const Vehicle& vehicle : Vehicles()) {
    const Rig rig = PrepareRig(vehicle);
    const SprungMass sprung = FinishedSprungMass(vehicle);
    const RestVector at = Somewhere(vehicle);
    RestVector expected;
    for (int k = 0; k < kRestUnknowns; ++k) {
      const auto along = [&](double s) {
        const RestState state = StateAt(rig, at + s * RestVector::Unit(k));
        return One(EnergyByParts(vehicle, rig, sprung, state));
      };
      expected[k] = FirstDifference(along, kStep)[0];
    }
    EXPECT_TRUE(Near(TotalEnergy(rig, sprung, StateAt(rig, at)).gradient, expected, kSlopeTol));
  }
}

TEST(TotalEnergy, HessianIsTheGradientsDifferencesInAllSevenUnknowns) {
  for (const Vehicle& vehicle : Vehicles()) {
    const Rig rig = PrepareRig(vehicle);
    const SprungMass sprung = FinishedSprungMass(vehicle);
    const RestVector at = Somewhere(vehicle);
    const RestMatrix hessian = TotalEnergy(rig, sprung, StateAt(rig, at)).hessian;
    for (int k = 0; k < kRestUnknowns; ++k) {
      const auto along = [&](double s) {
        return RestVector(
            TotalEnergy(rig, sprung, StateAt(rig, at + s * RestVector::Unit(k))).gradient);
      };
      EXPECT_TRUE(Near(hessian.col(k), FirstDifference(along, kStep), kCurveTol))
          << "unknown " << k;
    }
    EXPECT_TRUE(Near(hessian, hessian.transpose(), 1e-8));
  }
}

TEST(TireForce, PushesOnlyWhileSqueezed) {
  Tire tire{};
  tire.radius = 0.38, tire.rate = 200e3;
  EXPECT_NEAR(TireForce(tire, 0, 0.36), 4000.0, 1e-9);
  EXPECT_EQ(TireForce(tire, 0, 0.38), 0.0);
  EXPECT_EQ(TireForce(tire, 0, 0.40), 0.0);
}

TEST(WheelCentreInAxle, CarriesToTheMeasuredCentres) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const Axle& axle = van.axles[wheel / 2];
    EXPECT_TRUE(Near(rig.axles[wheel / 2].frame.X_CA * WheelCentreInAxle(rig, wheel),
                     wheel % 2 == 0 ? axle.p_CW_l : axle.p_CW_r, 1e-14));
  }
}

}  // namespace
}  // namespace linkwright
