// SPDX-License-Identifier: MIT
#include "solver/pose/link_equations.h"

#include <algorithm>
#include <cmath>
#include <type_traits>

namespace linkwright {
namespace {

// Derivative of the housing end by each unknown, in C: two translations, the turn about z of C and
// the turn about the lateral axis. a_turned is R (-y x a).
template <typename T>
std::array<Vector3<T>, 4> EndDerivatives(const Vector3<T>& Ra, const Vector3<T>& a_turned) {
  const T zero{}, one = zero + 1.0;
  return {{{one, zero, zero}, {zero, one, zero}, {-Ra[1], Ra[0], zero}, a_turned}};
}

Eigen::Vector3d TurnedByPitch(const Eigen::Vector3d& a) { return {-a.z(), 0.0, a.x()}; }

// Second derivatives of the housing end by steer and pitch, values only [m/rad2].
struct EndCurvature {
  Eigen::Vector3d steer_steer, steer_pitch, pitch_pitch;
};

template <typename T>
EndCurvature Curvature(const Vector3<T>& Ra, const Vector3<T>& turned, const Rotation<T>& R,
                       const Eigen::Vector3d& a) {
  const Eigen::Vector3d at = ValueOf(Ra), turn = ValueOf(turned);
  return {{-at.x(), -at.y(), 0.0},
          {-turn.y(), turn.x(), 0.0},
          ValueOf(Rotate(R, Eigen::Vector3d(-a.x(), 0.0, -a.z())))};
}

// One link at one pose: residual, its gradient by the unknowns, and its Hessian (values).
template <typename T>
struct LinkState {
  T residual;
  std::array<T, 4> gradient;
  Eigen::Matrix4d hessian;
};

bool IsPlain(const FrameLink& link) { return !link.crank && !link.arm; }

// The four unknowns as variables of a Dual over T, height and roll as constants, and the residual.
template <typename T>
Dual<T, 4> ResidualDual(const FrameLink& link, const std::array<T, 4>& q, const T& z,
                        const T& roll) {
  const std::array<Dual<T, 4>, 4> unknown = Variables(q);
  const Dual<T, 4> height{z, {}}, tilt{roll, {}};
  return LinkResidual(link, {unknown[kX], unknown[kY], height},
                      HousingRotation(unknown[kSteer], tilt, unknown[kPitch]));
}

template <typename T>
Eigen::Vector4d ValuesOf(const std::array<T, 4>& of) {
  return {WithoutDerivatives(of[0]), WithoutDerivatives(of[1]), WithoutDerivatives(of[2]),
          WithoutDerivatives(of[3])};
}

template <typename T>
LinkState<T> EvaluateByDual(const FrameLink& link, const std::array<T, 4>& q, const T& z,
                            const T& roll) {
  LinkState<T> state{};
  if constexpr (!std::is_same_v<T, double>) {
    const Dual<T, 4> residual = ResidualDual(link, q, z, roll);
    state.residual = residual.v, state.gradient = residual.d;
  }
  const Eigen::Vector4d at = ValuesOf(q);
  const Dual<double, 4> height{WithoutDerivatives(z), {}}, tilt{WithoutDerivatives(roll), {}};
  const Dual<Dual<double, 4>, 4> twice = ResidualDual(
      link, Variables(std::array<double, 4>{at[0], at[1], at[2], at[3]}), height, tilt);
  if constexpr (std::is_same_v<T, double>) {
    state.residual = twice.v.v, state.gradient = twice.v.d;
  }
  for (int i = 0; i < 4; ++i) {
    state.hessian.row(i) = ValuesOf(twice.d[static_cast<size_t>(i)].d);
  }
  return state;
}

void ResidualByDual(const FrameLink& link, const Pose& pose, size_t i, size_t n, double* residuals,
                    double* jacobian) {
  const Dual<double, 4> residual = ResidualDual(
      link, std::array<double, 4>{pose.x, pose.y, pose.steer, pose.pitch}, pose.z, pose.roll);
  residuals[i] = residual.v;
  if (jacobian == nullptr) return;
  for (size_t k = 0; k < 4; ++k) jacobian[k * n + i] = residual.d[k];
}

template <typename T>
LinkState<T> EvaluateLink(const FrameLink& link, const Vector3<T>& p, const Rotation<T>& R) {
  const Vector3<T> Ra = Rotate(R, link.p_AQ);
  const Vector3<T> turned = Rotate(R, TurnedByPitch(link.p_AQ));
  const Vector3<T> d = Ra + p - link.p_CP;
  const T length = Norm(d);
  const T inverse = (T{} + 1.0) / length;
  const std::array<Vector3<T>, 4> ends = EndDerivatives(Ra, turned);
  LinkState<T> state{.residual = length - link.length, .gradient = {}, .hessian = {}};
  for (size_t k = 0; k < 4; ++k) state.gradient[k] = Dot(d, ends[k]) * inverse;
  const EndCurvature bend = Curvature(Ra, turned, R, link.p_AQ);
  const Eigen::Vector3d dv = ValueOf(d);
  Eigen::Matrix<double, 3, 4> E;
  for (int k = 0; k < 4; ++k) E.col(k) = ValueOf(ends[static_cast<size_t>(k)]);
  const double over_length = WithoutDerivatives(inverse);
  Eigen::Matrix4d H = E.transpose() * E;
  H(kSteer, kSteer) += dv.dot(bend.steer_steer);
  H(kSteer, kPitch) += dv.dot(bend.steer_pitch);
  H(kPitch, kSteer) += dv.dot(bend.steer_pitch);
  H(kPitch, kPitch) += dv.dot(bend.pitch_pitch);
  const Eigen::Vector4d g = E.transpose() * dv * over_length;
  state.hessian = (H - g * g.transpose()) * over_length;
  return state;
}

}  // namespace

void LinkResiduals(const std::vector<FrameLink>& links, const Pose& pose, double* residuals,
                   double* jacobian) {
  const Rotation<double> R = HousingRotation(pose.steer, pose.roll, pose.pitch);
  const size_t n = links.size();
  for (size_t i = 0; i < n; ++i) {
    const FrameLink& link = links[i];
    if (!IsPlain(link)) {
      ResidualByDual(link, pose, i, n, residuals, jacobian);
      continue;
    }
    const Vector3<double> Ra = Rotate(R, link.p_AQ);
    const Vector3<double> d{Ra[0] + pose.x - link.p_CP.x(), Ra[1] + pose.y - link.p_CP.y(),
                            Ra[2] + pose.z - link.p_CP.z()};
    const double length = std::sqrt(Dot(d, d));
    residuals[i] = length - link.length;
    if (jacobian == nullptr) continue;
    const Vector3<double> turned = Rotate(R, TurnedByPitch(link.p_AQ));
    const double inverse = 1.0 / length;
    jacobian[i] = d[0] * inverse;
    jacobian[n + i] = d[1] * inverse;
    jacobian[2 * n + i] = (d[1] * Ra[0] - d[0] * Ra[1]) * inverse;
    jacobian[3 * n + i] = Dot(d, turned) * inverse;
  }
}

Eigen::Matrix<double, Eigen::Dynamic, 4> LinkJacobian(const AxleFrame& frame, const Pose& pose) {
  const auto n = static_cast<Eigen::Index>(frame.links.size());
  Eigen::VectorXd residuals(n);
  Eigen::Matrix<double, Eigen::Dynamic, 4> J(n, 4);
  LinkResiduals(frame.links, pose, residuals.data(), J.data());
  return J;
}

double GreatestRate(const AxleFrame& frame) {
  double greatest = 0.0;
  for (const FrameLink& link : frame.links) greatest = std::max(greatest, link.rate);
  return greatest;
}

namespace {

template <typename T>
std::vector<LinkState<T>> EvaluateAll(const AxleFrame& frame, const std::array<T, 4>& q, const T& z,
                                      const T& roll) {
  const Vector3<T> p{q[kX], q[kY], z};
  const Rotation<T> R = HousingRotation(q[kSteer], roll, q[kPitch]);
  std::vector<LinkState<T>> states;
  states.reserve(frame.links.size());
  for (const FrameLink& link : frame.links) {
    states.push_back(!IsPlain(link) ? EvaluateByDual(link, q, z, roll) : EvaluateLink(link, p, R));
  }
  return states;
}

// J' K J over the greatest rate, K the slope of the tensions by the stretches.
template <typename T>
void AddStiffness(const AxleFrame& frame, const std::vector<LinkState<T>>& states, double greatest,
                  Eigen::Matrix4d& slope) {
  const auto weigh = [&](double rate, size_t i, size_t k) {
    slope +=
        rate / greatest * ValuesOf(states[i].gradient) * ValuesOf(states[k].gradient).transpose();
  };
  for (size_t i = 0; i < states.size(); ++i) {
    if (!frame.links[i].arm) weigh(frame.links[i].rate, i, i);
  }
  for (const Coupling& pair : frame.couplings) {
    const Eigen::Matrix2d stiffness = StiffnessOf(
        *frame.links[pair.first].arm, {WithoutDerivatives(states[pair.first].residual),
                                       WithoutDerivatives(states[pair.second].residual)});
    const std::array leg{pair.first, pair.second};
    for (size_t i = 0; i < 2; ++i) {
      for (size_t k = 0; k < 2; ++k) {
        weigh(stiffness(static_cast<int>(i), static_cast<int>(k)), leg[i], leg[k]);
      }
    }
  }
}

// Of four links: the residuals are the equations, and their slope needs no derivatives of its own.
template <typename T>
PoseEquations<T> EvaluateSquare(const AxleFrame& frame, const std::array<T, 4>& q, const T& z,
                                const T& roll) {
  const Vector3<T> p{q[kX], q[kY], z};
  const Rotation<T> R = HousingRotation(q[kSteer], roll, q[kPitch]);
  PoseEquations<T> equations;
  for (size_t i = 0; i < 4; ++i) equations.F[i] = LinkResidual(frame.links[i], p, R);
  const Pose given{.z = WithoutDerivatives(z), .roll = WithoutDerivatives(roll)};
  Eigen::Vector4d residuals;
  LinkResiduals(frame.links, WithUnknowns(given, ValuesOf(q)), residuals.data(),
                equations.slope.data());
  return equations;
}

template <typename T>
PoseEquations<T> Evaluate(const AxleFrame& frame, const std::array<T, 4>& q, const T& z,
                          const T& roll) {
  if (frame.links.size() == 4) return EvaluateSquare(frame, q, z, roll);
  const std::vector<LinkState<T>> states = EvaluateAll(frame, q, z, roll);
  PoseEquations<T> equations{.F = {}, .slope = Eigen::Matrix4d::Zero()};
  const double greatest = GreatestRate(frame);
  std::vector<T> stretch;
  for (const LinkState<T>& state : states) stretch.push_back(state.residual);
  const std::vector<T> tension = StrainOf(frame, stretch).tension;
  for (size_t i = 0; i < states.size(); ++i) {
    const T share = (1.0 / greatest) * tension[i];
    for (size_t k = 0; k < 4; ++k) {
      equations.F[k] = equations.F[k] + share * states[i].gradient[k];
    }
    equations.slope += WithoutDerivatives(share) * states[i].hessian;
  }
  AddStiffness(frame, states, greatest, equations.slope);
  return equations;
}

}  // namespace

PoseEquations<Taylor> EvaluateEquations(const AxleFrame& frame, const std::array<Taylor, 4>& q,
                                        const Taylor& z, const Taylor& roll) {
  return Evaluate(frame, q, z, roll);
}

PoseEquations<double> EvaluateEquations(const AxleFrame& frame, const Pose& pose) {
  return Evaluate(frame, std::array<double, 4>{pose.x, pose.y, pose.steer, pose.pitch}, pose.z,
                  pose.roll);
}

}  // namespace linkwright
