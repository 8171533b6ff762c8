// SPDX-License-Identifier: MIT
// What `check`, `limits` and `openings` hold a vehicle against; every one can be set in the file.
// Sources beside their keys in io/read/format_limits.cc, where the defaults are too.
#pragma once

#include <optional>

namespace linkwright {

constexpr double kAimDegree = 3.14159265358979323846 / 180.0;  // [rad]

struct Aims {
  double coil_preload = 0.0254 / 4.0;   // left in a coil at full droop [m]
  double coil_gap = 0.0254 / 4.0;       // left before a coil is solid at full bump [m]
  double stop_crush = 0.25;             // how far a stop's curve reaches, of its free length [-]
  double height_change = 0.0254 / 4.0;  // a wheel in its opening at rest against as measured [m]
  double tire_squash = 0.01;      // unloaded radius less measured hub height, of the radius [-]
  double mirror = 0.0254 / 16.0;  // left members and right ones [m]
  double triangulation =
      40.0 * kAimDegree;  // between two arms that alone hold an axle sideways, from above [rad]
  double pitch = 3.0 * kAimDegree;        // of a housing over its travel [rad]
  double link_slope = 12.0 * kAimDegree;  // of a fore-and-aft link at rest, from the side [rad]
  double roll_steer = 0.10;               // either way [rad/rad]
  double frequency = 1.8;                 // ride frequency at rest [Hz]
  // Ride: the linear model's damping ratio of bounce, pitch and roll [-]; rear ride frequency over
  // front, for a flat ride [-]; wheel hop [Hz].
  double damping_least = 0.20, damping_most = 0.40;
  double flat_ride_least = 1.10, flat_ride_most = 1.20;
  double hop_least = 8.0, hop_most = 14.0;
  double tire_grip = 0.8 * 9.80665;  // sideways acceleration that road tyres hold [m/s2]
  double side_to_side = 0.012;       // one axle's wheel travels at rest, left against right [m]
  double bump_left = 2.0 * 0.0254;   // wheel travel left at rest before the end of bump [m]
  double scales = 0.03;              // coils against scales [-]
  double hub_height = 0.012;         // measured against what the tyre holds [m]
  double gap = 0.0254;               // between a point of the chassis and one of the axle [m]
  std::optional<double> link_force = {};  // from links fighting one another at crossed extremes [N]
  // Of `limits` and `openings` alone:
  double damper_reserve = 0.0254 / 2.0;     // left in a damper where stops end travel [m]
  double damper_left = 2.0 * 0.0254;        // left in a damper either way at rest [m]
  double slip_at_bump = 0.75 * 0.0254;      // left before a spline bottoms at full bump [m]
  double slip_at_droop = 1.5 * 0.0254;      // left engaged in a spline at full droop [m]
  double joint_reserve = 2.0 * kAimDegree;  // left in a joint where travel ends [rad]
  double tire_clearance = 0.025;            // a tyre to its lip or panel [m]
  double wheel_off_center = 0.0254 / 4.0;   // a hub in its opening at rest, either way [m]
};

}  // namespace linkwright
