// SPDX-License-Identifier: MIT
// What each link carries: the balance of one housing under its coils, stops, weight and tyres.
#pragma once

#include "solver/rest/rig.h"

namespace linkwright {

struct HousingBalance {
  std::vector<double> link_force;     // tension + [N], in the order of AxleFrame::links
  std::array<double, 2> wheel_force;  // along `up` at the wheel centres, left and right [N]
};

// Solves the six balances of force and moment on a housing for its link forces and both wheels'
// forces. Wheels roll freely and slide freely sideways. More than four links share by their rates,
// on top of what they do to one another.
//   axle, prepared   with unsprung mass
//   up_C             the floor's normal, in C (unit)
//   source           docs/theory.md (37)
[[nodiscard]] HousingBalance BalanceHousing(const Axle& axle, const RigAxle& prepared,
                                            const HousingMotion& motion,
                                            const Eigen::Vector3d& up_C);

}  // namespace linkwright
