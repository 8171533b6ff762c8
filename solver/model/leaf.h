// SPDX-License-Identifier: MIT
// The leaf springs of the vehicle a body came from. Side view only, in the old frame's own chassis
// axes D: origin at the file's old datum, x forward, z up. Plain data, SI units (m).
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>

namespace linkwright {

// One axle's main leaf, its two anchors on the frame, and how far it was bent then and is now.
// Camber: height of the line through both eyes' centres over the middle of the main leaf's
// thickness at the centre bolt, + with the eyes above, the vehicle standing on its wheels.
struct LeafSpring {
  bool shackle_behind = true;      // the shackled end is the rear one
  Eigen::Vector2d p_DF{0.0, 0.0};  // centre of the fixed eye [x, z], in D [m]
  Eigen::Vector2d p_DS{0.0, 0.0};  // centre of the shackle's pivot on the frame [x, z], in D [m]
  double shackle = 0.0;            // pivot to eye, centre to centre [m]
  bool hangs = true;               // the eye is below the line from fixed eye to pivot
  double arc_fixed = 0.0;          // along the leaf, fixed eye to centre bolt [m]
  double arc_shackled = 0.0;       // along the leaf, centre bolt to shackled eye [m]
  double clamped = 0.0;            // length held flat, half of it on either side of the bolt [m]
  double eye_up = 0.0;             // eyes' centres over the middle of the leaf's thickness [m]
  double camber_new = 0.0;         // when the vehicle was new [m]
  double camber_now = 0.0;         // as it stands now [m]
  bool over_axle = true;           // the leaf lies over the axle
  double to_wheel = 0.0;           // leaf to wheel centre, square to the leaf, not negative [m]
  std::optional<double> eyes_now;  // eye to eye, straight, as it stands now: a check [m]
  std::optional<Eigen::Vector2d> p_DB;  // centre of the body's wheel opening [x, z], in D [m]
};

// What is pointed at. None has a standard behind it; the first two are the trade's quarter inch.
struct LeafAims {
  double off_centre;        // wheel against opening [m]
  double spacing;           // openings against design wheelbase [m]
  double eyes_differ;       // eye to eye, worked out against measured [m]
  double wheelbase_differ;  // the same for the wheelbase [m]
  double swing_least;       // shackle against the line of the eyes [rad]: nearer to it
                            // a small error of camber swings the shackle far
};

struct LeafOriginal {
  std::array<std::optional<LeafSpring>, 2> axles;  // front, rear; at least one
  std::optional<double> wheelbase_now;             // hub to hub, as it stands now [m]
  std::optional<Eigen::Vector2d> p_CD;  // old datum in this file's chassis axes, the body where it
                                        // is wanted, both frames level to each other [m]
  LeafAims aims = {};
};

}  // namespace linkwright
