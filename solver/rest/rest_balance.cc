// SPDX-License-Identifier: MIT
#include "solver/rest/rest_balance.h"

#include "solver/numeric/decompositions.h"
#include "solver/rest/cornering_pull.h"

namespace linkwright {

Balance BalanceAt(const RestQuestion& question, const RestState& state, const Held& held) {
  const Energy energy = TotalEnergy(question.rig, question.sprung, state, question.push);
  Balance balance{.energy = energy.value,
                  .work = energy.gradient,
                  .slope = energy.hessian,
                  .wheels = HeldWheels(question.rig, state, held)};
  if (question.push.lateral == 0.0) return balance;
  const CorneringPull pull =
      PullOfCorner(question.rig, question.sprung, state, question.push.lateral);
  balance.work += pull.work;
  balance.slope += pull.slope;
  return balance;
}

std::vector<HeldWheel> HeldWheels(const Rig& rig, const RestState& state, const Held& held) {
  std::vector<HeldWheel> wheels;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    if (!held[wheel]) continue;
    const Axle& axle = rig.vehicle->axles[wheel / 2];
    const Eigen::Vector3d& measured = wheel % 2 == 0 ? axle.p_CW_l : axle.p_CW_r;
    Height height = HeightOfAxlePoint(state, wheel / 2, WheelCentreInAxle(rig, wheel));
    height.value -= measured.z() - rig.vehicle->floor_z;
    wheels.push_back({wheel, height});
  }
  return wheels;
}

Eigen::MatrixXd FreeOfHeld(const std::vector<HeldWheel>& wheels, const PerWheel& force,
                           RestMatrix& slope) {
  if (wheels.empty()) return RestMatrix::Identity();
  Eigen::MatrixXd A(wheels.size(), kRestUnknowns);
  for (size_t i = 0; i < wheels.size(); ++i) {
    slope -= force[wheels[i].wheel] * wheels[i].height.hessian;
    A.row(static_cast<Eigen::Index>(i)) = wheels[i].height.gradient.transpose();
  }
  return KernelOf(A);
}

NewtonSystem::NewtonSystem(const Balance& balance, const PerWheel& force, double damping) {
  const auto m = static_cast<Eigen::Index>(balance.wheels.size());
  Matrix A = Matrix::Zero(kRestUnknowns + m, kRestUnknowns + m);
  RestMatrix K = balance.slope;
  K.diagonal().array() += damping;
  for (Eigen::Index i = 0; i < m; ++i) {
    const HeldWheel& held = balance.wheels[static_cast<size_t>(i)];
    K -= force[held.wheel] * held.height.hessian;
    A.block<kRestUnknowns, 1>(0, kRestUnknowns + i) = -held.height.gradient;
    A.block<1, kRestUnknowns>(kRestUnknowns + i, 0) = held.height.gradient.transpose();
  }
  A.topLeftCorner<kRestUnknowns, kRestUnknowns>() = K;
  lu_.compute(A);
}

NewtonStep NewtonSystem::Solve(const Balance& balance) const {
  const auto m = static_cast<Eigen::Index>(balance.wheels.size());
  Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 11, 1> b(kRestUnknowns + m);
  b.head<kRestUnknowns>() = -balance.work;
  for (Eigen::Index i = 0; i < m; ++i) {
    b[kRestUnknowns + i] = -balance.wheels[static_cast<size_t>(i)].height.value;
  }
  const Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 11, 1> x = lu_.solve(b);
  NewtonStep result{.step = x.head<kRestUnknowns>()};
  for (Eigen::Index i = 0; i < m; ++i) {
    result.force[balance.wheels[static_cast<size_t>(i)].wheel] = x[kRestUnknowns + i];
  }
  return result;
}

std::optional<RestState> Moved(const Rig& rig, const RestState& from, const RestVector& step) {
  RestState state{.heave = from.heave + step[kHeave],
                  .slope = from.slope + step.segment<2>(kSlopeX),
                  .motion = {}};
  if (!(state.slope.squaredNorm() < 0.25)) return std::nullopt;  // 30 deg: not a resting vehicle
  for (size_t i = 0; i < 2; ++i) {
    const int z = HeightIndex(i);
    const Pose& pose = from.motion[i].pose;
    const PoseSolution moved =
        MovePose(rig.axles[i].frame, from.motion[i], pose.z + step[z], pose.roll + step[z + 1]);
    if (moved.status != SolveStatus::kConverged) return std::nullopt;
    state.motion[i] = EvaluateMotion(rig.axles[i].frame, moved.pose);
  }
  return state;
}

namespace {

// Straight from one pose to another, which is nearly how the links lead.
Pose Between(const Pose& a, const Pose& b, double share) {
  const auto at = [&](double Pose::*q) { return a.*q + share * (b.*q - a.*q); };
  return {.x = at(&Pose::x),
          .y = at(&Pose::y),
          .steer = at(&Pose::steer),
          .pitch = at(&Pose::pitch),
          .z = at(&Pose::z),
          .roll = at(&Pose::roll)};
}

// Poses on a step of one axle, its ends among them; made where a stop asks first.
class WayOfStep {
 public:
  static constexpr size_t kLooks = 16;

  WayOfStep(const Pose& from, const Pose& to) : from_(from), to_(to) {}

  [[nodiscard]] const Eigen::Isometry3d& At(size_t look) {
    if (!poses_[look])
      poses_[look] = Transform(Between(from_, to_, static_cast<double>(look) / kLooks));
    return *poses_[look];
  }

 private:
  Pose from_, to_;
  std::array<std::optional<Eigen::Isometry3d>, kLooks + 1> poses_{};
};

// A stop's squeeze goes over a crest within the step, or over the rim of its pad.
std::optional<DeadPoint> DeadPointOf(const StopCone& cone, const ForceLaw& law, WayOfStep& way) {
  constexpr double kRounding = 1e-9;                                 // [m]
  const size_t looks = cone.pad_radius ? 1 : WayOfStep::kLooks / 2;  // a plane has but wide crests
  const auto squeezed = [&](size_t look) {
    const ConePlace<double> place = PlaceOf(cone, way.At(look));
    return MeetsPad(cone, place) ? std::max(0.0, law.free_length - place.length) : 0.0;
  };
  const double ends = std::max(squeezed(0), squeezed(WayOfStep::kLooks));
  double most = 0.0;
  for (size_t look = looks; look < WayOfStep::kLooks; look += looks) {
    most = std::max(most, squeezed(look));
  }
  const bool on_first = MeetsPad(cone, PlaceOf(cone, way.At(0)));
  const bool on_last = MeetsPad(cone, PlaceOf(cone, way.At(WayOfStep::kLooks)));
  const bool over_rim = on_first != on_last && std::max(ends, most) > 0.0;
  if (!over_rim && most <= ends + kRounding) return std::nullopt;
  return DeadPoint{law.free_length - std::max(ends, most) < SolidBelow(law)};
}

}  // namespace

std::optional<DeadPoint> DeadPointBetween(const Rig& rig, const RestState& from,
                                          const RestState& to) {
  std::optional<DeadPoint> found;
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Isometry3d before = Transform(from.motion[i].pose);
    const Eigen::Isometry3d after = Transform(to.motion[i].pose);
    WayOfStep way(from.motion[i].pose, to.motion[i].pose);
    for (const Pusher& pusher : rig.axles[i].pushers) {
      if (pusher.cone) {
        const std::optional<DeadPoint> dead = DeadPointOf(*pusher.cone, *pusher.law, way);
        if (dead && (!found || dead->solid)) found = dead;
        continue;
      }
      const Eigen::Vector3d d = before * pusher.p_AQ - pusher.p_CP;
      const Eigen::Vector3d step = after * pusher.p_AQ - before * pusher.p_AQ;
      const double share = -d.dot(step) / step.squaredNorm();
      if (!(share > 0.0 && share < 1.0)) continue;
      const double shortest = (d + share * step).norm();
      if (shortest >= pusher.law->free_length) continue;
      const bool solid = shortest < SolidBelow(*pusher.law);
      if (!found || solid) found = DeadPoint{solid};
    }
  }
  return found;
}

}  // namespace linkwright
