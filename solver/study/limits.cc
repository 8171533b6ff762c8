// SPDX-License-Identifier: MIT
#include "solver/study/limits.h"

#include <algorithm>
#include <cmath>

#include "solver/study/paths.h"

namespace linkwright {
namespace {

constexpr double kTravelStep = 0.005;              // [m] no member's end hides in it
constexpr double kCrossStep = 0.5 * M_PI / 180.0;  // [rad]
constexpr double kFound = 1e-11;                   // [m, rad] of the margin itself
constexpr double kLinksFound = 1e-10;              // [m, rad] bisection stops, as in walk.cc

bool IsCrossed(LimitMotion motion) {
  return motion == LimitMotion::kCrossUp || motion == LimitMotion::kCrossDown;
}

bool GoesUp(LimitMotion motion) {
  return motion == LimitMotion::kBump || motion == LimitMotion::kCrossUp;
}

// An axle on its way, held up by nothing but its links.
struct Way {
  const Rig* rig;
  size_t axle;
  const AxlePath* path;
  LimitMotion motion;

  [[nodiscard]] PoseSolution To(const HousingMotion& from, double s) const {
    const AxlePlace place = path->place(s, axle);
    return MovePose(rig->axles[axle].frame, from, place.z, place.roll);
  }
  [[nodiscard]] HousingMotion MotionAt(const Pose& pose) const {
    return EvaluateMotion(rig->axles[axle].frame, pose);
  }
  [[nodiscard]] std::vector<TravelMargin> Margins(const Pose& pose) const {
    const AxleFrame& frame = rig->axles[axle].frame;
    const Eigen::Isometry3d X_CA = Transform(pose);
    std::vector<TravelMargin> all = TravelMargins(rig->vehicle->axles[axle], frame, X_CA);
    for (TravelMargin& margin : WatchedMargins(*rig->vehicle, axle, frame, X_CA)) {
      all.push_back(std::move(margin));
    }
    return all;
  }
  [[nodiscard]] double WheelTravel(double s) const {
    if (!IsCrossed(motion)) return s;
    return 0.5 * rig->axles[axle].frame.track * std::sin(std::abs(s));
  }
};

// What is left of one member's end; absent where it cannot be told (a knuckle out of reach).
std::optional<double> LeftOf(const std::vector<TravelMargin>& margins, const RunOut& wanted) {
  for (const TravelMargin& margin : margins) {
    if (margin.end == wanted.end && margin.member == wanted.member) return margin.left;
  }
  return std::nullopt;
}

struct Step {
  double s;
  HousingMotion motion;
  std::vector<TravelMargin> margins;
};

// The parameter between two steps where a margin reaches -kEndTolerance, as in a sweep: by regula
// falsi, halving the weight of an end that stays (Illinois), and by halves where the margin cannot
// be told.
double FindZero(const Way& way, const Step& from, const Step& to, const RunOut& what) {
  double a = from.s, b = to.s;
  double fa = *LeftOf(from.margins, what) + kEndTolerance;
  double fb = *LeftOf(to.margins, what) + kEndTolerance;
  if (fa <= 0.0) return a;
  for (int i = 0; i < 100; ++i) {
    const double s = (a * fb - b * fa) / (fb - fa);
    const PoseSolution moved = way.To(from.motion, s);
    const auto left = LeftOf(way.Margins(moved.pose), what);
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

// Marks what runs out between two steps. What is past its end in the stance already runs out there
// and then, unless this way leads out of it.
void MarkRunOuts(const Way& way, const Step& from, const Step& to, std::vector<RunOut>& what) {
  for (RunOut& run_out : what) {
    if (run_out.at) continue;
    const auto before = LeftOf(from.margins, run_out), now = LeftOf(to.margins, run_out);
    if (!before || !now || *now >= -kEndTolerance) continue;
    if (*before >= -kEndTolerance) {
      run_out.at = FindZero(way, from, to, run_out);
    } else if (from.s == 0.0 && *now <= *before) {
      run_out.at = 0.0;
    }
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

Step StartStep(const Way& way) {
  const RigAxle& prepared = way.rig->axles[way.axle];
  const Pose pose = way.To(prepared.measured, 0.0).pose;
  return {.s = 0.0, .motion = way.MotionAt(pose), .margins = way.Margins(pose)};
}

std::vector<RunOut> FindRunOuts(const Way& way) {
  Step here = StartStep(way);
  std::vector<RunOut> what;
  for (const TravelMargin& margin : here.margins) {
    what.push_back({.end = margin.end,
                    .member = margin.member,
                    .event = margin.event,
                    .at_rest = margin.left,
                    .left = std::nullopt,
                    .at = std::nullopt,
                    .wheel_travel = std::nullopt});
  }
  const bool crossed = IsCrossed(way.motion);
  const double sign = GoesUp(way.motion) ? 1.0 : -1.0;
  const double step = sign * (crossed ? kCrossStep : kTravelStep);
  const int count =
      static_cast<int>(std::lround((crossed ? kFarthestCross : kFarthestTravel) / std::abs(step)));
  for (int i = 1; i <= count; ++i) {
    const double s = i * step;
    const PoseSolution moved = way.To(here.motion, s);
    if (moved.status != SolveStatus::kConverged) {
      what.push_back(FindLinksEnd(way, here, s, moved));
      break;
    }
    Step next{.s = s, .motion = way.MotionAt(moved.pose), .margins = way.Margins(moved.pose)};
    MarkRunOuts(way, here, next, what);
    here = std::move(next);
  }
  for (RunOut& run_out : what) {
    if (run_out.at) run_out.wheel_travel = way.WheelTravel(*run_out.at);
  }
  std::stable_sort(what.begin(), what.end(), [](const RunOut& a, const RunOut& b) {
    if (!a.at || !b.at) return a.at.has_value() && !b.at.has_value();
    return std::abs(*a.at) < std::abs(*b.at);
  });
  return what;
}

AxleLimit LimitOf(const Way& way) {
  AxleLimit limit{.axle = way.axle,
                  .motion = way.motion,
                  .ended_by = std::nullopt,
                  .parameter = IsCrossed(way.motion) ? kFarthestCross : kFarthestTravel,
                  .wheel_travel = 0.0,
                  .run_outs = FindRunOuts(way)};
  if (!GoesUp(way.motion)) limit.parameter = -limit.parameter;
  for (size_t i = 0; i < limit.run_outs.size() && !limit.ended_by; ++i) {
    const RunOut& run_out = limit.run_outs[i];
    if (!run_out.at || run_out.event) continue;
    limit.ended_by = i;
    limit.parameter = *run_out.at;
  }
  limit.wheel_travel = way.WheelTravel(limit.parameter);
  return limit;
}

// What each has left at a place that the links reach.
void FillLeft(const Way& way, double s, std::vector<RunOut>& what) {
  const PoseSolution moved = way.To(StartStep(way).motion, s);
  if (moved.status != SolveStatus::kConverged) return;
  const std::vector<TravelMargin> margins = way.Margins(moved.pose);
  for (RunOut& run_out : what) run_out.left = LeftOf(margins, run_out);
}

CrossedLimit CrossedOf(const Rig& rig, const AxlePath& path, LimitMotion motion) {
  const Way front{.rig = &rig, .axle = 0, .path = &path, .motion = motion};
  const Way rear{.rig = &rig, .axle = 1, .path = &path, .motion = motion};
  CrossedLimit crossed{.angle = 0.0,
                       .first = std::nullopt,
                       .wheel_travel = {0.0, 0.0},
                       .diagonal_travel = 0.0,
                       .axles = {LimitOf(front), LimitOf(rear)}};
  const bool front_first =
      std::abs(crossed.axles[0].parameter) <= std::abs(crossed.axles[1].parameter);
  crossed.angle = crossed.axles[front_first ? 0 : 1].parameter;
  for (size_t i : {size_t{1}, size_t{0}}) {
    if (crossed.axles[i].ended_by && crossed.axles[i].parameter == crossed.angle) crossed.first = i;
  }
  std::array<Pose, 2> pose;
  for (const Way& way : {front, rear}) {
    crossed.wheel_travel[way.axle] = way.WheelTravel(crossed.angle);
    FillLeft(way, crossed.angle, crossed.axles[way.axle].run_outs);
    pose[way.axle] = way.To(StartStep(way).motion, crossed.angle).pose;
  }
  crossed.diagonal_travel = DiagonalTravel(rig, pose);
  return crossed;
}

}  // namespace

LimitsReport FindLimits(const Rig& rig, const Stance* stance) {
  const std::array<double, 2> start = StartOf(rig, stance);
  const AxlePath bounce = BouncePath(rig, start);
  const AxlePath crossed =
      MotionPath(rig, {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}}, start);
  LimitsReport report;
  for (size_t axle = 0; axle < 2; ++axle) {
    for (size_t i = 0; i < 2; ++i) {
      const Way way{.rig = &rig,
                    .axle = axle,
                    .path = &bounce,
                    .motion = i == 0 ? LimitMotion::kBump : LimitMotion::kDroop};
      report.bounce[axle][i] = LimitOf(way);
      FillLeft(way, report.bounce[axle][i].parameter, report.bounce[axle][i].run_outs);
    }
  }
  report.crossed = {CrossedOf(rig, crossed, LimitMotion::kCrossUp),
                    CrossedOf(rig, crossed, LimitMotion::kCrossDown)};
  return report;
}

}  // namespace linkwright
