// SPDX-License-Identifier: MIT
// One axle walked along a motion, held up by nothing but its links: what runs out on the way, and
// where.
#pragma once

#include "solver/geometry/travel_limits.h"
#include "solver/study/walk.h"

namespace linkwright {

// One thing that may run out on the way.
//   left   what is left of it where the travel ends, in its own measure [m]; of a joint [rad];
//          below 0: past its end. Absent for links that line up, which have no measure of their
//          own, and where nothing in the file ends the travel
//   at     the motion's parameter at which it runs out [m] or [rad]; absent where it lasts as far
//          as the axle was walked
struct RunOut {
  TravelEnd end;
  std::string member;
  bool event;  // reported, but no end of travel
  std::optional<double> at_rest, left;
  std::optional<double> at;
  std::optional<double> wheel_travel;  // at `at`: of the wheel in bounce; crossed, of the one that
                                       // rises while the other falls as far [m]
};

// How far an axle is walked and what is watched.
struct WalkRequest {
  double far;             // parameter walked to, its sign the way [m] or [rad]
  double step;            // above 0; between two steps a margin bends no more than once
  bool tires = true;      // the tyres in their openings too
  bool to_first = false;  // no farther than the first end
};

constexpr double kTravelStep = 0.005;                 // [m]
constexpr double kAngleStep = 0.5 * M_PI / 180.0;     // [rad]
constexpr double kFarthestTravel = 0.6;               // [m] no axle on the road goes as far
constexpr double kFarthestAngle = 40.0 * M_PI / 180;  // [rad]
constexpr double kRealTravel = 0.3;                   // [m] links that line up beyond end nothing
constexpr double kRealAngle = 25.0 * M_PI / 180;      // [rad] the same

// Everything that may end an axle's travel, at a pose: TravelMargins and WatchedMargins.
[[nodiscard]] std::vector<TravelMargin> AllMargins(const Rig& rig, size_t axle, const Pose& pose,
                                                   bool tires);

// What runs out between the stance and `far`, those with `at` first, the soonest first; `left` and
// `wheel_travel` empty. The first zero of each margin, to 1e-11 of its own measure, also of one
// that dips below 0 and recovers within a step.
//   errors   ModelError as PrepareKnuckle. source: docs/theory.md (70), (71)
[[nodiscard]] std::vector<RunOut> FindRunOuts(const Rig& rig, size_t axle, const AxlePath& path,
                                              const WalkRequest& request);

// The first that ends travel. Absent: nothing in the file does, which is also said of links that
// line up (or a drag link that reaches no farther) beyond `real` and of nothing before that.
[[nodiscard]] std::optional<size_t> FirstEnd(const std::vector<RunOut>& run_outs, double real);

// "damper left is fully open", as Describe; of links in fewer words.
[[nodiscard]] std::string DescribeEnd(const RunOut& run_out);

// What is left of one member's end; absent where it cannot be told (a knuckle out of reach).
[[nodiscard]] std::optional<double> LeftOf(const std::vector<TravelMargin>& margins,
                                           const RunOut& wanted);

// An axle's pose at a parameter of a motion, from its place in the stance.
[[nodiscard]] PoseSolution PoseOn(const Rig& rig, size_t axle, const AxlePath& path,
                                  double parameter);

}  // namespace linkwright
