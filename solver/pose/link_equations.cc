// SPDX-License-Identifier: MIT
#include "solver/pose/link_equations.h"

#include <algorithm>

namespace linkwright {
namespace {

// Derivative of the housing end by each unknown, in C: two translations, the turn about z of C and
// the turn about the lateral axis. a_turned is R (-y x a).
template <typename T>
std::array<std::array<T, 3>, 4> EndDerivatives(const std::array<T, 3>& Ra,
                                               const std::array<T, 3>& a_turned) {
  const T zero{}, one = zero + 1.0;
  return {{{one, zero, zero}, {zero, one, zero}, {-Ra[1], Ra[0], zero}, a_turned}};
}

Eigen::Vector3d TurnedByPitch(const Eigen::Vector3d& a) { return {-a.z(), 0.0, a.x()}; }

// Second derivatives of the housing end by steer and pitch, values only [m/rad2].
struct EndCurvature {
  Eigen::Vector3d steer_steer, steer_pitch, pitch_pitch;
};

EndCurvature Curvature(const TaylorPoint& Ra, const TaylorPoint& turned, const Rotation<Taylor>& R,
                       const Eigen::Vector3d& a) {
  const TaylorPoint twice = Rotate(R, Eigen::Vector3d(-a.x(), 0.0, -a.z()));
  return {{-Ra[0].v, -Ra[1].v, 0.0},
          {-turned[1].v, turned[0].v, 0.0},
          {twice[0].v, twice[1].v, twice[2].v}};
}

// One link at one pose: residual, its gradient by the unknowns, and its Hessian (values).
struct LinkState {
  Taylor residual;
  std::array<Taylor, 4> gradient;
  Eigen::Matrix4d hessian;
};

LinkState EvaluateLink(const FrameLink& link, const TaylorPoint& p, const Rotation<Taylor>& R,
                       bool with_hessian) {
  const TaylorPoint Ra = Rotate(R, link.p_AQ);
  const TaylorPoint turned = Rotate(R, TurnedByPitch(link.p_AQ));
  TaylorPoint d;
  for (size_t i = 0; i < 3; ++i) d[i] = Ra[i] + p[i] - link.p_CP[static_cast<int>(i)];
  const Taylor length = sqrt(Dot(d, d));
  const Taylor inverse = Constant(1.0) / length;
  const std::array<TaylorPoint, 4> ends = EndDerivatives(Ra, turned);
  LinkState state{.residual = length - link.length, .gradient = {}, .hessian = {}};
  for (size_t k = 0; k < 4; ++k) state.gradient[k] = Dot(d, ends[k]) * inverse;
  if (!with_hessian) return state;

  const EndCurvature bend = Curvature(Ra, turned, R, link.p_AQ);
  const Eigen::Vector3d dv(d[0].v, d[1].v, d[2].v);
  Eigen::Matrix<double, 3, 4> E;
  for (int k = 0; k < 4; ++k) {
    const TaylorPoint& end = ends[static_cast<size_t>(k)];
    E.col(k) << end[0].v, end[1].v, end[2].v;
  }
  Eigen::Matrix4d H = E.transpose() * E;
  H(kSteer, kSteer) += dv.dot(bend.steer_steer);
  H(kSteer, kPitch) += dv.dot(bend.steer_pitch);
  H(kPitch, kSteer) += dv.dot(bend.steer_pitch);
  H(kPitch, kPitch) += dv.dot(bend.pitch_pitch);
  const Eigen::Vector4d g = E.transpose() * dv * inverse.v;
  state.hessian = (H - g * g.transpose()) * inverse.v;
  return state;
}

}  // namespace

void LinkResiduals(const std::vector<FrameLink>& links, const Pose& pose, double* residuals,
                   double* jacobian) {
  const Rotation<double> R = HousingRotation(pose.steer, pose.roll, pose.pitch);
  const size_t n = links.size();
  for (size_t i = 0; i < n; ++i) {
    const FrameLink& link = links[i];
    const std::array<double, 3> Ra = Rotate(R, link.p_AQ);
    const std::array<double, 3> d{Ra[0] + pose.x - link.p_CP.x(), Ra[1] + pose.y - link.p_CP.y(),
                                  Ra[2] + pose.z - link.p_CP.z()};
    const double length = std::sqrt(Dot(d, d));
    residuals[i] = length - link.length;
    if (jacobian == nullptr) continue;
    const std::array<double, 3> turned = Rotate(R, TurnedByPitch(link.p_AQ));
    const double inverse = 1.0 / length;
    jacobian[i] = d[0] * inverse;
    jacobian[n + i] = d[1] * inverse;
    jacobian[2 * n + i] = (d[1] * Ra[0] - d[0] * Ra[1]) * inverse;
    jacobian[3 * n + i] = Dot(d, turned) * inverse;
  }
}

PoseEquations EvaluateEquations(const std::vector<FrameLink>& links, const std::array<Taylor, 4>& q,
                                const Taylor& z, const Taylor& roll) {
  const TaylorPoint p{q[kX], q[kY], z};
  const Rotation<Taylor> R = HousingRotation(q[kSteer], roll, q[kPitch]);
  PoseEquations equations{.F = {}, .slope = Eigen::Matrix4d::Zero()};
  if (links.size() == 4) {
    for (size_t i = 0; i < 4; ++i) {
      const LinkState state = EvaluateLink(links[i], p, R, false);
      equations.F[i] = state.residual;
      for (size_t k = 0; k < 4; ++k) {
        equations.slope(static_cast<int>(i), static_cast<int>(k)) = state.gradient[k].v;
      }
    }
    return equations;
  }
  double greatest = 0.0;
  for (const FrameLink& link : links) greatest = std::max(greatest, link.rate);
  for (const FrameLink& link : links) {
    const LinkState state = EvaluateLink(link, p, R, true);
    const double weight = link.rate / greatest;
    Eigen::Vector4d g;
    for (size_t k = 0; k < 4; ++k) {
      equations.F[k] = equations.F[k] + weight * (state.residual * state.gradient[k]);
      g[static_cast<int>(k)] = state.gradient[k].v;
    }
    equations.slope += weight * (g * g.transpose() + state.residual.v * state.hessian);
  }
  return equations;
}

}  // namespace linkwright
