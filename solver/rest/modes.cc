// SPDX-License-Identifier: MIT
#include "solver/rest/modes.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numeric>

namespace linkwright {
namespace {

using Complex = std::complex<double>;

// A conjugate pair of roots, or two real ones.
struct RootPair {
  Complex first, second;
  std::vector<double> likeness;  // to each undamped mode [-]
};

struct Undamped {
  Eigen::VectorXd squared;  // angular frequencies squared, ascending [1/s2]
  Eigen::MatrixXd shapes;   // columns, each with kinetic energy 1/2 at unit speed
};

Undamped SolveUndamped(const LinearModel& model) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(model.stiffness,
                                                                         model.mass);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

// Kinetic energy of shape `mode` in each part, of 1.
std::array<double, kMotionParts> SharesOf(const LinearModel& model, const Eigen::VectorXd& shape) {
  std::array<double, kMotionParts> shares{};
  const double whole = shape.dot(model.mass * shape);
  for (size_t i = 0; i < kMotionParts; ++i) {
    shares[i] = shape.dot(model.part[i] * shape) / whole;
  }
  return shares;
}

// The name of each mode: of all ways to give every mode another name, the one with the most kinetic
// energy in the named parts. There are at most 9! of them.
std::vector<size_t> NameModes(const std::vector<std::array<double, kMotionParts>>& shares) {
  std::array<size_t, kMotionParts> order{};
  std::iota(order.begin(), order.end(), size_t{0});
  std::vector<size_t> best;
  double most = -1.0;
  do {
    double sum = 0.0;
    for (size_t mode = 0; mode < shares.size(); ++mode) sum += shares[mode][order[mode]];
    if (sum <= most) continue;
    most = sum;
    best.assign(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(shares.size()));
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

// How alike a complex shape is to each undamped one: squared cosine in the mass matrix, 0 to 1.
std::vector<double> Likeness(const LinearModel& model, const Undamped& undamped,
                             const Eigen::VectorXcd& shape) {
  const Eigen::VectorXcd along = undamped.shapes.transpose() * (model.mass * shape);
  const double whole = along.squaredNorm();
  std::vector<double> likeness;
  for (const Complex& part : along) likeness.push_back(std::norm(part) / whole);
  return likeness;
}

struct Roots {
  std::vector<RootPair> pairs;     // that swing
  std::vector<RootPair> creeping;  // real ones, each with itself in both places until paired
};

// M (s^2 + C s + K) x = 0 in modal coordinates, as a matrix of twice the size.
Roots SolveDamped(const LinearModel& model, const Undamped& undamped) {
  const Eigen::Index n = model.mass.rows();
  const Eigen::MatrixXd damping = undamped.shapes.transpose() * model.damping * undamped.shapes;
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(2 * n, 2 * n);
  A.topRightCorner(n, n).setIdentity();
  A.bottomLeftCorner(n, n).diagonal() = -undamped.squared;
  A.bottomRightCorner(n, n) = -damping;
  const Eigen::EigenSolver<Eigen::MatrixXd> solver(A);
  Roots roots;
  for (Eigen::Index i = 0; i < 2 * n; ++i) {
    const Complex root = solver.eigenvalues()[i];
    if (root.imag() < 0.0) continue;
    const Eigen::VectorXcd shape = undamped.shapes * solver.eigenvectors().col(i).head(n);
    RootPair pair{root, std::conj(root), Likeness(model, undamped, shape)};
    (root.imag() > 0.0 ? roots.pairs : roots.creeping).push_back(std::move(pair));
  }
  return roots;
}

// The pair and the mode, neither taken yet, that are most alike.
std::pair<size_t, size_t> MostAlike(const std::vector<RootPair>& pairs,
                                    const std::vector<bool>& pair_taken,
                                    const std::vector<bool>& mode_taken) {
  std::pair<size_t, size_t> best{0, 0};
  double most = -1.0;
  for (size_t p = 0; p < pairs.size(); ++p) {
    for (size_t m = 0; m < mode_taken.size(); ++m) {
      if (pair_taken[p] || mode_taken[m] || pairs[p].likeness[m] <= most) continue;
      most = pairs[p].likeness[m];
      best = {p, m};
    }
  }
  return best;
}

// One pair of roots a mode: first those that swing, then real roots two by two.
std::vector<RootPair> MatchRoots(const Roots& roots, size_t modes) {
  std::vector<RootPair> matched(modes);
  std::vector<bool> mode_taken(modes, false), pair_taken(roots.pairs.size(), false);
  for (size_t count = 0; count < roots.pairs.size(); ++count) {
    const auto [p, m] = MostAlike(roots.pairs, pair_taken, mode_taken);
    pair_taken[p] = mode_taken[m] = true;
    matched[m] = roots.pairs[p];
  }
  std::vector<bool> root_taken(roots.creeping.size(), false);
  for (size_t count = 0; 2 * count + 1 < roots.creeping.size(); ++count) {
    const auto [p, m] = MostAlike(roots.creeping, root_taken, mode_taken);
    root_taken[p] = true;
    std::vector<bool> others(modes, true);
    others[m] = false;
    const size_t q = MostAlike(roots.creeping, root_taken, others).first;
    root_taken[q] = mode_taken[m] = true;
    matched[m] = {roots.creeping[p].first, roots.creeping[q].first, {}};
  }
  return matched;
}

// s^2 - (first + second) s + first second = s^2 + 2 damping w s + w^2.
void AddDamping(Mode& mode, const RootPair& roots) {
  const double squared = std::real(roots.first * roots.second);
  const double natural = std::sqrt(std::max(0.0, squared));
  mode.natural = natural / (2.0 * M_PI);
  mode.damped = std::max(0.0, roots.first.imag()) / (2.0 * M_PI);
  mode.damping = -0.5 * std::real(roots.first + roots.second) / natural;
}

// Heave and pitch of the body change names where the other one reaches further.
void OrderSideView(const LinearModel& model, std::vector<Mode>& modes) {
  Mode *heave = nullptr, *pitch = nullptr;
  for (Mode& mode : modes) {
    if (mode.part == kBodyHeave) heave = &mode;
    if (mode.part == kBodyPitch) pitch = &mode;
  }
  if (heave == nullptr || pitch == nullptr) return;
  constexpr double kEqual = 1e-9;
  const double own = std::abs(HeavePerPitch(model, *heave));
  const double other = std::abs(HeavePerPitch(model, *pitch));
  const bool equal = std::abs(own - other) <= kEqual * std::max(own, other);
  if (equal ? pitch->undamped < heave->undamped : other > own) {
    std::swap(heave->part, pitch->part);
    for (Mode* mode : {heave, pitch}) mode->share = SharesOf(model, mode->shape)[mode->part];
  }
}

}  // namespace

std::vector<Mode> FindModes(const LinearModel& model) {
  const Undamped undamped = SolveUndamped(model);
  if (!(undamped.squared.minCoeff() > 0.0)) return {};
  const auto count = static_cast<size_t>(undamped.squared.size());
  const std::vector<RootPair> roots = MatchRoots(SolveDamped(model, undamped), count);
  std::vector<std::array<double, kMotionParts>> shares;
  for (size_t i = 0; i < count; ++i) {
    shares.push_back(SharesOf(model, undamped.shapes.col(static_cast<Eigen::Index>(i))));
  }
  const std::vector<size_t> names = NameModes(shares);
  std::vector<Mode> modes;
  for (size_t i = 0; i < count; ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    Mode mode{.part = static_cast<MotionPart>(names[i]),
              .share = shares[i][names[i]],
              .undamped = std::sqrt(undamped.squared[column]) / (2.0 * M_PI),
              .natural = 0.0,
              .damped = 0.0,
              .damping = 0.0,
              .shape = undamped.shapes.col(column)};
    AddDamping(mode, roots[i]);
    modes.push_back(std::move(mode));
  }
  OrderSideView(model, modes);
  std::sort(modes.begin(), modes.end(),
            [](const Mode& a, const Mode& b) { return a.part < b.part; });
  return modes;
}

double HeavePerPitch(const LinearModel& model, const Mode& mode) {
  const double heave = model.heave.dot(mode.shape), pitch = model.pitch.dot(mode.shape);
  if (pitch == 0.0) return std::copysign(std::numeric_limits<double>::infinity(), heave);
  return heave / pitch;
}

}  // namespace linkwright
