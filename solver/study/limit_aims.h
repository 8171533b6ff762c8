// SPDX-License-Identifier: MIT
// What `limits` and `openings` hold their answers against: aims of the trade, each with its source.
#pragma once

#include <numbers>

namespace linkwright {

struct LimitAims {
  double coil_preload = 0.00635;   // at full droop [m] 1/4 in, common practice
  double coil_gap = 0.00635;       // left before solid at full bump [m] 1/4 in, common practice
  double damper_reserve = 0.0127;  // left in a damper where travel ends [m] 1/2 in, common practice
  double damper_at_rest = 0.0508;  // left either way at rest [m] 2 in, street-rod inspection lists
  double bump_at_rest = 0.0508;    // wheel travel left [m] 2 in, street-rod inspection lists
  double slip_at_bump = 0.01905;   // left before bottoming [m] 3/4 in, common practice
  double slip_at_droop = 0.0381;   // left engaged [m] 1 1/2 in, common practice
  double tire_clearance = 0.025;   // to anything [m] 25 mm, British Columbia inspection (quoted)
  double wheel_off_centre = 0.00635;  // in its opening at rest [m] 1/4 in, common practice
  double joint_reserve = 2.0 * std::numbers::pi / 180.0;  // [rad] 2 deg inside, common practice
};

}  // namespace linkwright
