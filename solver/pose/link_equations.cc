// SPDX-License-Identifier: MIT
#include "solver/pose/link_equations.h"

#include <algorithm>

#include "solver/pose/dual.h"

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

bool IsPlain(const FrameLink& link) { return !link.crank && !link.arm; }

// The four unknowns as variables of a Dual over T, height and roll as constants, and the residual.
template <typename T>
Dual<T> ResidualDual(const FrameLink& link, const std::array<T, 4>& q, const T& z, const T& roll) {
  std::array<Dual<T>, 4> unknown;
  for (size_t k = 0; k < 4; ++k) {
    unknown[k].v = q[k];
    unknown[k].d[k] = T{} + 1.0;
  }
  const Dual<T> height{z, {}}, tilt{roll, {}};
  const Rotation<Dual<T>> R = HousingRotation(unknown[kSteer], tilt, unknown[kPitch]);
  return LinkResidual(link, std::array<Dual<T>, 3>{unknown[kX], unknown[kY], height}, R);
}

LinkState EvaluateByDual(const FrameLink& link, const std::array<Taylor, 4>& q, const Taylor& z,
                         const Taylor& roll, bool with_hessian) {
  const Dual<Taylor> residual = ResidualDual(link, q, z, roll);
  LinkState state{.residual = residual.v, .gradient = residual.d, .hessian = {}};
  if (!with_hessian) return state;
  std::array<Dual<double>, 4> inner;
  for (size_t k = 0; k < 4; ++k) {
    inner[k].v = q[k].v;
    inner[k].d[k] = 1.0;
  }
  const Dual<double> height{z.v, {}}, tilt{roll.v, {}};
  const Dual<Dual<double>> twice = ResidualDual(link, inner, height, tilt);
  for (int i = 0; i < 4; ++i) {
    for (int k = 0; k < 4; ++k) {
      state.hessian(i, k) = twice.d[static_cast<size_t>(i)].d[static_cast<size_t>(k)];
    }
  }
  return state;
}

void ResidualByDual(const FrameLink& link, const Pose& pose, size_t i, size_t n, double* residuals,
                    double* jacobian) {
  const Dual<double> residual = ResidualDual(
      link, std::array<double, 4>{pose.x, pose.y, pose.steer, pose.pitch}, pose.z, pose.roll);
  residuals[i] = residual.v;
  if (jacobian == nullptr) return;
  for (size_t k = 0; k < 4; ++k) jacobian[k * n + i] = residual.d[k];
}

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
    if (!IsPlain(link)) {
      ResidualByDual(link, pose, i, n, residuals, jacobian);
      continue;
    }
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

std::vector<Eigen::Matrix<double, 6, 1>> StretchPerCoordinate(const AxleFrame& frame,
                                                              const Pose& pose) {
  const auto n = static_cast<Eigen::Index>(frame.links.size());
  Eigen::VectorXd residuals(n);
  Eigen::Matrix<double, Eigen::Dynamic, 4> J(n, 4);
  LinkResiduals(frame.links, pose, residuals.data(), J.data());
  const Taylor z{.v = pose.z, .z = 1.0}, roll{.v = pose.roll, .r = 1.0};
  const TaylorPoint p{Constant(pose.x), Constant(pose.y), z};
  const Rotation<Taylor> R = HousingRotation(Constant(pose.steer), roll, Constant(pose.pitch));
  std::vector<Eigen::Matrix<double, 6, 1>> stretch(frame.links.size());
  for (size_t i = 0; i < frame.links.size(); ++i) {
    const Taylor moved = LinkResidual(frame.links[i], p, R);
    stretch[i] << J.row(static_cast<Eigen::Index>(i)).transpose(), moved.z, moved.r;
  }
  return stretch;
}

namespace {

std::vector<LinkState> EvaluateAll(const AxleFrame& frame, const std::array<Taylor, 4>& q,
                                   const Taylor& z, const Taylor& roll, bool with_hessian) {
  const TaylorPoint p{q[kX], q[kY], z};
  const Rotation<Taylor> R = HousingRotation(q[kSteer], roll, q[kPitch]);
  std::vector<LinkState> states;
  states.reserve(frame.links.size());
  for (const FrameLink& link : frame.links) {
    states.push_back(!IsPlain(link) ? EvaluateByDual(link, q, z, roll, with_hessian)
                                    : EvaluateLink(link, p, R, with_hessian));
  }
  return states;
}

Eigen::Vector4d ValuesOf(const std::array<Taylor, 4>& gradient) {
  return {gradient[0].v, gradient[1].v, gradient[2].v, gradient[3].v};
}

// J' K J over the greatest rate, K the slope of the tensions by the stretches.
void AddStiffness(const AxleFrame& frame, const std::vector<LinkState>& states, double greatest,
                  Eigen::Matrix4d& slope) {
  const auto weigh = [&](double rate, size_t i, size_t k) {
    slope +=
        rate / greatest * ValuesOf(states[i].gradient) * ValuesOf(states[k].gradient).transpose();
  };
  for (size_t i = 0; i < states.size(); ++i) {
    if (!frame.links[i].arm) weigh(frame.links[i].rate, i, i);
  }
  for (const Coupling& pair : frame.couplings) {
    const Eigen::Matrix2d stiffness =
        StiffnessOf(*frame.links[pair.first].arm,
                    {states[pair.first].residual.v, states[pair.second].residual.v});
    const std::array leg{pair.first, pair.second};
    for (size_t i = 0; i < 2; ++i) {
      for (size_t k = 0; k < 2; ++k) {
        weigh(stiffness(static_cast<int>(i), static_cast<int>(k)), leg[i], leg[k]);
      }
    }
  }
}

}  // namespace

PoseEquations EvaluateEquations(const AxleFrame& frame, const std::array<Taylor, 4>& q,
                                const Taylor& z, const Taylor& roll) {
  const bool square = frame.links.size() == 4;
  const std::vector<LinkState> states = EvaluateAll(frame, q, z, roll, !square);
  PoseEquations equations{.F = {}, .slope = Eigen::Matrix4d::Zero()};
  if (square) {
    for (size_t i = 0; i < 4; ++i) {
      equations.F[i] = states[i].residual;
      equations.slope.row(static_cast<int>(i)) = ValuesOf(states[i].gradient).transpose();
    }
    return equations;
  }
  double greatest = 0.0;
  for (const FrameLink& link : frame.links) greatest = std::max(greatest, link.rate);
  std::vector<Taylor> stretch;
  for (const LinkState& state : states) stretch.push_back(state.residual);
  const std::vector<Taylor> tension = StrainOf(frame, stretch).tension;
  for (size_t i = 0; i < states.size(); ++i) {
    const Taylor share = (1.0 / greatest) * tension[i];
    for (size_t k = 0; k < 4; ++k) {
      equations.F[k] = equations.F[k] + share * states[i].gradient[k];
    }
    equations.slope += share.v * states[i].hessian;
  }
  AddStiffness(frame, states, greatest, equations.slope);
  return equations;
}

}  // namespace linkwright
