// SPDX-License-Identifier: MIT
// The mass matrix against clusters of point masses placed on the floor and differenced; damping
// against a time integration.
#include "solver/rest/linear_model.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "solver/rest/damping.h"
#include "solver/rest/modes.h"
#include "solver/rest/settle.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;

constexpr int kMoving = kModelUnknowns + 1;
using MovingVector = Eigen::Matrix<double, kMoving, 1>;

struct Point {
  double mass;
  int axle;           // -1: of the body
  Eigen::Vector3d p;  // in C, or in A
};

RestState MovedState(const Rig& rig, const Stance& stance, const MovingVector& by) {
  RestState state = StateOf(stance);
  state.heave += by[kHeave];
  state.slope += by.segment<2>(kSlopeX);
  for (size_t i = 0; i < 2; ++i) {
    const int z = HeightIndex(i);
    const Pose& pose = stance.motion[i].pose;
    const PoseSolution moved =
        MovePose(rig.axles[i].frame, stance.motion[i], pose.z + by[z], pose.roll + by[z + 1]);
    EXPECT_EQ(moved.status, SolveStatus::kConverged);
    state.motion[i] = EvaluateMotion(rig.axles[i].frame, moved.pose);
  }
  return state;
}

// The point of a housing that lay, at the stance, where the mean of both wheels' lowest points is,
// each wheel a flat disc square to the axle; a disc rolls, so the point stays lowest in its plane.
Eigen::Vector3d ContactOf(const Stance& stance, const RestState& state, size_t axle) {
  const auto down = [&](const RestState& of) {
    const Eigen::Vector3d n = UpInChassis(of);
    const Eigen::Vector3d u = Transform(of.motion[axle].pose).linear().col(1);
    return Eigen::Vector3d(-(n - n.dot(u) * u).normalized());
  };
  double radius = 0.0;
  for (size_t wheel = 2 * axle; wheel < 2 * axle + 2; ++wheel) {
    radius += 0.5 * stance.wheel_height[wheel] / -down(StateOf(stance)).dot(stance.up_C);
  }
  return Transform(state.motion[axle].pose).translation() + radius * down(state);
}

// Where a point is over the floor, sideways held by both contacts.
Eigen::Vector3d OnFloor(const Rig& rig, const Stance& stance, const Point& point,
                        const MovingVector& by) {
  const RestState state = MovedState(rig, stance, by);
  const Eigen::Vector3d n = UpInChassis(state);
  const Eigen::Vector3d rear = ContactOf(stance, state, 1);
  Eigen::Vector3d line = ContactOf(stance, state, 0) - rear;
  line -= line.dot(n) * n;
  const Eigen::Vector3d e = line.normalized(), left = n.cross(e);
  Eigen::Vector3d p_C = point.p;
  if (point.axle >= 0)
    p_C = Transform(state.motion[static_cast<size_t>(point.axle)].pose) * point.p;
  const double ahead = e.dot(p_C - rear), aside = left.dot(p_C - rear);
  const double yaw = std::asin((by[kSwayFront] - by[kSwayRear]) / line.norm());
  return {by[kModelUnknowns] + ahead * std::cos(yaw) - aside * std::sin(yaw),
          by[kSwayRear] + ahead * std::sin(yaw) + aside * std::cos(yaw), state.heave + n.dot(p_C)};
}

// Two points on each axis a metre off the centre, and what is left of the mass there.
std::vector<Point> Cluster(const Rig& rig, const Stance& stance, const Inertias& inertias) {
  std::vector<Point> points;
  const SprungMass& sprung = stance.sprung;
  const double Ix = inertias.roll, Iy = inertias.pitch, Iz = inertias.yaw;
  const Eigen::Vector3d second(0.5 * (Iy + Iz - Ix), 0.5 * (Ix + Iz - Iy), 0.5 * (Ix + Iy - Iz));
  points.push_back({sprung.mass - second.sum(), -1, sprung.p_CM});
  for (int axis = 0; axis < 3; ++axis) {
    for (const double way : {1.0, -1.0}) {
      const Eigen::Vector3d p = sprung.p_CM + way * Eigen::Vector3d::Unit(axis);
      points.push_back({0.5 * second[axis], -1, p});
    }
  }
  for (int i = 0; i < 2; ++i) {
    const auto axle = static_cast<size_t>(i);
    const Mass& unsprung = *rig.vehicle->axles[axle].unsprung;
    const Eigen::Vector3d p = OnHousing(rig.axles[axle].frame, unsprung.p_CM);
    const double I = inertias.axle[axle];
    points.push_back({unsprung.mass - I, i, p});
    points.push_back({0.5 * I, i, p + Eigen::Vector3d::UnitY()});
    points.push_back({0.5 * I, i, p - Eigen::Vector3d::UnitY()});
  }
  return points;
}

TEST(LinearModel, MassMatrixIsThatOfPointsOnTheFloor) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, {"lopsided", {{"crate", 220.0, {-2.1, 0.5, 0.9}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  const Inertias inertias = InertiasOf(rig, stance);
  Eigen::Matrix<double, kMoving, kMoving> M = Eigen::Matrix<double, kMoving, kMoving>::Zero();
  for (const Point& point : Cluster(rig, stance, inertias)) {
    Eigen::Matrix<double, 3, kMoving> J;
    for (int k = 0; k < kMoving; ++k) {
      J.col(k) = FirstDifference(
          [&](double s) { return OnFloor(rig, stance, point, s * MovingVector::Unit(k)); }, 1e-3);
    }
    M += point.mass * J.transpose() * J;
  }
  const Eigen::MatrixXd Mq = M.topLeftCorner<kModelUnknowns, kModelUnknowns>();
  const Eigen::VectorXd Ms = M.topRightCorner<kModelUnknowns, 1>();
  const Eigen::MatrixXd expected = Mq - Ms * Ms.transpose() / M(kModelUnknowns, kModelUnknowns);
  const LinearModel model = Linearise(rig, stance, inertias);
  ASSERT_EQ(model.mass.rows(), kModelUnknowns);
  // [kg ...] of 1e4; differences to 1e-12 of metres over 1 mm, times 10
  EXPECT_TRUE(Near(model.mass, model.free.transpose() * expected * model.free, 1e-5));
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(kModelUnknowns, kModelUnknowns);
  for (const Eigen::MatrixXd& part : model.part) sum += part;
  EXPECT_TRUE(Near(model.mass, sum, 1e-9));
}

TEST(LinearModel, AFileWithoutInertiasTakesTheGuessesAndSaysSo) {
  Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Inertias guessed = InertiasOf(rig, stance);
  EXPECT_TRUE(guessed.roll_guessed && guessed.pitch_guessed && guessed.axle_guessed[0]);
  EXPECT_NEAR(guessed.roll, 1000.0 * std::pow(0.4 * 1.49, 2), 1e-9);
  // Half of 100 kg at the wheels, half along 1.5 m: 100 (1.5^2/8 + 1.5^2/24), to the guess's
  // digits.
  EXPECT_NEAR(guessed.axle[0], 100.0 * 2.25 / 6.0, 0.1);
  Stance known = stance;
  known.sprung.roll_inertia = 321.0;
  EXPECT_EQ(InertiasOf(rig, known).roll, 321.0);
  EXPECT_FALSE(InertiasOf(rig, known).roll_guessed);
}

TEST(Damping, IsTheMeanOfBumpAndReboundAndEitherAlone) {
  Damper damper{};
  EXPECT_FALSE(LinearDamping(damper));
  damper.rebound = 3000.0;
  EXPECT_EQ(LinearDamping(damper), 3000.0);
  damper.bump = 1000.0;
  EXPECT_EQ(LinearDamping(damper), 2000.0);
}

// Upright over the housing, 0.45 m out: one for one in bounce, 2 c y^2 in roll.
TEST(Damping, OfTheFlatTruckIsItsDampers) {
  sample::FlatTruck is;
  is.damper = 1500.0;
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const auto damping = DampingOf(rig, Settle(rig, truck.loads[0]), kFront);
  ASSERT_TRUE(damping);
  EXPECT_NEAR(damping->motion_ratio, 1.0, 1e-12);
  EXPECT_TRUE(check::Holds(damping->mean, 1500.0, 1e-8));
  EXPECT_NEAR(damping->roll, 2.0 * 1500.0 * 0.45 * 0.45, 1e-8);
}

// Let go 2 mm up, the golden car (tests/outside/modes_test.cc) is integrated with the full force of
// its energy by Runge and Kutta's method; once its wheels are still, a swing must shrink as its
// root says.
TEST(Damping, OfASwingIntegratedInTimeIsThatOfTheRoot) {
  sample::FlatTruck is;
  is.pitch_inertia = is.mass * is.b * is.c;
  is.coil = {63.3 * 250.0, 63.3 * 250.0};
  is.tire = 653.0 * 250.0, is.unsprung = 75.0, is.damper = 1500.0;
  const Vehicle truck = sample::MakeFlatTruck(is);
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const LinearModel model = Linearise(rig, stance, InertiasOf(rig, stance));
  const Eigen::MatrixXd inverse = model.mass.inverse();
  const auto accelerate = [&](const Eigen::VectorXd& x, const Eigen::VectorXd& v) {
    MovingVector by = MovingVector::Zero();
    by.head<kModelUnknowns>() = model.free * x;
    Eigen::VectorXd force = Eigen::VectorXd::Zero(kModelUnknowns);
    force.head<kRestUnknowns>() =
        TotalEnergy(rig, stance.sprung, MovedState(rig, stance, by)).gradient;
    return Eigen::VectorXd(-inverse * (model.free.transpose() * force + model.damping * v));
  };
  Eigen::VectorXd x = Eigen::VectorXd::Zero(model.mass.rows()), v = x;
  x[kHeave] = 0.002;
  const double swing = 2.0 * M_PI / 7.3234, dt = swing / 1000.0;
  const auto run = [&](int steps) {
    for (int i = 0; i < steps; ++i) {
      const Eigen::VectorXd a1 = accelerate(x, v), v2 = v + 0.5 * dt * a1;
      const Eigen::VectorXd a2 = accelerate(x + 0.5 * dt * v, v2), v3 = v + 0.5 * dt * a2;
      const Eigen::VectorXd a3 = accelerate(x + 0.5 * dt * v2, v3), v4 = v + dt * a3;
      const Eigen::VectorXd a4 = accelerate(x + dt * v3, v4);
      x += dt / 6.0 * (v + 2.0 * v2 + 2.0 * v3 + v4);
      v += dt / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
    }
    return model.heave.dot(x);
  };
  const double before = run(800), after = run(1000);  // hop has shrunk by exp(-14)
  EXPECT_NEAR(std::log(after / before), -2.5901 * swing, 1e-3) << "of 2.2; hop left over and dt";
}

}  // namespace
}  // namespace linkwright
