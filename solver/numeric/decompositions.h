// SPDX-License-Identifier: MIT
// Decompositions of small matrices behind one source, for their templates are slow to compile. Not
// for what is solved ten thousand times: a fixed size is faster there.
#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>

namespace linkwright {

// A = U diag(values) V^T of an m x n matrix, k the lesser of both: U m x k, V n x n, values
// falling.
struct SingularValues {
  Eigen::MatrixXd U, V;
  Eigen::VectorXd values;
};
[[nodiscard]] SingularValues SingularValuesOf(const Eigen::MatrixXd& A);

// Columns that A sends to 0; one column of zeros where it sends none there.
[[nodiscard]] Eigen::MatrixXd KernelOf(const Eigen::MatrixXd& A);

// x of A x = b for a square A, by full pivoting: of a singular one the components it tells.
[[nodiscard]] Eigen::VectorXd SolveSquare(const Eigen::MatrixXd& A, const Eigen::VectorXd& b);

[[nodiscard]] bool IsPositiveDefinite(const Eigen::MatrixXd& symmetric);
[[nodiscard]] double DeterminantOf(const Eigen::MatrixXd& A);

// K x = value M x for symmetric K and positive M: values ascending, columns with x^T M x = 1.
struct SymmetricModes {
  Eigen::VectorXd values;
  Eigen::MatrixXd vectors;
};
[[nodiscard]] SymmetricModes SymmetricModesOf(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M);

// A x = value x for any square A.
struct ComplexModes {
  Eigen::VectorXcd values;
  Eigen::MatrixXcd vectors;
};
[[nodiscard]] ComplexModes ComplexModesOf(const Eigen::MatrixXd& A);

// The shortest turn that takes one direction to another; of opposite ones, about any axis across.
[[nodiscard]] Eigen::Quaterniond ShortestTurn(const Eigen::Vector3d& from,
                                              const Eigen::Vector3d& to);

}  // namespace linkwright
