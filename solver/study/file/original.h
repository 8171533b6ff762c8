// SPDX-License-Identifier: MIT
// Where the axles of a leaf-sprung vehicle sat when it was new and where they sit now.
#pragma once

#include <vector>

#include "solver/geometry/leaf.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// The answer again for another camber when new.
struct CamberGuess {
  double camber_new;                // [m]
  Eigen::Vector2d moved;            // since new [x, z], in D [m]
  Eigen::Vector2d p_DW;             // wheel centre when new, in D [m]
  std::optional<double> wheelbase;  // design wheelbase then, as DesignWheelbase has it [m]
};

struct LeafAxle {
  int axle;        // index into Vehicle::axles
  LeafPose fresh;  // when new
  LeafPose now;
  Eigen::Vector2d moved;             // of the wheel centre since new [x, z], in D [m]
  std::optional<double> link_moved;  // the same forward, by the 3/4 link; absent: it cannot reach
  std::vector<CamberGuess> guesses;  // rising camber when new, those that the spring can take
  std::optional<Eigen::Vector2d> off_opening;  // wheel when new against the opening as measured on
                                               // the old body [x, z] [m]; absent: not measured
  std::optional<double> camber_centred;  // camber when new with the wheel then under the opening's
                                         // centre [m]; absent: not measured, or none does it
};

// Distance between the wheel centres in side view. `along` is along the frame's x; `centers` is
// straight, which is what a tape from hub to hub reads and, with both tyres equally high, the
// wheelbase on the floor. Absent: not known from what is given.
struct LeafWheelbase {
  std::optional<double> along;    // [m]
  std::optional<double> centers;  // [m]
};

struct OriginalReport {
  std::vector<LeafAxle> axles;
  LeafWheelbase fresh;  // both springs given
  LeafWheelbase now;    // the same
  double change;        // now less new, along the frame [m]; an axle not given has not moved
  std::optional<double> differs;        // worked out now less measured, hub to hub [m]
  std::optional<double> from_measured;  // measured now less what the axles moved [m]
  std::optional<double> spacing;        // of the file's openings, along x of C [m]
};

// The design wheelbase to hold others against: from the points where both springs are given, else
// from the wheelbase as measured; nothing where neither is there.
[[nodiscard]] std::optional<double> DesignWheelbase(const OriginalReport& report);

// Works out both poses of each spring.
//   camber_step  between the guesses of the camber when new [m]
//   errors       ModelError where a camber is more than the leaf has or a shackle cannot reach
//   source       docs/theory.md eq. (115), (116), (118), (119)
[[nodiscard]] OriginalReport ReportOriginal(const Vehicle& vehicle, double camber_step);

}  // namespace linkwright
