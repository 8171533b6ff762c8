// SPDX-License-Identifier: MIT
#include "solver/numeric/decompositions.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <Eigen/SVD>

namespace linkwright {

SingularValues SingularValuesOf(const Eigen::MatrixXd& A) {
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(A, Eigen::ComputeThinU | Eigen::ComputeFullV);
  return {svd.matrixU(), svd.matrixV(), svd.singularValues()};
}

Eigen::MatrixXd KernelOf(const Eigen::MatrixXd& A) { return A.fullPivLu().kernel(); }

Eigen::VectorXd SolveSquare(const Eigen::MatrixXd& A, const Eigen::VectorXd& b) {
  return A.fullPivLu().solve(b);
}

bool IsPositiveDefinite(const Eigen::MatrixXd& symmetric) {
  return symmetric.llt().info() == Eigen::Success;
}

double DeterminantOf(const Eigen::MatrixXd& A) { return A.determinant(); }

SymmetricModes SymmetricModesOf(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(K, M);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

ComplexModes ComplexModesOf(const Eigen::MatrixXd& A) {
  const Eigen::EigenSolver<Eigen::MatrixXd> solver(A);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

Eigen::Quaterniond ShortestTurn(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
  return Eigen::Quaterniond::FromTwoVectors(from, to);
}

}  // namespace linkwright
