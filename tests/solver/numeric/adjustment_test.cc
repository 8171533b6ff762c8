// SPDX-License-Identifier: MIT
#include "solver/numeric/adjustment.h"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>
#include <random>

#include "tests/support/matchers.h"

namespace linkwright::check {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kTiny = 1e-9;  // slopes by differences are good to 1e-10

VectorXd Of(std::initializer_list<double> values) {
  VectorXd vector(static_cast<Eigen::Index>(values.size()));
  Eigen::Index i = 0;
  for (const double value : values) vector[i++] = value;
  return vector;
}

// By hand: 10 +/- 1 and 16 +/- 2 weigh 1 and 1/4, so (10 + 4)/1.25 = 11.2, sigma 1/sqrt(1.25). They
// are 6 apart, sigma of that sqrt(5).
TEST(Adjust, TwoReadingsOfOneThingAreTheirWeightedMean) {
  const ReadingModel both = [](const VectorXd& x) { return VectorXd(VectorXd::Constant(2, x[0])); };
  const Adjustment fit = Adjust(both, Of({10.0, 16.0}), Of({1.0, 2.0}), Of({0.0}));
  ASSERT_EQ(fit.status, AdjustStatus::kConverged);
  EXPECT_NEAR(fit.unknowns[0], 11.2, kTiny);
  EXPECT_NEAR(fit.gain.row(0).norm(), 1.0 / std::sqrt(1.25), kTiny);
  EXPECT_TRUE(Near(fit.checked, Of({0.2, 0.8}), kTiny));
  EXPECT_TRUE(Near(fit.normalised, Of({-6.0 / std::sqrt(5.0), 6.0 / std::sqrt(5.0)}), kTiny));
  EXPECT_NEAR(fit.misfit, 1.2 * 1.2 + 2.4 * 2.4, kTiny);
}

// Three heights levelled round a loop: the misclosure is shared by the squares of the sigmas.
TEST(Adjust, ALoopSharesWhatItDoesNotClose) {
  const ReadingModel loop = [](const VectorXd& x) { return Of({x[0], x[1] - x[0], -x[1]}); };
  const VectorXd sigmas = Of({1.0, 2.0, 3.0});
  const Adjustment fit = Adjust(loop, Of({5.0, 7.0, -11.3}), sigmas, Of({0.0, 0.0}));
  ASSERT_EQ(fit.status, AdjustStatus::kConverged);
  const VectorXd shares = sigmas.cwiseAbs2() * (0.7 / 14.0);
  EXPECT_TRUE(Near(fit.adjusted, VectorXd(Of({5.0, 7.0, -11.3}) - shares), kTiny));
  EXPECT_TRUE(Near(fit.checked, VectorXd(sigmas.cwiseAbs2() / 14.0), kTiny));
  // All three are the same check seen three times.
  for (const double w : {fit.normalised[0], fit.normalised[1], fit.normalised[2]}) {
    EXPECT_NEAR(w, 0.7 / std::sqrt(14.0), kTiny);
  }
}

// Distances to four marks, the places by normal equations with slopes by hand.
TEST(Adjust, HasTheCovarianceOfTheNormalEquations) {
  MatrixXd marks(4, 2);
  marks << 0.0, 0.0, 3.0, 0.2, 2.8, 2.1, -0.3, 1.7;
  const ReadingModel distances = [&](const VectorXd& x) {
    return VectorXd((marks.rowwise() - x.transpose()).rowwise().norm());
  };
  const VectorXd sigmas = Of({0.01, 0.02, 0.015, 0.03});
  const VectorXd truth = Of({1.1, 0.9});
  const VectorXd read = *distances(truth) + Of({0.012, -0.018, 0.01, 0.02});
  const Adjustment fit = Adjust(distances, read, sigmas, Of({0.5, 0.5}));
  ASSERT_EQ(fit.status, AdjustStatus::kConverged);
  MatrixXd rows(4, 2);
  for (Eigen::Index i = 0; i < 4; ++i) {
    const Eigen::RowVectorXd away = fit.unknowns.transpose() - marks.row(i);
    rows.row(i) = away / away.norm() / sigmas[i];
  }
  const MatrixXd covariance = (rows.transpose() * rows).inverse();
  EXPECT_TRUE(Near(MatrixXd(fit.gain * fit.gain.transpose()), covariance, 1e-12));
  // At the least of the squares they do not fall either way.
  const VectorXd left = (read - fit.adjusted).cwiseQuotient(sigmas);
  EXPECT_TRUE(Near(VectorXd(rows.transpose() * left), Of({0.0, 0.0}), 1e-5));  // [1/m] slopes 1e2
  EXPECT_NEAR(fit.checked.sum(), 2.0, kTiny);  // readings less unknowns
}

TEST(Adjust, SaysWhenReadingsLeaveSomethingFree) {
  const ReadingModel sum = [](const VectorXd& x) { return Of({x[0] + x[1], x[0] + x[1]}); };
  EXPECT_EQ(Adjust(sum, Of({1.0, 2.0}), Of({1.0, 1.0}), Of({0.0, 0.0})).status,
            AdjustStatus::kUndetermined);
  const ReadingModel one = [](const VectorXd& x) { return Of({x[0]}); };
  EXPECT_EQ(Adjust(one, Of({1.0}), Of({1.0}), Of({0.0, 0.0})).status, AdjustStatus::kUndetermined);
}

TEST(Adjust, SaysWhenItsStartCannotBe) {
  const ReadingModel root = [](const VectorXd& x) -> std::optional<VectorXd> {
    if (x[0] < 0.0) return std::nullopt;
    return Of({std::sqrt(x[0])});
  };
  EXPECT_EQ(Adjust(root, Of({1.0}), Of({1.0}), Of({-1.0})).status, AdjustStatus::kNotSettled);
  const Adjustment fit = Adjust(root, Of({1.5}), Of({1.0}), Of({0.01}));
  ASSERT_EQ(fit.status, AdjustStatus::kConverged);
  EXPECT_NEAR(fit.unknowns[0], 2.25, kTiny);
}

TEST(SlopesOf, AreThoseOfACubic) {
  const ReadingModel cubic = [](const VectorXd& x) {
    return Of({x[0] * x[0] * x[0], x[0] * x[1]});
  };
  MatrixXd slopes(2, 2);
  slopes << 3.0 * 1.2 * 1.2, 0.0, -0.7, 1.2;
  EXPECT_TRUE(Near(*SlopesOf(cubic, Of({1.2, -0.7})), slopes, 2e-10));  // step squared, rounding
}

}  // namespace
}  // namespace linkwright::check
