// SPDX-License-Identifier: MIT
// Names of modes as a vehicle changes, and their roots against an energy and dampers written down
// by themselves and differenced.
#include "solver/rest/modes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>

#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/rest/damping.h"
#include "solver/rest/rest_balance.h"
#include "solver/rest/roll.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "tests/support/differences.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using One = Eigen::Matrix<double, 1, 1>;

std::vector<Mode> ModesOf(const Rig& rig, const Stance& stance) {
  EXPECT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  return FindModes(Linearise(rig, stance, InertiasOf(rig, stance)));
}

const Mode& Named(const std::vector<Mode>& modes, MotionPart part) {
  for (const Mode& mode : modes) {
    if (mode.part == part) return mode;
  }
  throw std::runtime_error("no mode of part " + std::to_string(part));
}

// A body raised by steps of 20 mm to 1.5 m: its roll gets slower little by little and stays the
// slowest of the three sideways; nothing jumps, where kinetic energy would have named it sway.
TEST(ModeNames, RollStaysRollHoweverHighTheMassStands) {
  double before = 0.0, share = 1.0;
  for (int step = 0; step <= 50; ++step) {
    sample::FlatTruck is;
    is.height = 0.5 + 0.02 * step;
    is.unsprung = 110.0, is.tire = 220e3, is.coil = {45e3, 45e3};
    const Vehicle truck = sample::MakeFlatTruck(is);
    const Rig rig = PrepareRig(truck);
    const std::vector<Mode> modes = ModesOf(rig, Settle(rig, truck.loads[0]));
    const Mode& roll = Named(modes, kBodyRoll);
    EXPECT_LT(roll.undamped, Named(modes, kBodySway).undamped) << is.height;
    EXPECT_LT(roll.undamped, Named(modes, kBodyYaw).undamped) << is.height;
    if (step > 0) {
      EXPECT_LT(roll.undamped, before) << is.height;
      EXPECT_NEAR(roll.undamped / before, 1.0, 0.03) << is.height;
    }
    before = roll.undamped;
    share = roll.share;
  }
  EXPECT_LT(share, 0.5) << "else kinetic energy would have done: the test proves nothing";
}

// Tyres rigid in front leave two sideways, everywhere rigid one: it is roll.
TEST(ModeNames, RigidTyresLeaveRoll) {
  for (const int rigid : {1, 2}) {
    Vehicle truck = sample::LevelTruck();
    for (int i = 0; i < rigid; ++i) truck.axles[static_cast<size_t>(i)].tire.rate.reset();
    truck.sprung->p_CM.z() = 1.1;
    const Rig rig = PrepareRig(truck);
    const std::vector<Mode> modes = ModesOf(rig, Settle(rig, truck.loads[0]));
    EXPECT_EQ(modes.size(), rigid == 1 ? 6U : 3U);
    EXPECT_LT(Named(modes, kBodyRoll).undamped, 2.0);
  }
}

// The same model in other coordinates: x = T y.
LinearModel InOther(LinearModel model, const Eigen::MatrixXd& T) {
  const auto both = [&T](Eigen::MatrixXd& A) { A = Eigen::MatrixXd(T.transpose() * A * T); };
  both(model.mass), both(model.damping), both(model.stiffness);
  for (Eigen::MatrixXd& part : model.part) both(part);
  model.free = Eigen::MatrixXd(model.free * T);
  for (Eigen::RowVectorXd* row :
       {&model.heave, &model.sway, &model.pitch, &model.roll, &model.yaw}) {
    *row = Eigen::RowVectorXd(*row * T);
  }
  return model;
}

// Lengths in inches, turns in degrees, coordinates mixed: no name changes, and no
// root goes to another mode, with dampers up to where some modes creep.
TEST(ModeNames, NoUnitChangesThem) {
  for (const double stiff : {1.0, 4.0, 12.0}) {
    Vehicle van = sample::HarbourVan();
    for (Axle& axle : van.axles) {
      for (Damper& damper : axle.dampers) {
        damper.bump = stiff * damper.bump.value_or(0.0);
        damper.rebound = stiff * damper.rebound.value_or(0.0);
      }
    }
    const Rig rig = PrepareRig(van);
    const Stance stance = Settle(rig, van.loads[0]);
    const LinearModel model = Linearise(rig, stance, InertiasOf(rig, stance));
    const std::vector<Mode> modes = FindModes(model);
    const Eigen::Index n = model.mass.rows();
    Eigen::MatrixXd mixed = Eigen::MatrixXd::Identity(n, n);
    mixed.diagonal(1).setConstant(0.3);
    Eigen::VectorXd scaled(n);
    for (Eigen::Index i = 0; i < n; ++i) scaled[i] = i % 2 == 0 ? 0.0254 : M_PI / 180.0;
    for (const Eigen::MatrixXd& T : {Eigen::MatrixXd(scaled.asDiagonal()), mixed}) {
      const std::vector<Mode> others = FindModes(InOther(model, T));
      ASSERT_EQ(others.size(), modes.size());
      for (size_t i = 0; i < modes.size(); ++i) {
        EXPECT_EQ(others[i].part, modes[i].part);
        EXPECT_NEAR(others[i].undamped / modes[i].undamped, 1.0, 1e-7) << modes[i].part;
        EXPECT_NEAR(others[i].damping / modes[i].damping, 1.0, 1e-6) << modes[i].part;
        EXPECT_NEAR(others[i].share, modes[i].share, 1e-6) << modes[i].part;
      }
    }
  }
}

// Energy of a state from lengths and heights alone.
double EnergyByHand(const Rig& rig, const Stance& stance, const RestVector& by) {
  const RestState state = Moved(rig, StateOf(stance), by).value();
  const Eigen::Vector3d n = UpInChassis(state);
  const auto height = [&](const Eigen::Vector3d& p) { return state.heave + n.dot(p); };
  double energy = stance.sprung.mass * kStandardGravity * height(stance.sprung.p_CM);
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const Eigen::Isometry3d moved =
        Transform(state.motion[i].pose) * rig.axles[i].frame.X_CA.inverse();
    energy += axle.unsprung->mass * kStandardGravity * height(moved * axle.unsprung->p_CM);
    const auto length = [&](const Span& span) { return (moved * span.p_CQ - span.p_CP).norm(); };
    for (const Spring& spring : axle.springs) {
      const double squeeze = spring.law.free_length - length(spring.span);
      energy += 0.5 * spring.law.rate * squeeze * squeeze;
    }
    if (axle.links.size() > 4) {
      for (const Link& link : axle.links) {
        const double stretch = length(link.span) - (link.span.p_CQ - link.span.p_CP).norm();
        energy += 0.5 * link.rate * stretch * stretch;
      }
    }
    const double wound = state.motion[i].pose.roll - rig.axles[i].frame.measured.roll;
    energy += 0.5 * axle.bar_roll_rate.value_or(0.0) * wound * wound;
    for (const Eigen::Vector3d& hub : {axle.p_CW_l, axle.p_CW_r}) {
      const double squeeze = *axle.tire.radius - height(moved * hub);
      energy += 0.5 * *axle.tire.rate * squeeze * squeeze;
    }
  }
  return energy;
}

RestMatrix StiffnessByHand(const Rig& rig, const Stance& stance) {
  const auto along = [&](const RestVector& way) {
    return check::SecondDifference(
        [&](double s) { return One(EnergyByHand(rig, stance, s * way)); }, 1e-3)[0];
  };
  RestMatrix K;
  for (int i = 0; i < kRestUnknowns; ++i) {
    for (int j = 0; j < kRestUnknowns; ++j) {
      const RestVector a = RestVector::Unit(i), b = RestVector::Unit(j);
      K(i, j) = i == j ? along(a) : 0.25 * (along(a + b) - along(a - b));
    }
  }
  return K;
}

RestMatrix DampingByHand(const Rig& rig, const Stance& stance) {
  RestMatrix C = RestMatrix::Zero();
  for (size_t i = 0; i < 2; ++i) {
    for (const Damper& damper : rig.vehicle->axles[i].dampers) {
      RestVector slope;
      for (int k = 0; k < kRestUnknowns; ++k) {
        slope[k] = check::FirstDifference(
            [&](double s) {
              const RestState state = Moved(rig, StateOf(stance), s * RestVector::Unit(k)).value();
              return One((Transform(state.motion[i].pose) * rig.axles[i].frame.X_CA.inverse() *
                              damper.span.p_CQ -
                          damper.span.p_CP)
                             .norm());
            },
            1e-3)[0];
      }
      C += 0.5 * (damper.bump.value_or(0.0) + damper.rebound.value_or(0.0)) * slope *
           slope.transpose();
    }
  }
  return C;
}

Vehicle DampedLevelTruck() {
  Vehicle truck = sample::LevelTruck();
  for (size_t i = 0; i < 2; ++i) {
    const double x = i == 0 ? 0.05 : -2.65;
    for (const double y : {0.48, -0.46}) {  // leaning, and not alike
      Damper damper{};
      damper.name = {"damper", y > 0.0 ? Side::kLeft : Side::kRight};
      damper.span = {{x + 0.08, 0.85 * y, 0.78}, {x, y, 0.36}};
      damper.bump = 1100.0, damper.rebound = 2300.0;
      truck.axles[i].dampers.push_back(damper);
    }
  }
  return truck;
}

// Every mode's frequency and damping ratio make a root of s2 M + s C + K with K and C by hand: five
// links with strain and an anti-roll bar, and triangulated links. The mass matrix is held against
// points on the floor in linear_model_test.cc.
TEST(ModeRoots, AreThoseOfAnEnergyAndDampersWrittenDownByHand) {
  for (const Vehicle& vehicle : {sample::HarbourVan(), DampedLevelTruck()}) {
    const Rig rig = PrepareRig(vehicle);
    const Stance stance = Settle(rig, vehicle.loads[0]);
    ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    ASSERT_TRUE(ListContacts(rig, stance).empty()) << "a stop's energy is not in EnergyByHand";
    const LinearModel model = Linearise(rig, stance, InertiasOf(rig, stance));
    const Eigen::MatrixXd seven = model.free.topRows<kRestUnknowns>();
    Eigen::MatrixXd K = seven.transpose() * StiffnessByHand(rig, stance) * seven;
    for (int i = 0; i < 2; ++i) {  // both tyres sideways at half their rate up and down
      const Eigen::RowVectorXd sway = model.free.row(kSwayFront + i);
      K += *vehicle.axles[static_cast<size_t>(i)].tire.rate * sway.transpose() * sway;
    }
    const Eigen::MatrixXd C = seven.transpose() * DampingByHand(rig, stance) * seven;
    const Eigen::LLT<Eigen::MatrixXd> root(model.mass);
    const auto by_mass = [&](const Eigen::MatrixXd& A) {
      const Eigen::MatrixXd half = root.matrixL().solve(A);
      return Eigen::MatrixXd(root.matrixL().solve(half.transpose()).transpose());
    };
    const Eigen::MatrixXd k = by_mass(K), c = by_mass(C);
    for (const Mode& mode : FindModes(model)) {
      const double w = 2.0 * M_PI * mode.natural, z = mode.damping;
      ASSERT_LT(z, 1.0);
      const std::complex<double> s(-z * w, w * std::sqrt(1.0 - z * z));
      // s^2 + c s + k, singular where s is a root, as a real matrix of twice the size.
      const Eigen::MatrixXd one = Eigen::MatrixXd::Identity(k.rows(), k.cols());
      const Eigen::MatrixXd re = (s * s).real() * one + s.real() * c + k;
      const Eigen::MatrixXd im = (s * s).imag() * one + s.imag() * c;
      Eigen::MatrixXd A(2 * k.rows(), 2 * k.cols());
      A << re, -im, im, re;
      const double least = SingularValuesOf(A).values.minCoeff();
      EXPECT_LT(least / (w * w), 1e-6) << mode.part << ": differences to 1e-9 of 1e4 [1/s2]";
      EXPECT_NEAR(mode.damped, s.imag() / (2.0 * M_PI), 1e-9) << mode.part;
    }
  }
}

// Each part of an axle's roll stiffness is the second difference of what that part holds.
TEST(RollStiffness, PartsAreDifferencesOfWhatEachHolds) {
  Vehicle van = sample::HarbourVan();
  for (const Vehicle& vehicle : {van, DampedLevelTruck()}) {
    const Rig rig = PrepareRig(vehicle);
    const Stance stance = Settle(rig, vehicle.loads.back());
    ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
    for (size_t i = 0; i < 2; ++i) {
      const Axle& axle = vehicle.axles[i];
      const AxleFrame& frame = rig.axles[i].frame;
      const Pose& pose = stance.motion[i].pose;
      const auto held = [&](double roll, int what) {
        const PoseSolution moved = MovePose(frame, stance.motion[i], pose.z, pose.roll + roll);
        const Eigen::Isometry3d X = Transform(moved.pose) * frame.X_CA.inverse();
        const auto length = [&](const Span& s) { return (X * s.p_CQ - s.p_CP).norm(); };
        double energy = 0.0;
        if (what == 0) {
          for (const Spring& s : axle.springs) {
            energy += 0.5 * s.law.rate * std::pow(s.law.free_length - length(s.span), 2);
          }
        } else {
          for (const Link& l : axle.links) {
            energy +=
                0.5 * l.rate * std::pow(length(l.span) - (l.span.p_CQ - l.span.p_CP).norm(), 2);
          }
        }
        return One(energy);
      };
      const RollParts parts = SplitRollStiffness(rig, stance, i);
      const auto coils = [&](double r) { return held(r, 0); };
      const auto strain = [&](double r) { return held(r, 1); };
      EXPECT_NEAR(parts.coils, check::SecondDifference(coils, 2e-3)[0], 0.05)
          << "[N m/rad] of 1e4: 1e-12 of 1e3 J over 2 mrad squared";
      if (axle.links.size() > 4) {
        EXPECT_NEAR(parts.strain, check::SecondDifference(strain, 2e-3)[0], 0.05);
      } else {
        EXPECT_EQ(parts.strain, 0.0);
      }
      EXPECT_EQ(parts.bar, axle.bar_roll_rate.value_or(0.0));
      EXPECT_NEAR(parts.suspension, parts.coils + parts.stops + parts.bar + parts.strain, 1e-9);
      const double track = frame.track, tyres = 0.5 * *axle.tire.rate * track * track;
      EXPECT_NEAR(1.0 / parts.whole, 1.0 / parts.suspension + 1.0 / tyres, 1e-15);
    }
  }
}

}  // namespace
}  // namespace linkwright
