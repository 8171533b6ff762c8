// SPDX-License-Identifier: MIT
#include "solver/pose/solve.h"

#include <ceres/tiny_solver.h>

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/numeric/decompositions.h"
#include "solver/pose/link_equations.h"

namespace linkwright {
namespace {

constexpr double kResidualMet = 1e-11;    // [m] 1e-5 of the finest mark on a tape rule
constexpr double kNewtonStepMet = 1e-12;  // [m, rad] rounding of metres, times a condition of 1e4
constexpr double kShortestStep = 1e-7;    // [m] a step this short that still fails is a dead point
constexpr double kLongestStep = 0.06;     // [m] a fifth of the shortest arms in use
constexpr double kLandNear = 0.1;         // correction allowed, as a share of the step

// Residuals weighted by the square root of each link's share of the greatest rate.
template <int N>
struct WeightedResiduals {
  using Scalar = double;
  enum { NUM_RESIDUALS = N, NUM_PARAMETERS = 4 };
  const AxleFrame& frame;
  Pose at;
  Eigen::Matrix<double, N, 1> root_weight;
  // Of four links, at the place last accepted, which is where the search ends: TinySolver asks for
  // the slope nowhere else.
  mutable Eigen::Vector4d last = {};
  mutable Eigen::Matrix4d slope = {};

  [[nodiscard]] int NumResiduals() const { return static_cast<int>(frame.links.size()); }

  // Turns stretches into the square roots of twice their energy, over that of the greatest rate:
  // the root of its weight for a link, the Cholesky factor of their stiffness for a coupled pair.
  void Whiten(double* column) const {
    for (const Coupling& pair : frame.couplings) {
      const auto i = static_cast<Eigen::Index>(pair.first);
      const auto k = static_cast<Eigen::Index>(pair.second);
      const double own = frame.links[pair.first].rate;
      column[i] += pair.rate / own * column[k];
    }
    for (Eigen::Index i = 0; i < root_weight.size(); ++i) column[i] *= root_weight[i];
  }

  bool operator()(const double* q, double* residuals, double* jacobian) const {
    LinkResiduals(frame.links, WithUnknowns(at, Eigen::Map<const Eigen::Vector4d>(q)), residuals,
                  jacobian);
    if constexpr (N == 4) {
      if (jacobian != nullptr) {
        last = Eigen::Map<const Eigen::Vector4d>(residuals);
        slope = Eigen::Map<const Eigen::Matrix4d>(jacobian);
      }
      return true;
    }
    const int n = NumResiduals();
    Whiten(residuals);
    if (jacobian == nullptr) return true;
    for (int k = 0; k < 4; ++k) Whiten(jacobian + k * n);
    return true;
  }
};

// The minimum of the strain energy, and the function as it was last asked about.
template <int N>
std::pair<Pose, WeightedResiduals<N>> Minimise(const AxleFrame& frame, const Pose& guess) {
  WeightedResiduals<N> function{.frame = frame, .at = guess, .root_weight = {}};
  const auto n = static_cast<Eigen::Index>(frame.links.size());
  function.root_weight.resize(n);
  const double greatest = GreatestRate(frame);
  for (Eigen::Index i = 0; i < n; ++i) {
    function.root_weight[i] = std::sqrt(frame.links[static_cast<size_t>(i)].rate / greatest);
  }
  for (const Coupling& pair : frame.couplings) {
    const double left =
        frame.links[pair.second].rate - pair.rate * pair.rate / frame.links[pair.first].rate;
    function.root_weight[static_cast<Eigen::Index>(pair.second)] = std::sqrt(left / greatest);
  }
  ceres::TinySolver<WeightedResiduals<N>> solver;
  solver.options.max_num_iterations = 30;
  solver.options.initial_trust_region_radius = 1e12;  // Gauss-Newton unless a step fails
  solver.options.function_tolerance = 0.0;            // TinySolver takes it as absolute; not wanted
  solver.options.parameter_tolerance = N == 4 ? 1e-15 : 1e-9;
  solver.options.gradient_tolerance = N == 4 ? 1e-15 : 1e-12;
  solver.options.cost_threshold = 5e-25;  // [m2] residuals 10 times inside kResidualMet
  Eigen::Vector4d q = UnknownsOf(guess);
  solver.Solve(function, &q);
  return {WithUnknowns(guess, q), function};
}

// The greatest residual of four links at a pose [m], and the determinant of their slope there.
struct SquareState {
  double worst, determinant;
};

SquareState StateOf(const Eigen::Vector4d& residuals, const Eigen::Matrix4d& slope) {
  double worst = 0.0;
  for (const double r : residuals) {
    if (!(std::abs(r) <= worst)) worst = std::abs(r);  // a NaN sticks
  }
  return {worst, slope.determinant()};
}

// A solution and the determinant of the equations' slope there; its sign tells the branch the links
// are assembled in.
struct Solved {
  PoseSolution solution;
  double determinant;
};

PoseSolution Solution(const Pose& pose, SolveStatus status) {
  PoseSolution solution;
  solution.pose = pose;
  solution.status = status;
  return solution;
}

// Newton's method on the gradient of the strain energy, from TinySolver's minimum: Gauss-Newton
// alone crawls where residuals are not zero.
Solved Polish(const AxleFrame& frame, Pose pose) {
  double determinant = 0.0;
  for (int iteration = 0; iteration < 12; ++iteration) {
    const PoseEquations<double> equations = EvaluateEquations(frame, pose);
    const Eigen::PartialPivLU<Eigen::Matrix4d> slope(equations.slope);
    determinant = slope.determinant();
    const Eigen::Vector4d step = slope.solve(Eigen::Vector4d(equations.F.data()));
    pose = WithUnknowns(pose, UnknownsOf(pose) - step);
    if (step.norm() <= kNewtonStepMet) {
      return {Solution(pose, SolveStatus::kConverged), determinant};
    }
    if (!step.allFinite()) break;
  }
  return {Solution(pose, SolveStatus::kNotConverged), determinant};
}

// How far a solved pose is from its prediction, angles at half the track [m].
double Correction(const AxleFrame& frame, const Pose& predicted, const Pose& solved) {
  Eigen::Vector4d apart = UnknownsOf(solved) - UnknownsOf(predicted);
  apart.tail<2>() *= 0.5 * frame.track;
  return apart.norm();
}

// The link that carries the most where the links line up: the greatest share of the force pattern
// that the four unknowns resist least, each link weighted by the root of its rate.
size_t BlockingLink(const AxleFrame& frame, const Pose& pose) {
  Eigen::MatrixXd J = LinkJacobian(frame, pose);
  const double greatest = GreatestRate(frame);
  for (Eigen::Index i = 0; i < J.rows(); ++i) {
    J.row(i) *= std::sqrt(frame.links[static_cast<size_t>(i)].rate / greatest);
  }
  // Two that carry alike, as mirror images do, are told apart by their order alone.
  constexpr double kAlike = 1e-3;
  const Eigen::VectorXd carried = SingularValuesOf(J).U.col(3).cwiseAbs();
  const double most = carried.maxCoeff();
  size_t first = 0;
  while (carried[static_cast<Eigen::Index>(first)] < (1.0 - kAlike) * most) ++first;
  return first;
}

Solved Solve(const AxleFrame& frame, const Pose& guess) {
  switch (frame.links.size()) {
    case 4: {
      const auto [pose, function] = Minimise<4>(frame, guess);
      const SquareState at = StateOf(function.last, function.slope);
      const bool met = at.worst <= kResidualMet;
      return {Solution(pose, met ? SolveStatus::kConverged : SolveStatus::kNotConverged),
              at.determinant};
    }
    case 5:
      return Polish(frame, Minimise<5>(frame, guess).first);
    case 6:
      return Polish(frame, Minimise<6>(frame, guess).first);
    default:
      return Polish(frame, Minimise<Eigen::Dynamic>(frame, guess).first);
  }
}

}  // namespace

double SlopeDeterminant(const AxleFrame& frame, const Pose& pose) {
  if (frame.links.size() == 4) {
    Eigen::Vector4d residuals;
    Eigen::Matrix4d slope;
    LinkResiduals(frame.links, pose, residuals.data(), slope.data());
    return slope.determinant();
  }
  return EvaluateEquations(frame, pose).slope.determinant();
}

PoseSolution SolvePose(const AxleFrame& frame, const Pose& guess) {
  return Solve(frame, guess).solution;
}

PoseSolution MovePose(const AxleFrame& frame, const HousingMotion& from, double z, double roll) {
  const double arm = 0.5 * frame.track;
  HousingMotion here = from;
  const double sign = std::copysign(1.0, from.determinant);
  double share = 1.0;  // of what is left to walk
  while (true) {
    const double dz = z - here.pose.z, dr = roll - here.pose.roll;
    const double left = std::abs(dz) + arm * std::abs(dr);
    share = std::min(share, kLongestStep / std::max(left, kLongestStep));
    const bool last = share >= 1.0;
    const Pose predicted =
        last ? Predict(here, z, roll)
             : Predict(here, here.pose.z + share * dz, here.pose.roll + share * dr);
    const auto [step, determinant] = Solve(frame, predicted);
    const bool near = step.status == SolveStatus::kConverged &&
                      Correction(frame, predicted, step.pose) <= kLandNear * share * left + 1e-12;
    if (near && sign * determinant > 0.0) {
      if (last) return step;
      here = EvaluateMotion(frame, step.pose);
      share = std::min(1.0, 2.0 * share / (1.0 - share));
      continue;
    }
    if (!(share * left > kShortestStep)) {
      PoseSolution stuck = Solution(here.pose, SolveStatus::kLinksStraight);
      stuck.blocking_link = BlockingLink(frame, here.pose);
      return stuck;
    }
    share *= 0.5;
  }
}

namespace {

// A solved pose on the way to a fold.
struct NearFold {
  double at;      // the way's parameter
  double square;  // of the determinant
  Pose pose;
};

}  // namespace

std::optional<Fold> FindFold(const AxleFrame& frame, const std::function<AxlePlace(double)>& place,
                             double from, const Pose& solved, double out, const Pose& stuck) {
  constexpr double kMet = 1e-9;  // of the way asked about: 5 pm of 5 mm
  constexpr int kMost = 60;
  const double way = out - from, sign = SlopeDeterminant(frame, solved);
  // The pose at a parameter if it is found near a guess and in the same assembly.
  const auto solve = [&](double at, const Eigen::Vector4d& guess,
                         double within) -> std::optional<NearFold> {
    const AxlePlace there = place(at);
    const auto [found, determinant] =
        Solve(frame, WithUnknowns({.z = there.z, .roll = there.roll}, guess));
    const bool is_near = (UnknownsOf(found.pose) - guess).norm() <= within;
    if (found.status != SolveStatus::kConverged || !is_near || sign * determinant <= 0.0) {
      return std::nullopt;
    }
    return NearFold{at, determinant * determinant, found.pose};
  };
  // Where the walk got stuck, by its height or its roll, whichever went farther.
  const AxlePlace end = place(out);
  const double dz = end.z - solved.z, dr = end.roll - solved.roll;
  const bool by_height = std::abs(dz) > 0.5 * frame.track * std::abs(dr);
  const double share = by_height ? (stuck.z - solved.z) / dz : (stuck.roll - solved.roll) / dr;
  if (!(share > 0.0 && share < 1.0)) return std::nullopt;
  NearFold a{from, sign * sign, solved};
  std::optional<NearFold> b = solve(from + 0.999 * share * way, UnknownsOf(stuck), 1e-2);
  double ahead = 0.9;  // share of what seems left that is gone at once
  for (int i = 0; b && i < kMost; ++i) {
    if (b->square >= a.square) return std::nullopt;
    const double fold = b->at + b->square * (b->at - a.at) / (a.square - b->square);
    if (std::abs(fold - b->at) < kMet * std::abs(way)) return Fold{fold, b->pose};
    const double next = b->at + ahead * (fold - b->at);
    const double root_a = std::sqrt(std::abs(fold - a.at)),
                 root_b = std::sqrt(std::abs(fold - b->at));
    const Eigen::Vector4d step = (UnknownsOf(a.pose) - UnknownsOf(b->pose)) *
                                 ((std::sqrt(std::abs(fold - next)) - root_b) / (root_a - root_b));
    if (auto found = solve(next, UnknownsOf(b->pose) + step, step.norm())) {
      a = *std::exchange(b, std::move(found));
      ahead = 0.9;
    } else if ((ahead *= 0.5) < 1e-3) {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

}  // namespace linkwright
