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
  // More roads to the same places, as read.
  std::optional<double> eyes_new;           // eye to eye, straight, when new [m]
  std::optional<double> lean_now;           // of the shackle from upright, eye end rearward + [rad]
  std::optional<double> bolts_apart;        // fixed eye to shackle's pivot, straight [m]
  std::optional<Eigen::Vector2d> p_DW_now;  // wheel centre as it stands now [x, z], in D [m]
  std::optional<Eigen::Vector2d> p_BW_now;  // the same from the opening's centre [ahead, up] [m]
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

// One sigma of each kind of reading. None has a standard behind it: common practice.
struct LeafTolerances {
  double tape;        // over a wheelbase or between two openings [m]
  double rule;        // tape or rule over a part or a spring [m]
  double plumb;       // each coordinate of a point plumbed to the frame's marks or the opening [m]
  double camber;      // string and rule, as it stands now [m]
  double camber_new;  // from a sheet, or from a spring that has not sagged [m]
  double angle;       // finder on a shackle [rad]
  double maker;       // length printed by the maker [m]
  double centred;     // wheel when new off its opening's centre, fore and aft: assumed [m]
  double unmoved;     // what an axle without a spring has moved: assumed [m]
};

struct LeafOriginal {
  std::array<std::optional<LeafSpring>, 2> axles;  // front, rear; at least one
  std::optional<double> wheelbase_now;             // hub to hub, as it stands now [m]
  std::optional<double> wheelbase_design;          // the same when new, as the maker gave it [m]
  std::optional<Eigen::Vector2d> p_CD;  // old datum in this file's chassis axes, the body where it
                                        // is wanted, both frames level to each other [m]
  LeafAims aims = {};
  LeafTolerances tolerances = {};
};

}  // namespace linkwright
