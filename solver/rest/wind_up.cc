// SPDX-License-Identifier: MIT
#include "solver/rest/wind_up.h"

#include <ceres/jet.h>

#include <algorithm>
#include <cmath>

#include "solver/model/force_law.h"
#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/pose/dual.h"
#include "solver/pose/link_equations.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

using Six = Eigen::Matrix<double, 6, 1>;  // x, y, steer, pitch, z, roll
using Jet = ceres::Jet<double, 6>;
template <typename T>
using Vector = std::array<T, 3>;

constexpr double kStepMet = 1e-12;  // [m, rad] rounding of the coordinates
constexpr int kMostIterations = 60;
constexpr int kLoadSteps = 8;  // the torque comes on in steps, so that each start is near

// Loads that stay as they are while the housing moves, in C.
struct DeadLoads {
  Eigen::Vector3d weight;                // at the unsprung centre [N]
  Eigen::Vector3d p_AM;                  // that centre [m]
  std::array<Eigen::Vector3d, 2> wheel;  // at the wheel centres, left and right [N]
  double torque;                         // nose up, about the housing's lateral axis [N m]
};

struct Problem {
  const Axle* axle;
  const RigAxle* prepared;
  DeadLoads loads;
};

Vector<Jet> Lift(const Eigen::Vector3d& v) { return {Jet(v.x()), Jet(v.y()), Jet(v.z())}; }

Vector<Jet> Cross(const Vector<Jet>& a, const Vector<Jet>& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

// Adds up what forces do per unit of each coordinate.
struct Balance {
  Vector<Jet> p;
  Rotation<Jet> R;
  Vector<Jet> forward, lateral;
  std::array<Jet, 6> work;

  void Add(const Vector<Jet>& force, const Eigen::Vector3d& p_AQ) {
    const Vector<Jet> moment = Cross(Rotate(R, p_AQ), force);
    work[0] += force[0], work[1] += force[1], work[4] += force[2];
    work[2] += moment[2];
    work[3] -= Dot(lateral, moment);
    work[5] += Dot(forward, moment);
  }

  // From a chassis point to a point of the housing.
  [[nodiscard]] Vector<Jet> To(const Eigen::Vector3d& p_AQ, const Eigen::Vector3d& p_CP) const {
    Vector<Jet> d = Rotate(R, p_AQ);
    for (size_t i = 0; i < 3; ++i) d[i] += p[i] - p_CP[static_cast<int>(i)];
    return d;
  }

  // A push along d, outward on the housing.
  void Push(const Vector<Jet>& d, const Jet& push, const Eigen::Vector3d& p_AQ) {
    const Jet over = push / sqrt(Dot(d, d));
    Add({over * d[0], over * d[1], over * d[2]}, p_AQ);
  }
};

Balance At(const Six& q) {
  std::array<Jet, 6> v;
  for (int i = 0; i < 6; ++i) v[static_cast<size_t>(i)] = Jet(q[i], i);
  Balance balance{.p = {v[0], v[1], v[4]},
                  .R = HousingRotation(v[2], v[5], v[3]),
                  .forward = {cos(v[2]), sin(v[2]), Jet(0.0)},
                  .lateral = {},
                  .work = {}};
  balance.lateral = {balance.R[1], balance.R[4], balance.R[7]};
  return balance;
}

// A residual that is no plain length, with its first and second derivatives by the six coordinates.
using Once = Dual<double, 6>;
using Twice = Dual<Once, 6>;

Twice ResidualTwice(const FrameLink& link, const Six& q) {
  std::array<Twice, 6> v;
  for (size_t i = 0; i < 6; ++i) {
    v[i].v.v = q[static_cast<int>(i)];
    v[i].v.d[i] = 1.0;
    v[i].d[i].v = 1.0;
  }
  return LinkResidual(link, std::array<Twice, 3>{v[0], v[1], v[4]},
                      HousingRotation(v[2], v[5], v[3]));
}

// An arm or a crank pulls along what its residual changes by.
void AddPull(const FrameLink& link, const Jet& tension, const Six& q, Balance& balance) {
  const Twice residual = ResidualTwice(link, q);
  for (size_t i = 0; i < 6; ++i) {
    Jet pull(-tension.a * residual.d[i].v);
    for (size_t k = 0; k < 6; ++k) {
      pull.v[static_cast<int>(k)] =
          -tension.v[static_cast<int>(k)] * residual.d[i].v - tension.a * residual.d[i].d[k];
    }
    balance.work[i] += pull;
  }
}

void AddLinks(const AxleFrame& frame, const Six& q, Balance& balance) {
  std::vector<Jet> stretch;
  for (const FrameLink& link : frame.links) {
    stretch.push_back(LinkResidual(link, balance.p, balance.R));
  }
  const LinkStrain<Jet> strain = StrainOf(frame, stretch);
  for (size_t i = 0; i < frame.links.size(); ++i) {
    const FrameLink& link = frame.links[i];
    if (link.crank || link.arm) {
      AddPull(link, strain.tension[i], q, balance);
    } else {
      balance.Push(balance.To(link.p_AQ, link.p_CP), -strain.tension[i], link.p_AQ);
    }
  }
}

// Every force on the housing, as work per unit of each coordinate, with its derivatives.
std::array<Jet, 6> WorkAt(const Problem& problem, const Six& q) {
  const RigAxle& prepared = *problem.prepared;
  Balance balance = At(q);
  AddLinks(prepared.frame, q, balance);
  for (const Pusher& pusher : prepared.pushers) {
    const Vector<Jet> d = balance.To(pusher.p_AQ, pusher.p_CP);
    const Jet length = sqrt(Dot(d, d));
    const LawState law = Evaluate(*pusher.law, length.a);
    Jet push(law.force);
    push.v = -law.rate * length.v;
    balance.Push(d, push, pusher.p_AQ);
  }
  const DeadLoads& loads = problem.loads;
  balance.Add(Lift(loads.weight), loads.p_AM);
  const double half = 0.5 * prepared.frame.track;
  balance.Add(Lift(loads.wheel[0]), {0.0, half, 0.0});
  balance.Add(Lift(loads.wheel[1]), {0.0, -half, 0.0});
  balance.work[2] -= loads.torque * balance.lateral[2];
  balance.work[3] += loads.torque;
  if (problem.axle->bar_roll_rate) {
    balance.work[5] -= *problem.axle->bar_roll_rate * (Jet(q[5], 5) - prepared.frame.measured.roll);
  }
  return balance.work;
}

Six SixOf(const Pose& pose) {
  return (Six() << pose.x, pose.y, pose.steer, pose.pitch, pose.z, pose.roll).finished();
}

Pose PoseOf(const Six& q) {
  return {.x = q[0], .y = q[1], .steer = q[2], .pitch = q[3], .z = q[4], .roll = q[5]};
}

// Newton's method; a coil that lets go on the way changes the slope, so steps are kept short.
std::optional<Six> Solve(const Problem& problem, Six q) {
  constexpr double kLongestStep = 0.02;  // [m, rad]
  for (int iteration = 0; iteration < kMostIterations; ++iteration) {
    const std::array<Jet, 6> work = WorkAt(problem, q);
    Six b;
    Eigen::Matrix<double, 6, 6> A;
    for (int i = 0; i < 6; ++i) {
      b[i] = work[static_cast<size_t>(i)].a;
      A.row(i) = work[static_cast<size_t>(i)].v.transpose();
    }
    const Six step = -SolveSquare(A, b);
    const double longest = step.cwiseAbs().maxCoeff();
    if (!step.allFinite()) return std::nullopt;
    q += step * std::min(1.0, kLongestStep / std::max(longest, kLongestStep));
    if (longest <= kStepMet) return q;
  }
  return std::nullopt;
}

std::vector<double> LinkForces(const AxleFrame& frame, const Pose& pose) {
  std::vector<double> stretch(frame.links.size());
  LinkResiduals(frame.links, pose, stretch.data(), nullptr);
  return StrainOf(frame, stretch).tension;
}

// Force forward at this axle and what the acceleration moves onto it [N].
struct Drive {
  double force, load;
};

Drive DriveOf(const Rig& rig, const Stance& stance, size_t axle, double torque) {
  const StanceReport report = ReportStance(rig, stance);
  const double radius = 0.5 * (stance.wheel_height[2 * axle] + stance.wheel_height[2 * axle + 1]);
  const double wheelbase = 0.5 * (report.wheelbase_left + report.wheelbase_right);
  const double share = rig.vehicle->axles[axle].drive_share.value_or(1.0);
  const double force = torque / radius;
  const double whole = share > 0.0 ? force / share : force;
  const double onto_rear = whole * report.cg_height / wheelbase;
  return {.force = force, .load = axle == kRear ? onto_rear : -onto_rear};
}

Problem ProblemOf(const Rig& rig, const Stance& stance, size_t axle, double torque) {
  const RigAxle& prepared = rig.axles[axle];
  const Mass& unsprung = *rig.vehicle->axles[axle].unsprung;
  const Drive drive = DriveOf(rig, stance, axle, torque);
  const Eigen::Vector3d& up = stance.up_C;
  const Eigen::Vector3d forward = (Eigen::Vector3d::UnitX() - up.x() * up).normalized();
  Problem problem{.axle = &rig.vehicle->axles[axle], .prepared = &prepared, .loads = {}};
  problem.loads = {.weight = -unsprung.mass * kStandardGravity * up,
                   .p_AM = OnHousing(prepared.frame, unsprung.p_CM),
                   .wheel = {},
                   .torque = torque};
  for (size_t side = 0; side < 2; ++side) {
    problem.loads.wheel[side] =
        (stance.wheel_load[2 * axle + side] + 0.5 * drive.load) * up + 0.5 * drive.force * forward;
  }
  return problem;
}

}  // namespace

std::optional<WindUp> WindUpUnder(const Rig& rig, const Stance& stance, size_t axle,
                                  double torque) {
  const AxleFrame& frame = rig.axles[axle].frame;
  std::optional<Six> free =
      Solve(ProblemOf(rig, stance, axle, 0.0), SixOf(stance.motion[axle].pose));
  if (!free) return std::nullopt;
  std::optional<Six> wound = free;
  for (int step = 1; step <= kLoadSteps && wound; ++step) {
    wound = Solve(ProblemOf(rig, stance, axle, torque * step / kLoadSteps), *wound);
  }
  if (!wound) return std::nullopt;
  WindUp result{.free = PoseOf(*free),
                .wound = PoseOf(*wound),
                .link_name = {},
                .link_force = LinkForces(frame, PoseOf(*wound))};
  for (const FrameLink& link : frame.links) result.link_name.push_back(link.name);
  return result;
}

}  // namespace linkwright
