// SPDX-License-Identifier: MIT
#include "solver/rest/link_loads.h"

#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/numeric/dual.h"
#include "solver/pose/link_equations.h"
#include "solver/rest/housing_work.h"

namespace linkwright {
namespace {

using Six = Eigen::Matrix<double, 6, 1>;

Six ToSix(const std::array<double, 6>& values) { return Six(values.data()); }

}  // namespace

// Unknowns: the small give of the four pose unknowns, whose stretch of the links is their force
// over their rate, and the two wheel forces.
HousingBalance BalanceHousing(const Axle& axle, const RigAxle& prepared,
                              const HousingMotion& motion, const Eigen::Vector3d& up_C) {
  const AxleFrame& frame = prepared.frame;
  const std::array<double, 6> at = CoordinatesOf(motion.pose);
  HousingWork<double> loads(at);
  AddLoads(axle, prepared, -axle.unsprung->mass * kStandardGravity * up_C, loads);
  Six b = ToSix(loads.work);
  const size_t n = frame.links.size();
  std::vector<double> stretch;
  Eigen::Matrix<double, 6, Eigen::Dynamic> pull(6, n);
  for (const Dual<double, 6>& each : StretchesAt(frame, Variables(at))) {
    pull.col(static_cast<Eigen::Index>(stretch.size())) = ToSix(each.d);
    stretch.push_back(each.v);
  }
  const Eigen::MatrixXd stiffness = LinkStiffness(frame, stretch);
  Eigen::Matrix<double, 6, 6> A;
  A.leftCols<4>() = pull * stiffness * pull.topRows<4>().transpose();
  for (size_t i = 0; i < motion.link_forces.size(); ++i) {
    b -= motion.link_forces[i] * pull.col(static_cast<Eigen::Index>(i));
  }
  for (size_t side = 0; side < 2; ++side) {
    HousingWork<double> wheel(at);
    wheel.Add(ConstantVector<double>(up_C), WheelCentre(frame, side));
    A.col(4 + static_cast<Eigen::Index>(side)) = -ToSix(wheel.work);
  }
  const Six x = SolveSquare(A, b);
  const Eigen::VectorXd shared = stiffness * (pull.topRows<4>().transpose() * x.head<4>());
  HousingBalance balance{.link_force = {shared.begin(), shared.end()}, .wheel_force = {x[4], x[5]}};
  for (size_t i = 0; i < motion.link_forces.size(); ++i) {
    balance.link_force[i] += motion.link_forces[i];
  }
  return balance;
}

}  // namespace linkwright
