// SPDX-License-Identifier: MIT
#include "solver/rest/wind_up.h"

#include <algorithm>

#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/numeric/dual.h"
#include "solver/pose/link_equations.h"
#include "solver/rest/housing_work.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

using Six = std::array<double, 6>;  // in the order of CoordinatesOf
using Number = Dual<double, 6>;

constexpr double kStepMet = 1e-12;  // [m, rad] rounding of the coordinates
constexpr int kMostIterations = 60;
constexpr int kLoadSteps = 8;  // the torque comes on in steps, so that each start is near

// Loads that stay as they are while the housing moves, in C.
struct Problem {
  const Axle* axle;
  const RigAxle* prepared;
  Eigen::Vector3d weight;                // at the unsprung centre [N]
  std::array<Eigen::Vector3d, 2> wheel;  // at the wheel centres, left and right [N]
  double torque;                         // nose up, about the housing's lateral axis [N m]
};

// A link pulls along what its residual changes by.
void AddLinks(const AxleFrame& frame, HousingWork<Number>& to) {
  const auto residual = StretchesAt(frame, Variables(to.q));
  std::vector<Number> stretch;
  for (const Dual<Number, 6>& each : residual) stretch.push_back(each.v);
  const std::vector<Number> tension = StrainOf(frame, stretch).tension;
  for (size_t i = 0; i < residual.size(); ++i) {
    for (size_t k = 0; k < 6; ++k) to.work[k] = to.work[k] - tension[i] * residual[i].d[k];
  }
}

// Every force on the housing, as work per unit of each coordinate, with its derivatives.
std::array<Number, 6> WorkAt(const Problem& problem, const Six& q) {
  const AxleFrame& frame = problem.prepared->frame;
  HousingWork<Number> balance(Variables(q));
  AddLinks(frame, balance);
  AddLoads(*problem.axle, *problem.prepared, problem.weight, balance);
  for (size_t side = 0; side < 2; ++side) {
    balance.Add(ConstantVector<Number>(problem.wheel[side]), WheelCentre(frame, side));
  }
  balance.work[2] = balance.work[2] - problem.torque * LateralAxis(balance.R)[2];
  balance.work[3] = balance.work[3] + problem.torque;
  return balance.work;
}

Pose PoseOf(const Six& q) {
  return {.x = q[0], .y = q[1], .steer = q[2], .pitch = q[3], .z = q[4], .roll = q[5]};
}

// Newton's method; a coil that lets go on the way changes the slope, so steps are kept short.
std::optional<Six> Solve(const Problem& problem, Six q) {
  constexpr double kLongestStep = 0.02;  // [m, rad]
  for (int iteration = 0; iteration < kMostIterations; ++iteration) {
    const std::array<Number, 6> work = WorkAt(problem, q);
    Eigen::Matrix<double, 6, 1> b;
    Eigen::Matrix<double, 6, 6> A;
    for (int i = 0; i < 6; ++i) {
      const Number& each = work[static_cast<size_t>(i)];
      b[i] = each.v;
      A.row(i) = Eigen::Map<const Eigen::RowVectorXd>(each.d.data(), 6);
    }
    const Eigen::VectorXd step = -SolveSquare(A, b);
    const double longest = step.cwiseAbs().maxCoeff();
    if (!step.allFinite()) return std::nullopt;
    Eigen::Map<Eigen::Matrix<double, 6, 1>>(q.data()) +=
        step * std::min(1.0, kLongestStep / std::max(longest, kLongestStep));
    if (longest <= kStepMet) return q;
  }
  return std::nullopt;
}

// Force forward at this axle and what the acceleration moves onto it [N].
struct Drive {
  double force, load;
};

Drive DriveOf(const Rig& rig, const Stance& stance, size_t axle, double torque) {
  const StanceReport report = ReportStance(rig, stance);
  const double wheelbase = 0.5 * (report.wheelbase_left + report.wheelbase_right);
  const double share = rig.vehicle->axles[axle].drive_share.value_or(1.0);
  const double force = torque / LoadedRadius(stance, axle);
  const double whole = share > 0.0 ? force / share : force;
  const double onto_rear = whole * report.cg_height / wheelbase;
  return {.force = force, .load = axle == kRear ? onto_rear : -onto_rear};
}

Problem ProblemOf(const Rig& rig, const Stance& stance, size_t axle, double torque) {
  const Axle& description = rig.vehicle->axles[axle];
  const Drive drive = DriveOf(rig, stance, axle, torque);
  const Eigen::Vector3d& up = stance.up_C;
  const Eigen::Vector3d forward = Heading(stance);
  Problem problem{.axle = &description,
                  .prepared = &rig.axles[axle],
                  .weight = -description.unsprung->mass * kStandardGravity * up,
                  .wheel = {},
                  .torque = torque};
  for (size_t side = 0; side < 2; ++side) {
    problem.wheel[side] =
        (stance.wheel_load[2 * axle + side] + 0.5 * drive.load) * up + 0.5 * drive.force * forward;
  }
  return problem;
}

}  // namespace

std::optional<WindUp> WindUpUnder(const Rig& rig, const Stance& stance, size_t axle,
                                  double torque) {
  const AxleFrame& frame = rig.axles[axle].frame;
  std::optional<Six> free =
      Solve(ProblemOf(rig, stance, axle, 0.0), CoordinatesOf(stance.motion[axle].pose));
  if (!free) return std::nullopt;
  std::optional<Six> wound = free;
  for (int step = 1; step <= kLoadSteps && wound; ++step) {
    wound = Solve(ProblemOf(rig, stance, axle, torque * step / kLoadSteps), *wound);
  }
  if (!wound) return std::nullopt;
  WindUp result{.free = PoseOf(*free),
                .wound = PoseOf(*wound),
                .link_name = {},
                .link_force = StrainOf(frame, StretchesAt(frame, *wound)).tension};
  for (const FrameLink& link : frame.links) result.link_name.push_back(link.name);
  return result;
}

}  // namespace linkwright
