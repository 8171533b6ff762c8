// SPDX-License-Identifier: MIT
#include "solver/study/run_outs.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/least.h"

namespace linkwright {
namespace {

constexpr double kFound = 1e-11;       // [m, rad] of the margin itself
constexpr double kLinksFound = 1e-10;  // [m, rad] bisection stops, as in walk.cc

// An axle on its way.
struct Way {
  const Rig* rig;
  size_t axle;
  const AxlePath* path;
  bool tires;

  [[nodiscard]] PoseSolution To(const HousingMotion& from, double s) const {
    const AxlePlace place = path->place(s, axle);
    return MovePose(rig->axles[axle].frame, from, place.z, place.roll);
  }
};

struct Step {
  double s;
  HousingMotion motion;
  std::vector<TravelMargin> margins;
};

Step StepAt(const Way& way, double s, const Pose& pose) {
  return {.s = s,
          .motion = EvaluateMotion(way.rig->axles[way.axle].frame, pose),
          .margins = AllMargins(*way.rig, way.axle, pose, way.tires)};
}

// What is left of one thing a little away from a step; absent where it cannot be told.
std::optional<double> LeftAt(const Way& way, const Step& from, double s, const RunOut& what) {
  const PoseSolution moved = way.To(from.motion, s);
  if (moved.status != SolveStatus::kConverged) return std::nullopt;
  return LeftOf(AllMargins(*way.rig, way.axle, moved.pose, way.tires), what);
}

// The parameter between `a`, where a margin holds, and `b`, where it is past its end, at which it
// reaches -kEndTolerance, as in a sweep: by regula falsi, halving the weight of an end that stays
// (Illinois).
double FindZero(const Way& way, const Step& from, double a, double b, const RunOut& what) {
  const auto left_a = LeftAt(way, from, a, what), left_b = LeftAt(way, from, b, what);
  if (!left_a || !left_b) return a;
  double fa = *left_a + kEndTolerance, fb = *left_b + kEndTolerance;
  if (fa <= 0.0) return a;
  for (int i = 0; i < 100; ++i) {
    const double s = (a * fb - b * fa) / (fb - fa);
    const auto left = LeftAt(way, from, s, what);
    if (!left) return a;
    const double f = *left + kEndTolerance;
    if (std::abs(f) < kFound) return s;
    if (f > 0.0) {
      a = s, fa = f, fb *= 0.5;
    } else {
      b = s, fb = f, fa *= 0.5;
    }
  }
  return a;
}

// The farthest parameter on the way from one step to the next at which a thing can still be told.
double LastTold(const Way& way, const Step& from, double to, const RunOut& what) {
  double in = from.s, out = to;
  while (std::abs(out - in) > kLinksFound) {
    const double middle = 0.5 * (in + out);
    (LeftAt(way, from, middle, what) ? in : out) = middle;
  }
  return in;
}

// Marks what runs out between two steps. What is past its end already runs out there and then,
// unless this way leads out of it.
void MarkEnds(const Way& way, const Step& from, const Step& to, std::vector<RunOut>& what) {
  for (RunOut& run_out : what) {
    if (run_out.at) continue;
    const auto before = LeftOf(from.margins, run_out);
    if (!before) continue;
    double end = to.s;
    auto now = LeftOf(to.margins, run_out);
    if (!now) {
      end = LastTold(way, from, to.s, run_out);
      now = LeftAt(way, from, end, run_out);
    }
    if (!now || *now >= -kEndTolerance) continue;
    if (*before >= -kEndTolerance) {
      run_out.at = FindZero(way, from, from.s, end, run_out);
    } else if (*now <= *before) {
      run_out.at = from.s;
    }
  }
}

// Marks one thing that is past its end somewhere between two parameters at neither of which it is.
void MarkDip(const Way& way, const Step& from, double low, double high, RunOut& what) {
  constexpr double kNowhere = 1e3;       // [m] where it cannot be told it is not near its end
  constexpr double kClosedIn = 1e-6;     // of the interval: 10 nm
  const auto left = [&](double share) {  // forward from low, whichever way that is
    return LeftAt(way, from, low + share * (high - low), what).value_or(kNowhere);
  };
  const LeastPoint least = LeastOnInterval(left, 0.0, 1.0, 3, kClosedIn);
  if (least.value >= -kEndTolerance) return;
  what.at = FindZero(way, from, low, low + least.at * (high - low), what);
}

// Looks for dips about a step at which a margin is lower than at both its neighbours. Between them
// a bend as sharp as the three tell takes it lower by half the bend at most, a corner included; ten
// times that is looked into.
//   low   where the search begins: the step before, or the stance
void MarkDips(const Way& way, const Step& before, const Step& here, const Step& next, double low,
              std::vector<RunOut>& what) {
  constexpr double kLookInto = 10.0;
  for (RunOut& run_out : what) {
    if (run_out.at) continue;
    const auto a = LeftOf(before.margins, run_out), b = LeftOf(here.margins, run_out),
               c = LeftOf(next.margins, run_out);
    if (!a || !b || !c || *b > *a || *b > *c) continue;
    if (*b < -kEndTolerance || *b > kLookInto * (*a + *c - 2.0 * *b)) continue;
    MarkDip(way, here, low, next.s, run_out);
  }
}

// The farthest place the links follow to between a step and a place they do not.
RunOut FindLinksEnd(const Way& way, const Step& from, double out, const PoseSolution& refused) {
  size_t link = refused.blocking_link.value_or(0);
  double in = from.s;
  while (std::abs(out - in) > kLinksFound) {
    const double middle = 0.5 * (in + out);
    const PoseSolution moved = way.To(from.motion, middle);
    if (moved.status == SolveStatus::kConverged) {
      in = middle;
    } else {
      out = middle;
      link = moved.blocking_link.value_or(link);
    }
  }
  return {.end = TravelEnd::kLinksStraight,
          .member = way.rig->axles[way.axle].frame.links[link].name,
          .event = false,
          .at_rest = std::nullopt,
          .left = std::nullopt,
          .at = in,
          .wheel_travel = std::nullopt};
}

std::vector<RunOut> AllOf(const Step& stance) {
  std::vector<RunOut> what;
  for (const TravelMargin& margin : stance.margins) {
    what.push_back({.end = margin.end,
                    .member = margin.member,
                    .event = margin.event,
                    .at_rest = margin.left,
                    .left = std::nullopt,
                    .at = std::nullopt,
                    .wheel_travel = std::nullopt});
  }
  return what;
}

bool EndFound(const std::vector<RunOut>& what) {
  return std::any_of(what.begin(), what.end(),
                     [](const RunOut& each) { return each.at && !each.event; });
}

// A step on the other side of the stance, so that a dip right after it is seen; the stance itself
// where the links do not go there.
Step StepBehind(const Way& way, const Step& stance, double s) {
  const PoseSolution moved = way.To(stance.motion, s);
  return moved.status == SolveStatus::kConverged ? StepAt(way, s, moved.pose) : stance;
}

void WalkOut(const Way& way, const Step& stance, const WalkRequest& request,
             std::vector<RunOut>& what) {
  const double step = std::copysign(request.step, request.far);
  const int count = static_cast<int>(std::lround(std::abs(request.far) / request.step));
  Step here = stance, before = StepBehind(way, stance, -step);
  for (int i = 1; i <= count; ++i) {
    const bool found = EndFound(what);  // once more: a dip is seen from the step after it
    const PoseSolution moved = way.To(here.motion, i * step);
    const bool follows = moved.status == SolveStatus::kConverged;
    std::optional<RunOut> links;
    if (!follows) links = FindLinksEnd(way, here, i * step, moved);
    const double s = follows ? i * step : *links->at;
    const Pose pose = follows ? moved.pose : way.To(here.motion, s).pose;
    const Step next = StepAt(way, s, pose);
    MarkEnds(way, here, next, what);
    MarkDips(way, before, here, next, i == 1 ? 0.0 : before.s, what);
    if (links) what.push_back(*links);
    if (links || (request.to_first && found)) return;
    before = std::move(here);
    here = next;
  }
}

}  // namespace

std::vector<TravelMargin> AllMargins(const Rig& rig, size_t axle, const Pose& pose, bool tires) {
  const AxleFrame& frame = rig.axles[axle].frame;
  const Eigen::Isometry3d X_CA = Transform(pose);
  std::vector<TravelMargin> all = TravelMargins(rig.vehicle->axles[axle], frame, X_CA);
  for (TravelMargin& margin : WatchedMargins(*rig.vehicle, axle, frame, X_CA, tires)) {
    all.push_back(std::move(margin));
  }
  return all;
}

std::optional<double> LeftOf(const std::vector<TravelMargin>& margins, const RunOut& wanted) {
  for (const TravelMargin& margin : margins) {
    if (margin.end == wanted.end && margin.member == wanted.member) return margin.left;
  }
  return std::nullopt;
}

PoseSolution PoseOn(const Rig& rig, size_t axle, const AxlePath& path, double parameter) {
  const AxlePlace place = path.place(parameter, axle);
  return MovePose(rig.axles[axle].frame, StartWalk(rig, axle, path).here, place.z, place.roll);
}

std::vector<RunOut> FindRunOuts(const Rig& rig, size_t axle, const AxlePath& path,
                                const WalkRequest& request) {
  const Way way{.rig = &rig, .axle = axle, .path = &path, .tires = request.tires};
  const Step stance = StepAt(way, 0.0, StartWalk(rig, axle, path).here.pose);
  std::vector<RunOut> what = AllOf(stance);
  WalkOut(way, stance, request, what);
  std::stable_sort(what.begin(), what.end(), [](const RunOut& a, const RunOut& b) {
    if (!a.at || !b.at) return a.at.has_value() && !b.at.has_value();
    return std::abs(*a.at) < std::abs(*b.at);
  });
  return what;
}

std::string DescribeEnd(const RunOut& run_out) {
  if (run_out.end == TravelEnd::kLinksStraight) return "links (" + run_out.member + ") line up";
  return Describe({run_out.end, run_out.member, 0.0});
}

std::optional<size_t> FirstEnd(const std::vector<RunOut>& run_outs, double real) {
  for (size_t i = 0; i < run_outs.size(); ++i) {
    const RunOut& run_out = run_outs[i];
    if (!run_out.at || run_out.event) continue;
    const bool links =
        run_out.end == TravelEnd::kLinksStraight || run_out.end == TravelEnd::kDragLinkOutOfReach;
    if (links && std::abs(*run_out.at) > real) return std::nullopt;
    return i;
  }
  return std::nullopt;
}

}  // namespace linkwright
