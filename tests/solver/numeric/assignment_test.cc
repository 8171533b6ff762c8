// SPDX-License-Identifier: MIT
// Against every order there is.
#include "solver/numeric/assignment.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>
#include <set>

namespace linkwright {
namespace {

double SumOf(const Eigen::MatrixXd& worth, const std::vector<size_t>& columns) {
  double sum = 0.0;
  for (size_t row = 0; row < static_cast<size_t>(worth.rows()); ++row) {
    sum += worth(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(columns[row]));
  }
  return sum;
}

double MostOfAllOrders(const Eigen::MatrixXd& worth) {
  std::vector<size_t> order(static_cast<size_t>(worth.cols()));
  std::iota(order.begin(), order.end(), size_t{0});
  double most = SumOf(worth, order);
  while (std::next_permutation(order.begin(), order.end())) {
    most = std::max(most, SumOf(worth, order));
  }
  return most;
}

TEST(AssignMost, IsTheBestOfAllOrders) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-1.0, 1.0);
  std::uniform_int_distribution<int> few(0, 2);  // with many ties
  for (Eigen::Index columns = 1; columns <= 7; ++columns) {
    for (Eigen::Index rows = 0; rows <= columns; ++rows) {
      for (int trial = 0; trial < 10; ++trial) {
        Eigen::MatrixXd worth(rows, columns);
        for (double& entry : worth.reshaped()) entry = trial % 2 == 0 ? any(random) : few(random);
        const std::vector<size_t> chosen = AssignMost(worth);
        ASSERT_EQ(chosen.size(), static_cast<size_t>(rows));
        EXPECT_EQ(std::set<size_t>(chosen.begin(), chosen.end()).size(), chosen.size());
        EXPECT_NEAR(SumOf(worth, chosen), MostOfAllOrders(worth), 1e-14) << worth;
      }
    }
  }
}

// The greatest entry first, which leaves 1 + 0, is not the best: 0.9 + 0.9.
TEST(AssignMost, IsNotGreedy) {
  Eigen::Matrix2d worth;
  worth << 1.0, 0.9, 0.9, 0.0;
  EXPECT_EQ(AssignMost(worth), (std::vector<size_t>{1, 0}));
}

}  // namespace
}  // namespace linkwright
