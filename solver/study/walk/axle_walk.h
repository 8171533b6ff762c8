// SPDX-License-Identifier: MIT
// One axle walked along a motion from the stance, held up by nothing but its links: its poses, what
// runs out on the way and where, and how far the links follow.
#pragma once

#include "solver/study/walk/paths.h"

namespace linkwright {

// One limit met, or not, on the way.
//   at_rest, left   what is left of it in the stance and where the travel ends, in its own measure
//                   [m]; of a joint [rad]; below 0: past its end. Absent for links that line up,
//                   which have no measure of their own; `left` also where nothing ends the travel
//   at              the motion's parameter at which it runs out [m] or [rad]; absent where it lasts
//                   as far as the axle was walked
//   wheel_travel    at `at`: of the wheel in bounce; crossed, of the one that rises while the other
//                   falls as far [m]
struct LimitHit {
  TravelLimit limit;
  std::optional<double> at_rest, left, at, wheel_travel;
};

// A place on the way.
struct WalkPlace {
  double parameter;  // of the motion [m] or [rad]
  HousingMotion motion;
};

struct AxleWalk {
  size_t axle;
  AxlePath path;
  AxleLimits limits;              // those watched
  std::vector<WalkPlace> places;  // the stance first, outward, as far as the links follow
  std::vector<LimitHit> hits;     // those with `at` first, the soonest first, ties by their ids
};

struct WalkRequest {
  double far;   // parameter walked to, its sign the way [m] or [rad]
  double step;  // above 0, as in MotionReach
  Watch watch = Watch::kAll;
  bool to_first = false;  // no farther than the first end that `watch` knows
};

// Walks until `far`, or as far as the links follow, or to the first end. `left` and `wheel_travel`
// of the hits stay absent. The first place at which a limit is past its end, to 1e-11 of its own
// measure, also of one that dips below its end and recovers within a step; what is past its end in
// the stance ends there the way that leads farther past.
//   errors   ModelError as PrepareKnuckle; where the axle cannot stand level at its start
//   source   docs/theory.md (70), (71)
[[nodiscard]] AxleWalk WalkAxle(const Rig& rig, size_t axle, const AxlePath& path,
                                const WalkRequest& request);

// The housing's place in the stance that a motion starts from. errors: as WalkAxle
[[nodiscard]] HousingMotion StartMotion(const Rig& rig, size_t axle, const AxlePath& path);

// The pose at a parameter on the way; absent beyond what the links follow.
[[nodiscard]] std::optional<Pose> PoseOn(const Rig& rig, const AxleWalk& walk, double parameter);

// The hit that ends travel, the one rule: the soonest that ends it for `watch`. None where links
// (or a drag link that reaches no farther) come first beyond `real`: nothing in the file ends it.
//   errors   none; null: nothing ends it
[[nodiscard]] const LimitHit* FirstEnd(const std::vector<LimitHit>& hits, Watch watch, double real);

// "damper left is fully open", as Describe; of links in fewer words.
[[nodiscard]] std::string DescribeShort(const TravelLimit& limit);

}  // namespace linkwright
