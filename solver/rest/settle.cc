// SPDX-License-Identifier: MIT
#include "solver/rest/settle.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "solver/geometry/travel_limits.h"
#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/rest/contact_line.h"
#include "solver/rest/total_energy.h"

namespace linkwright {
namespace {

constexpr int kMostIterations = 200;
constexpr int kMostContacts = 50;     // each brings a contact some hundred times nearer the floor
constexpr double kStepMet = 1e-12;    // [m, rad] rounding of the coordinates
constexpr double kLongestStep = 0.1;  // [m, rad] keeps a first step within reach of the links

// What is to come to rest, and under what.
struct Question {
  const Rig& rig;
  SprungMass sprung;  // with the load
  Push push;
};

Energy EnergyOf(const Question& question, const RestState& state) {
  return TotalEnergy(question.rig, question.sprung, state, question.push);
}

// Wheels whose rigid tyre stands on the floor: their centre heights are held.
using Held = std::array<bool, 4>;

struct Constraint {
  size_t wheel;
  Height height;  // less the held one
};

std::vector<Constraint> Constraints(const Rig& rig, const RestState& state, const Held& held) {
  std::vector<Constraint> constraints;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    if (!held[wheel]) continue;
    const Axle& axle = rig.vehicle->axles[wheel / 2];
    const Eigen::Vector3d& measured = wheel % 2 == 0 ? axle.p_CW_l : axle.p_CW_r;
    Height height = HeightOfAxlePoint(state, wheel / 2, WheelCentreInAxle(rig, wheel));
    height.value -= measured.z() - rig.vehicle->floor_z;
    constraints.push_back({wheel, height});
  }
  return constraints;
}

// A step of the unknowns and the floor's force on each held wheel.
struct NewtonStep {
  RestVector step;
  PerWheel force{};
};

// [K -A'; A 0] [step; force] = [-g; -c], K the Hessian of energy less the held wheels' work, with
// `damping` on its diagonal. docs/theory.md (34)
NewtonStep SolveStep(const Energy& energy, const std::vector<Constraint>& constraints,
                     const PerWheel& force, double damping) {
  const auto m = static_cast<Eigen::Index>(constraints.size());
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 11, 11>;
  using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 11, 1>;
  Matrix A = Matrix::Zero(kRestUnknowns + m, kRestUnknowns + m);
  Vector b(kRestUnknowns + m);
  RestMatrix K = energy.hessian;
  K.diagonal().array() += damping;
  b.head<kRestUnknowns>() = -energy.gradient;
  for (Eigen::Index i = 0; i < m; ++i) {
    const Constraint& constraint = constraints[static_cast<size_t>(i)];
    K -= force[constraint.wheel] * constraint.height.hessian;
    A.block<kRestUnknowns, 1>(0, kRestUnknowns + i) = -constraint.height.gradient;
    A.block<1, kRestUnknowns>(kRestUnknowns + i, 0) = constraint.height.gradient.transpose();
    b[kRestUnknowns + i] = -constraint.height.value;
  }
  A.topLeftCorner<kRestUnknowns, kRestUnknowns>() = K;
  const Vector x = Eigen::PartialPivLU<Matrix>(A).solve(b);
  NewtonStep result{.step = x.head<kRestUnknowns>()};
  for (Eigen::Index i = 0; i < m; ++i) {
    result.force[constraints[static_cast<size_t>(i)].wheel] = x[kRestUnknowns + i];
  }
  return result;
}

std::optional<RestState> Moved(const Rig& rig, const RestState& from, const RestVector& step) {
  RestState state{.heave = from.heave + step[kHeave],
                  .slope = from.slope + step.segment<2>(kSlopeX),
                  .motion = {}};
  if (!(state.slope.squaredNorm() < 0.25)) return std::nullopt;  // 30 deg: not a resting vehicle
  for (size_t i = 0; i < 2; ++i) {
    const int z = i == 0 ? kFrontHeight : kRearHeight;
    const Pose& pose = from.motion[i].pose;
    const PoseSolution moved =
        MovePose(rig.axles[i].frame, from.motion[i], pose.z + step[z], pose.roll + step[z + 1]);
    if (moved.status != SolveStatus::kConverged) return std::nullopt;
    state.motion[i] = EvaluateMotion(rig.axles[i].frame, moved.pose);
  }
  return state;
}

// Energy plus a price on held wheels off the floor: what a step must lower.
double Merit(const Energy& energy, const std::vector<Constraint>& constraints, double price) {
  double merit = energy.value;
  for (const Constraint& constraint : constraints)
    merit += price * std::abs(constraint.height.value);
  return merit;
}

struct Found {
  RestState state;
  PerWheel force{};
  bool converged = false;
};

// One accepted move from `found`, or no move where neither shortening nor damping helps.
bool Advance(const Question& question, const Held& held, Found& found) {
  const Rig& rig = question.rig;
  const Energy energy = EnergyOf(question, found.state);
  const std::vector<Constraint> constraints = Constraints(rig, found.state, held);
  double damping = 0.0;
  for (int attempt = 0; attempt < 40; ++attempt) {
    const NewtonStep newton = SolveStep(energy, constraints, found.force, damping);
    damping = std::max(10.0 * damping, 1.0);
    const double longest = newton.step.cwiseAbs().maxCoeff();
    if (!newton.step.allFinite() || longest > 10.0) continue;
    double price = 1.0;
    for (double f : newton.force) price = std::max(price, 2.0 * std::abs(f));
    const double before = Merit(energy, constraints, price);
    double share = std::min(1.0, kLongestStep / std::max(longest, kLongestStep));
    for (int halving = 0; halving < 12; ++halving, share *= 0.5) {
      const std::optional<RestState> moved = Moved(rig, found.state, share * newton.step);
      if (!moved) continue;
      const double after = Merit(EnergyOf(question, *moved), Constraints(rig, *moved, held), price);
      const double rounding = 1e-13 * std::abs(before) + 1e-10;  // [J]
      if (!(after < before + rounding)) continue;
      found.state = *moved;
      found.force = newton.force;
      found.converged = share == 1.0 && longest <= kStepMet;
      return true;
    }
  }
  return false;
}

Found Descend(const Question& question, const Held& held, Found found) {
  for (int iteration = 0; iteration < kMostIterations && !found.converged; ++iteration) {
    if (!Advance(question, held, found)) break;
  }
  return found;
}

// Rigid tyres stand or hang: let go of those the floor would have to pull, catch those that sink.
bool UpdateHeld(const Rig& rig, const Found& found, Held& held) {
  bool changed = false;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const Axle& axle = rig.vehicle->axles[wheel / 2];
    if (axle.tire.rate) continue;
    Held only{};
    only[wheel] = true;
    const double above = Constraints(rig, found.state, only).front().height.value;
    const bool stands = held[wheel] ? found.force[wheel] >= 0.0 : above < 0.0;
    changed = changed || stands != held[wheel];
    held[wheel] = stands;
  }
  return changed;
}

Found Begin(const Rig& rig, const Stance* start) {
  Found found{.state = {.heave = -rig.vehicle->floor_z,
                        .slope = Eigen::Vector2d::Zero(),
                        .motion = {rig.axles[0].measured, rig.axles[1].measured}}};
  if (start == nullptr) return found;
  found.state = StateOf(*start);
  found.force = start->wheel_load;
  return found;
}

// Descends until no wheel of a rigid tyre is to be held or let go.
void DescendAndHold(const Question& question, Held& held, Found& found) {
  for (int change = 0; change < 8; ++change) {
    found.converged = false;
    found = Descend(question, held, found);
    if (!found.converged || !UpdateHeld(question.rig, found, held)) break;
  }
}

// In a corner, again with the points that the tyres hold put back on the floor, until they stay;
// the question keeps their radii.
Found FindRest(Question& question, const Stance* start, Held& held) {
  const Rig& rig = question.rig;
  Found found = Begin(rig, start);
  for (size_t wheel = 0; wheel < 4; ++wheel) held[wheel] = !rig.vehicle->axles[wheel / 2].tire.rate;
  for (int again = 0; again < kMostContacts; ++again) {
    const std::array<double, 2> radius = ContactRadii(found.state);
    const std::array<double, 2> before = std::exchange(question.push.contact_radius, radius);
    const double moved = std::max(std::abs(radius[0] - before[0]), std::abs(radius[1] - before[1]));
    if (again > 0 && moved <= kStepMet) break;
    found.converged = false;
    DescendAndHold(question, held, found);
    if (!found.converged || question.push.lateral == 0.0) break;
  }
  return found;
}

// True where the energy is a minimum within what the held wheels allow.
bool IsStable(const Question& question, const Found& found, const Held& held) {
  RestMatrix K = EnergyOf(question, found.state).hessian;
  const std::vector<Constraint> constraints = Constraints(question.rig, found.state, held);
  Eigen::MatrixXd A(constraints.size(), kRestUnknowns);
  for (size_t i = 0; i < constraints.size(); ++i) {
    K -= found.force[constraints[i].wheel] * constraints[i].height.hessian;
    A.row(static_cast<Eigen::Index>(i)) = constraints[i].height.gradient.transpose();
  }
  if (constraints.empty()) return K.llt().info() == Eigen::Success;
  const Eigen::MatrixXd kernel = A.fullPivLu().kernel();
  const Eigen::MatrixXd reduced = kernel.transpose() * K * kernel;
  return reduced.llt().info() == Eigen::Success;
}

void RequireSettleable(const Vehicle& vehicle) {
  if (IsGeometryOnly(vehicle)) {
    throw ModelError({},
                     "the file gives no masses, so there is nothing to settle: give a ledger, or "
                     "sprung: {mass, at}, and unsprung at both axles");
  }
  for (const Axle& axle : vehicle.axles) {
    if (!axle.unsprung) {
      throw ModelError({"axles", axle.name},
                       "unsprung: {mass, at} is wanted to settle the vehicle");
    }
    if (axle.springs.empty()) {
      throw ModelError({"axles", axle.name},
                       "no coil carries the " + axle.name + " axle: springs is wanted to settle");
    }
  }
}

Stance ToStance(const Question& question, const Load& load, const Found& found) {
  const Rig& rig = question.rig;
  Stance stance;
  stance.load = load.name;
  stance.sprung = question.sprung;
  stance.push = question.push;
  stance.heave = found.state.heave;
  stance.up_C = UpInChassis(found.state);
  stance.motion = found.state.motion;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const Axle& axle = rig.vehicle->axles[wheel / 2];
    const double height =
        HeightOfAxlePoint(found.state, wheel / 2, WheelCentreInAxle(rig, wheel)).value;
    stance.wheel_height[wheel] = height;
    stance.wheel_load[wheel] = axle.tire.rate ? TireForce(axle.tire, height) : found.force[wheel];
  }
  return stance;
}

void JudgeEnds(const Rig& rig, Stance& stance) {
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const auto past =
        PastEnd(TravelMargins(axle, rig.axles[i].frame, Transform(stance.motion[i].pose)));
    if (!past) continue;
    stance.status = StanceStatus::kPastEnd;
    if (!stance.message.empty()) stance.message += "; ";
    stance.message += "before it rests, " + axle.name + " " + Describe(*past);
  }
}

}  // namespace

Stance Settle(const Rig& rig, const Load& load, const Push& push, const Stance* start) {
  RequireSettleable(*rig.vehicle);
  Question question{rig, WithLoad(FinishedSprungMass(*rig.vehicle), load), push};
  Held held{};
  const Found found = FindRest(question, start, held);
  Stance stance = ToStance(question, load, found);
  if (!found.converged) {
    stance.message = "no position was found in which the coils, stops and tyres carry the weight";
    return stance;
  }
  stance.status = StanceStatus::kRests;
  JudgeEnds(rig, stance);
  if (stance.status == StanceStatus::kRests && !IsStable(question, found, held)) {
    stance.status = StanceStatus::kUnstable;
    stance.message = "it balances but does not stand: the coils and tyres cannot hold it upright";
  }
  return stance;
}

double HeightAboveFloor(const Stance& stance, const Eigen::Vector3d& p_C) {
  return stance.heave + stance.up_C.dot(p_C);
}

double Rake(const Stance& stance) { return std::asin(stance.up_C.x()); }
double Roll(const Stance& stance) { return std::asin(stance.up_C.y()); }

}  // namespace linkwright
