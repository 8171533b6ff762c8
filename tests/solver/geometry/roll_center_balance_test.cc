// SPDX-License-Identifier: MIT
// The roll centre by force balance against the kinematic one.
#include <gtest/gtest.h>

#include <Eigen/LU>

#include "solver/geometry/front_view.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using Wrench = Eigen::Matrix<double, 6, 1>;

Wrench At(const Eigen::Vector3d& p, const Eigen::Vector3d& force) {
  Wrench wrench;
  wrench << force, p.cross(force);
  return wrench;
}

// The floor pushes an axle of four links sideways; coils and their roll moment stay as they are.
// Six balances of the housing give the four link forces, the lift of the links and the moment that
// the two wheels' loads must carry; the side force with that moment passes through the roll centre.
double HeightByForces(const Axle& axle, const Floor& floor) {
  const Eigen::Vector3d centre = 0.5 * (axle.p_CW_l + axle.p_CW_r);
  const Eigen::Vector3d contact = centre - HeightAbove(floor, centre) * floor.n;
  Eigen::Matrix<double, 6, 6> A;
  for (int i = 0; i < 4; ++i) {
    const Span& span = axle.links[static_cast<size_t>(i)].span;
    A.col(i) = At(span.p_CQ, (span.p_CQ - span.p_CP).normalized());
  }
  A.col(4) =
      At(contact, Eigen::Vector3d::UnitZ());  // coils stay: the lift is theirs and the links'
  A.col(5) << Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitX();
  const Wrench forces = A.fullPivLu().solve(-At(contact, Eigen::Vector3d::UnitY()));
  return -forces[5];  // a unit force to the left at height h has the moment -h about the contact
}

TEST(RollCentre, ByForceBalanceIsTheKinematicOne) {
  const Vehicle truck = sample::LevelTruck();
  for (const Axle& axle :
       {sample::TriangulatedRear(), truck.axles[0], truck.axles[1], sample::ThreeLinkTrackBar()}) {
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion motion = EvaluateMotion(frame, frame.measured);
    const Floor floor;  // level, through z = 0
    EXPECT_NEAR(HeightByForces(axle, floor), RollCenterHeight(motion, floor), 1e-10) << "[m]";
  }
}

}  // namespace
}  // namespace linkwright
