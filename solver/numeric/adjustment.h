// SPDX-License-Identifier: MIT
// Readings that are more than enough, weighed against each other: weighted least squares about the
// best place of the unknowns, what it leaves of each reading and how sure it is.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>

namespace linkwright {

// What n unknowns make of m readings; nothing where they cannot be.
using ReadingModel = std::function<std::optional<Eigen::VectorXd>(const Eigen::VectorXd& unknowns)>;

enum class AdjustStatus {
  kConverged,     // the last step moves each reading by less than 1e-6 of its sigma, or of
                  // what a sigma is to the misfit, where that is more
  kUndetermined,  // readings leave some motion of the unknowns free, or there are too few
  kNotSettled,    // readings so far apart that the steps do not end
};

struct Adjustment {
  AdjustStatus status = AdjustStatus::kUndetermined;  // the rest is empty unless it converged
  Eigen::VectorXd unknowns;                           // n
  Eigen::VectorXd adjusted;    // m: what each reading should be by all of them
  Eigen::VectorXd normalised;  // m: read less adjusted over its own sigma; 0 where `checked` is
  Eigen::VectorXd checked;     // m: redundancy number, 0 nothing checks it, 1 the rest tells it
  Eigen::MatrixXd jacobian;    // m x n: of adjusted, each row over its reading's sigma
  Eigen::MatrixXd gain;        // n x m: of the unknowns by each reading, a sigma of it
  double misfit = 0.0;         // sum of squares of read less adjusted over sigma
};

// Below this share nothing checks a reading: a slip of 30 sigma and more would pass a test at 3.
constexpr double kChecked = 0.01;

// The unknowns whose readings lie nearest, each weighed by its own sigma.
//   read, sigmas   m readings and their standard deviations, each positive, independent
//   start          from where the model is searched; it must be possible
//   source         docs/theory.md (119b) to (119d); Gauss-Newton, steps halved until they help
[[nodiscard]] Adjustment Adjust(const ReadingModel& model, const Eigen::VectorXd& read,
                                const Eigen::VectorXd& sigmas, const Eigen::VectorXd& start);

// How a function of the unknowns changes by each, by central differences; nothing where it is not
// possible on both sides. Unknowns are of the order of 1, their functions smooth there.
[[nodiscard]] std::optional<Eigen::MatrixXd> SlopesOf(const ReadingModel& model,
                                                      const Eigen::VectorXd& at);

}  // namespace linkwright
