// SPDX-License-Identifier: MIT
#include "solver/numeric/adjustment.h"

#include <cmath>

#include "solver/numeric/decompositions.h"

namespace linkwright {
namespace {

// The pseudoinverse of whitened slopes; nothing where they leave a motion free.
std::optional<Eigen::MatrixXd> GainOf(const Eigen::MatrixXd& jacobian) {
  constexpr double kFree = 1e-9;  // of the greatest; slopes are good to 1e-10
  if (jacobian.rows() < jacobian.cols()) return std::nullopt;
  // Unknowns of different kinds are made alike first, so that a small value means a free motion.
  const Eigen::VectorXd scale = jacobian.colwise().norm();
  if (!(scale.minCoeff() > 0.0) || !scale.allFinite()) return std::nullopt;
  const SingularValues svd = SingularValuesOf(jacobian * scale.cwiseInverse().asDiagonal());
  if (svd.values.minCoeff() <= kFree * svd.values.maxCoeff()) return std::nullopt;
  return scale.cwiseInverse().asDiagonal() * svd.V * svd.values.cwiseInverse().asDiagonal() *
         svd.U.transpose();
}

}  // namespace

std::optional<Eigen::MatrixXd> SlopesOf(const ReadingModel& model, const Eigen::VectorXd& at) {
  constexpr double kStep = 1e-5;  // cube root of the rounding of a double: error 1e-10 and less
  Eigen::MatrixXd slopes;
  for (Eigen::Index j = 0; j < at.size(); ++j) {
    Eigen::VectorXd above = at, below = at;
    above[j] += kStep;
    below[j] -= kStep;
    const std::optional<Eigen::VectorXd> up = model(above), down = model(below);
    if (!up || !down) return std::nullopt;
    if (slopes.size() == 0) slopes.resize(up->size(), at.size());
    slopes.col(j) = (*up - *down) / (above[j] - below[j]);
  }
  return slopes;
}

Adjustment Adjust(const ReadingModel& model, const Eigen::VectorXd& read,
                  const Eigen::VectorXd& sigmas, const Eigen::VectorXd& start) {
  constexpr int kSteps = 100, kHalvings = 30;
  constexpr double kMet = 1e-6;  // of a sigma; the step that is so short is still taken
  const auto off = [&](const Eigen::VectorXd& adjusted) -> Eigen::VectorXd {
    return (read - adjusted).cwiseQuotient(sigmas);
  };
  Adjustment result;
  Eigen::VectorXd at = start;
  std::optional<Eigen::VectorXd> adjusted = model(at);
  for (int step = 0; adjusted && step < kSteps; ++step) {
    const std::optional<Eigen::MatrixXd> slopes = SlopesOf(model, at);
    if (!slopes) break;
    const Eigen::MatrixXd jacobian = sigmas.cwiseInverse().asDiagonal() * *slopes;
    const std::optional<Eigen::MatrixXd> gain = GainOf(jacobian);
    if (!gain) return result;
    const Eigen::VectorXd whole = *gain * off(*adjusted);
    const double moves = (jacobian * whole).lpNorm<Eigen::Infinity>();
    const double before = off(*adjusted).squaredNorm();
    bool helps = false;
    double share = 1.0;
    for (int i = 0; i < kHalvings && !helps; ++i, share /= 2.0) {
      const Eigen::VectorXd there = at + share * whole;
      const std::optional<Eigen::VectorXd> then = model(there);
      helps = then && (moves <= kMet || off(*then).squaredNorm() < before);
      if (helps) at = there, adjusted = then;
    }
    if (helps && moves > kMet) continue;
    // No step helps where what it would lower the sum by, its square, is lost in rounding.
    if (moves > kMet * std::sqrt(1.0 + before)) break;
    result.status = AdjustStatus::kConverged;
    result.unknowns = at;
    result.adjusted = *adjusted;
    result.jacobian = jacobian;
    result.gain = *gain;
    result.misfit = off(*adjusted).squaredNorm();
    result.checked =
        (1.0 - jacobian.cwiseProduct(gain->transpose()).rowwise().sum().array()).matrix();
    const Eigen::VectorXd left = off(*adjusted);
    result.normalised = Eigen::VectorXd::Zero(read.size());
    for (Eigen::Index i = 0; i < read.size(); ++i) {
      if (result.checked[i] >= kChecked) {
        result.normalised[i] = left[i] / std::sqrt(result.checked[i]);
      }
    }
    return result;
  }
  result.status = AdjustStatus::kNotSettled;
  return result;
}

}  // namespace linkwright
