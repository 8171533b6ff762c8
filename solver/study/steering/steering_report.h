// SPDX-License-Identifier: MIT
// The steering of a standing vehicle: what travel and roll steer with the steering wheel held, the
// track bar against the drag link, lock to lock, and what centres an axle.
#pragma once

#include "solver/study/adjust/lengthen.h"
#include "solver/study/curves/motions.h"
#include "solver/study/curves/sweep.h"

namespace linkwright {

// A track bar beside the drag link, at rest, seen from in front.
struct BarMatch {
  std::string bar;
  size_t link;                     // index into Axle::links
  double bar_slope, drag_slope;    // rising toward the left + [rad]
  double bar_length, drag_length;  // in space [m]
  double apart;                    // between both lines in space [rad]
  bool
      same_hand;  // both have their frame end on the same side of the axle end: else the arcs cross
};

// A track bar put elsewhere, and what that does.
enum class BarMoveKind {
  kAsIs,
  kFrameEndToMatch,  // frame end so that it is parallel to the drag link and as long, from in front
  kAxleEndToMatch,   // the same by its axle end
  kFrameEndNoSteer,  // frame end straight up or down so that travel steers nothing at rest
};

struct BarMove {
  BarMoveKind kind;
  Eigen::Vector3d p_C;  // the end that moves, as it would be in the measured stance, in C [m]
  Eigen::Vector3d by;   // from where it is [m]
  double length;        // of the bar, so that the axle rests where it did [m]
  double steer_rate;    // at rest [rad/m]
  double steer_most;    // greatest steer over the travel, no sign [rad]
  double lateral_most;  // greatest sideways motion over the travel, no sign [m]
};

// An axle beside the centreline, and the link that would put it there.
struct SidewaysCure {
  size_t axle;
  double offset;                       // of the housing centre at rest, left + [m]
  std::optional<LinkSet> bar;          // absent: no link lies across
  std::optional<double> most;          // by which a shop can change it [m]
  std::optional<double> by;            // + longer [m]; absent: none within `most` does it
  std::optional<double> drag_link_by;  // how much the drag link then has to follow for the wheels
                                       // to point as measured with the steering wheel held [m]
};

// One step from lock to lock at rest.
struct HandRow {
  double left, right;            // steer [rad]
  double difference;             // inner less outer [rad]
  std::optional<double> wanted;  // by Ackermann [rad]; absent straight ahead and without wheelbase
};

struct SteeredAxle {
  size_t axle;
  bool tie_rod;  // absent in the file: both wheels steer alike
  Sweep travel;  // bounce, of this axle alone as the next two
  MotionSweep roll, hand;
  double kingpin_spacing;  // at the height of the wheel centres [m]
  std::vector<HandRow> lock;
  std::optional<BarMatch> match;  // absent: no link lies across
  std::vector<BarMove> moves;
};

struct SteeringReport {
  std::vector<SteeredAxle> axles;      // those with a drag link
  std::vector<SidewaysCure> sideways;  // of every axle that is there
};

//   walks      from `standing`, which is under `load`; null: geometry only
//   step       between rows of travel [m]
//   cures      seek what would mend; without, only what is pointed at is found
//   errors     ModelError as PrepareKnuckle. source: docs/theory.md (65), (67) to (69)
[[nodiscard]] SteeringReport ReportSteering(const Walks& walks, const Standing& standing,
                                            const Load* load, double step, bool cures = true);

}  // namespace linkwright
