// SPDX-License-Identifier: MIT
// What `check`, `limits` and `openings` hold a vehicle against; every one can be set in the file.
// What holds where the file says nothing stands with its source in io/read/format_aims.cc alone;
// the reader sets every one.
#pragma once

#include <cmath>
#include <optional>

namespace linkwright {

// What instruments show: nothing is told that is past its aim by less.
constexpr double kTapeShows = 1e-3;                  // [m]
constexpr double kFinderShows = 0.1 * M_PI / 180.0;  // [rad] as digital angle finders read

struct Aims {
  double coil_preload;   // left in a coil at full droop [m]
  double coil_gap;       // left before a coil is solid at full bump [m]
  double stop_crush;     // how far a stop's curve reaches, of its free length [-]
  double height_change;  // a wheel in its opening at rest against as measured [m]
  double tire_squash;    // unloaded radius less measured hub height, of the radius [-]
  double mirror;         // left members and right ones [m]
  double triangulation;  // between two arms that alone hold an axle sideways, from above [rad]
  double pitch;          // of a housing over its travel [rad]
  double link_slope;     // of a fore-and-aft link at rest, from the side [rad]
  double roll_steer;     // either way [rad/rad]
  double frequency;      // ride frequency at rest [Hz]
  // Ride: the linear model's damping ratio of bounce, pitch and roll [-]; rear ride frequency over
  // front, for a flat ride [-]; wheel hop [Hz].
  double damping_least, damping_most;
  double flat_ride_least, flat_ride_most;
  double hop_least, hop_most;
  double tire_grip;     // sideways acceleration that road tyres hold [m/s2]
  double side_to_side;  // one axle's wheel travels at rest, left against right [m]
  double bump_left;     // wheel travel left at rest before the end of bump [m]
  double scales;        // coils against scales [-]
  double hub_height;    // measured against what the tyre holds [m]
  double tire_radius;   // nominal against what the scales make of the measured height [m]
  double weighed_pair;  // free lengths of a pair of weighed coils [m]
  double arm_misfit;    // an arm's length against how far its holes are apart [m]
  double arm_pitch;     // of a housing at its measured height, for arms that do not fit [rad]
  double gap;           // between a point of the chassis and one of the axle [m]
  std::optional<double> link_force = {};  // from links fighting one another at crossed extremes [N]
  // Of `limits` and `openings` alone:
  double damper_reserve;      // left in a damper where stops end travel [m]
  double damper_dead_length;  // of a damper beside its stroke: what it has closed [m]
  double damper_left;         // left in a damper either way at rest [m]
  double slip_at_bump;        // left before a spline bottoms at full bump [m]
  double slip_at_droop;       // left engaged in a spline at full droop [m]
  double joint_reserve;       // left in a joint where travel ends [rad]
  double tire_clearance;      // a tyre to its lip or panel [m]
  double wheel_off_center;    // a hub in its opening at rest, either way [m]
};

}  // namespace linkwright
