// SPDX-License-Identifier: MIT
#include "tests/multibody/multibody.h"

#include <Simbody.h>

#include <Eigen/Eigenvalues>
#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

namespace multibody {
namespace {

SimTK::Vec3 ToVec(const Eigen::Vector3d& p) { return {p.x(), p.y(), p.z()}; }

SimTK::Transform ToTransform(const Eigen::Isometry3d& X) {
  SimTK::Mat33 R;
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) R(i, j) = X.linear()(i, j);
  }
  return {SimTK::Rotation(R), ToVec(X.translation())};
}

Eigen::Isometry3d ToIsometry(const SimTK::Transform& X) {
  const SimTK::Mat33 R = X.R().asMat33();
  Eigen::Isometry3d result = Eigen::Isometry3d::Identity();
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) result.linear()(i, j) = R(i, j);
    result.translation()[i] = X.p()[i];
  }
  return result;
}

}  // namespace

struct Housing::Parts {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Free housing;
  std::array<SimTK::MobilizedBody::Slider, 2> plane;  // left, right: floors that go up and down
  SimTK::State state;
};

Housing::Housing(const std::vector<Rod>& rods, double half_track, const Eigen::Isometry3d& start)
    : parts_(std::make_unique<Parts>()) {
  Parts& p = *parts_;
  const SimTK::Body::Rigid body(SimTK::MassProperties(1.0, SimTK::Vec3(0), SimTK::Inertia(1)));
  p.housing = SimTK::MobilizedBody::Free(p.matter.updGround(), body);
  for (const Rod& rod : rods) {
    SimTK::Constraint::Rod(p.matter.updGround(), ToVec(rod.on_chassis), p.housing,
                           ToVec(rod.on_housing), rod.length);
  }
  // A slider moves along x of its frames; these stand x on end.
  const SimTK::Transform upright(SimTK::Rotation(-0.5 * SimTK::Pi, SimTK::YAxis));
  for (size_t i = 0; i < 2; ++i) {
    p.plane[i] = SimTK::MobilizedBody::Slider(p.matter.updGround(), upright, body, upright);
    const double side = i == 0 ? 1.0 : -1.0;
    SimTK::Constraint::PointInPlane(p.plane[i], SimTK::UnitVec3(0, 0, 1), 0.0, p.housing,
                                    SimTK::Vec3(0, side * half_track, 0));
  }
  p.state = p.system.realizeTopology();
  p.system.realizeModel(p.state);
  p.housing.setQToFitTransform(p.state, ToTransform(start));
}

Housing::~Housing() = default;

Eigen::Isometry3d Housing::MoveTo(double left, double right, double accuracy) {
  Parts& p = *parts_;
  p.plane[0].lockAt(p.state, left);
  p.plane[1].lockAt(p.state, right);
  p.system.realize(p.state, SimTK::Stage::Instance);
  p.system.prescribe(p.state);
  p.system.project(p.state, accuracy);
  return ToIsometry(p.housing.getBodyTransform(p.state));
}

namespace {

// Push straight up at the wheel centre by how far it is below the unloaded radius.
class Tires : public SimTK::Force::Custom::Implementation {
 public:
  Tires(SimTK::MobilizedBody housing, double half_track, double radius, double rate)
      : housing_(std::move(housing)), half_(half_track), radius_(radius), rate_(rate) {}

  void calcForce(const SimTK::State& state, SimTK::Vector_<SimTK::SpatialVec>& forces,
                 SimTK::Vector_<SimTK::Vec3>&, SimTK::Vector&) const override {
    for (const double side : {1.0, -1.0}) {
      const SimTK::Vec3 at(0, side * half_, 0);
      const SimTK::Vec3 force(0, 0, rate_ * Squeeze(state, at));
      housing_.applyForceToBodyPoint(state, at, force, forces);
    }
  }

  SimTK::Real calcPotentialEnergy(const SimTK::State& state) const override {
    double sum = 0.0;
    for (const double side : {1.0, -1.0}) {
      const double squeeze = Squeeze(state, SimTK::Vec3(0, side * half_, 0));
      sum += 0.5 * rate_ * squeeze * squeeze;
    }
    return sum;
  }

 private:
  double Squeeze(const SimTK::State& state, const SimTK::Vec3& at) const {
    return std::max(0.0, radius_ - housing_.findStationLocationInGround(state, at)[2]);
  }
  SimTK::MobilizedBody housing_;
  double half_, radius_, rate_;
};

}  // namespace

struct Vehicle::Parts {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::GeneralForceSubsystem forces{system};
  SimTK::MobilizedBody::Free chassis;
  std::array<SimTK::MobilizedBody::Free, 2> housing;
  SimTK::State state;

  SimTK::MobilizedBody::Free AddBody(double mass, const Eigen::Vector3d& centre,
                                     const SimTK::Inertia& central) {
    const SimTK::Vec3 com = ToVec(centre);
    return {matter.updGround(), SimTK::Body::Rigid(SimTK::MassProperties(
                                    mass, com, central.shiftFromMassCenter(-com, mass)))};
  }

  void AddAxle(const AxleModel& axle, size_t i) {
    const double m = axle.mass;
    housing[i] = AddBody(m, axle.centre, SimTK::Inertia(0.3 * m, 0.05 * m, 0.3 * m));
    for (const Rod& rod : axle.rods) {
      SimTK::Constraint::Rod(chassis, ToVec(rod.on_chassis), housing[i], ToVec(rod.on_housing),
                             rod.length);
    }
    for (const Coil& coil : axle.coils) {
      SimTK::Force::TwoPointLinearSpring(forces, chassis, ToVec(coil.on_chassis), housing[i],
                                         ToVec(coil.on_housing), coil.rate, coil.free_length);
    }
    SimTK::Force::Custom(forces,
                         new Tires(housing[i], axle.half_track, axle.tire_radius, axle.tire_rate));
  }

  Eigen::VectorXd AccelerationsAt(const SimTK::State& at) const {
    system.realize(at, SimTK::Stage::Acceleration);
    const SimTK::Vector& udot = at.getUDot();
    Eigen::VectorXd result(udot.size());
    for (int i = 0; i < udot.size(); ++i) result[i] = udot[i];
    return result;
  }

  // Speeds that keep the rods, as columns.
  Eigen::MatrixXd FreeMotions() const {
    system.realize(state, SimTK::Stage::Velocity);
    SimTK::Matrix G;
    matter.calcG(state, G);
    Eigen::MatrixXd J(G.nrow(), G.ncol());
    for (int i = 0; i < G.nrow(); ++i) {
      for (int j = 0; j < G.ncol(); ++j) J(i, j) = G(i, j);
    }
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(J, Eigen::ComputeFullV);
    return svd.matrixV().rightCols(G.ncol() - G.nrow());
  }

  SimTK::State Nudged(const Eigen::VectorXd& by) const {
    SimTK::State beside = state;
    SimTK::Vector u(static_cast<int>(by.size())), qdot;
    for (int i = 0; i < u.size(); ++i) u[i] = by[i];
    system.realize(beside, SimTK::Stage::Position);
    matter.multiplyByN(beside, false, u, qdot);
    beside.updQ() += qdot;
    system.project(beside, 1e-13);
    return beside;
  }
};

Vehicle::Vehicle(const VehicleModel& model) : parts_(std::make_unique<Parts>()) {
  Parts& p = *parts_;
  const double I = model.pitch_inertia;
  p.chassis = p.AddBody(model.mass, model.centre, SimTK::Inertia(0.4 * I, I, 1.1 * I));
  SimTK::Force::Gravity(p.forces, p.matter, SimTK::Vec3(0, 0, -model.gravity));
  for (size_t i = 0; i < 2; ++i) p.AddAxle(model.axles[i], i);
  constexpr double kDamping = 3e3;  // [N s/m, N m s/rad] a share of critical; nothing at standstill
  SimTK::Force::GlobalDamper(p.forces, p.matter, kDamping);
  p.state = p.system.realizeTopology();
  p.matter.setUseEulerAngles(p.state, true);
  p.system.realizeModel(p.state);
}

Vehicle::~Vehicle() = default;

void Vehicle::Place(const Eigen::Isometry3d& chassis,
                    const std::array<Eigen::Isometry3d, 2>& housings) {
  parts_->chassis.setQToFitTransform(parts_->state, ToTransform(chassis));
  for (size_t i = 0; i < 2; ++i) {
    parts_->housing[i].setQToFitTransform(parts_->state, ToTransform(chassis * housings[i]));
  }
}

Eigen::VectorXd Vehicle::Accelerations() const { return parts_->AccelerationsAt(parts_->state); }

void Vehicle::SinkToRest() {
  Parts& p = *parts_;
  p.system.project(p.state, 1e-12);
  SimTK::RungeKuttaMersonIntegrator integrator(p.system);
  integrator.setAccuracy(1e-7);
  SimTK::TimeStepper stepper(p.system, integrator);
  stepper.initialize(p.state);
  stepper.stepTo(25.0);  // [s] the slowest motion has died down by exp(-20)
  p.state = integrator.getState();
}

double Vehicle::HeightOfBodyPoint(const Eigen::Vector3d& p) const {
  parts_->system.realize(parts_->state, SimTK::Stage::Position);
  return parts_->chassis.findStationLocationInGround(parts_->state, ToVec(p))[2];
}

std::vector<double> Vehicle::Frequencies() const {
  const Eigen::MatrixXd free = parts_->FreeMotions();
  constexpr double kNudge = 1e-5;  // [m, rad]
  Eigen::MatrixXd A(free.cols(), free.cols());
  for (Eigen::Index k = 0; k < free.cols(); ++k) {
    const Eigen::VectorXd up = parts_->AccelerationsAt(parts_->Nudged(kNudge * free.col(k)));
    const Eigen::VectorXd down = parts_->AccelerationsAt(parts_->Nudged(-kNudge * free.col(k)));
    A.col(k) = free.transpose() * (up - down) / (2.0 * kNudge);
  }
  const Eigen::VectorXcd squares = A.eigenvalues();
  std::vector<double> hertz;
  for (Eigen::Index k = 0; k < squares.size(); ++k) {
    hertz.push_back(std::sqrt(std::max(0.0, -squares[k].real())) / (2.0 * M_PI));
  }
  std::sort(hertz.begin(), hertz.end());
  return hertz;
}

}  // namespace multibody
