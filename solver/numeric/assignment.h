// SPDX-License-Identifier: MIT
// Who goes with whom, where every pair has a worth.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace linkwright {

// Gives every row a column of its own so that the sum of the chosen entries is greatest.
//   worth    finite, no more rows than columns
//   returns  the column of each row. Of ways that are worth the same, one of them
//   source   shortest augmenting paths with a price on every row and column, O(rows^2 columns):
//            R. Jonker, A. Volgenant, Computing 38 (1987) 325-340
[[nodiscard]] std::vector<size_t> AssignMost(const Eigen::MatrixXd& worth);

}  // namespace linkwright
