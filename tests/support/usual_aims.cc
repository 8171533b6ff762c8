// SPDX-License-Identifier: MIT
#include "tests/support/usual_aims.h"

#include <cmath>

namespace linkwright::sample {

Aims UsualAims() {
  constexpr double kInch = 0.0254;          // [m]
  constexpr double kDegree = M_PI / 180.0;  // [rad]
  constexpr double kGravity = 9.80665;      // [m/s2]
  Aims aims{};
  aims.coil_preload = kInch / 4;
  aims.coil_gap = kInch / 4;
  aims.stop_crush = 0.25;
  aims.height_change = kInch / 4;
  aims.tire_squash = 0.01;
  aims.mirror = kInch / 16;
  aims.triangulation = 40 * kDegree;
  aims.pitch = 3 * kDegree;
  aims.link_slope = 12 * kDegree;
  aims.roll_steer = 0.10;
  aims.frequency = 1.8;
  aims.damping_least = 0.20;
  aims.damping_most = 0.40;
  aims.flat_ride_least = 1.10;
  aims.flat_ride_most = 1.20;
  aims.hop_least = 8;
  aims.hop_most = 14;
  aims.tire_grip = 0.8 * kGravity;
  aims.side_to_side = 0.012;
  aims.bump_left = 2 * kInch;
  aims.scales = 0.03;
  aims.hub_height = 0.012;
  aims.tire_radius = 0.003;
  aims.weighed_pair = 0.006;
  aims.arm_misfit = 0.010;
  aims.arm_pitch = 3 * kDegree;
  aims.gap = kInch;
  aims.damper_reserve = kInch / 2;
  aims.damper_dead_length = 0.025;
  aims.damper_left = 2 * kInch;
  aims.slip_at_bump = 0.75 * kInch;
  aims.slip_at_droop = 1.5 * kInch;
  aims.joint_reserve = 2 * kDegree;
  aims.tire_clearance = 0.025;
  aims.wheel_off_center = kInch / 4;
  return aims;
}

}  // namespace linkwright::sample
