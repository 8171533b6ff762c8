// SPDX-License-Identifier: MIT
#include "solver/study/limits.h"

#include <cmath>

#include "solver/study/paths.h"

namespace linkwright {
namespace {

bool IsCrossed(LimitMotion motion) {
  return motion == LimitMotion::kCrossUp || motion == LimitMotion::kCrossDown;
}

bool GoesUp(LimitMotion motion) {
  return motion == LimitMotion::kBump || motion == LimitMotion::kCrossUp;
}

// An axle, a path and which way along it.
struct Way {
  const Rig* rig;
  size_t axle;
  const AxlePath* path;
  LimitMotion motion;

  [[nodiscard]] double WheelTravel(double s) const {
    if (!IsCrossed(motion)) return s;
    return 0.5 * rig->axles[axle].frame.track * std::sin(std::abs(s));
  }
};

AxleLimit LimitOf(const Way& way) {
  const bool crossed = IsCrossed(way.motion);
  const double far =
      (GoesUp(way.motion) ? 1.0 : -1.0) * (crossed ? kFarthestAngle : kFarthestTravel);
  AxleLimit limit{
      .axle = way.axle,
      .motion = way.motion,
      .ended_by = std::nullopt,
      .parameter = far,
      .wheel_travel = 0.0,
      .run_outs = FindRunOuts(*way.rig, way.axle, *way.path,
                              {.far = far, .step = crossed ? kAngleStep : kTravelStep})};
  limit.ended_by = FirstEnd(limit.run_outs, crossed ? kRealAngle : kRealTravel);
  if (limit.ended_by) limit.parameter = *limit.run_outs[*limit.ended_by].at;
  limit.wheel_travel = way.WheelTravel(limit.parameter);
  for (RunOut& run_out : limit.run_outs) {
    if (run_out.at) run_out.wheel_travel = way.WheelTravel(*run_out.at);
  }
  return limit;
}

// What each has left where the travel ends.
void FillLeft(const Way& way, double s, std::vector<RunOut>& what) {
  const PoseSolution moved = PoseOn(*way.rig, way.axle, *way.path, s);
  if (moved.status != SolveStatus::kConverged) return;
  const std::vector<TravelMargin> margins = AllMargins(*way.rig, way.axle, moved.pose, true);
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
    if (crossed.first) FillLeft(way, crossed.angle, crossed.axles[way.axle].run_outs);
    pose[way.axle] = PoseOn(rig, way.axle, path, crossed.angle).pose;
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
      AxleLimit& limit = report.bounce[axle][i] = LimitOf(way);
      if (limit.ended_by) FillLeft(way, limit.parameter, limit.run_outs);
    }
  }
  report.crossed = {CrossedOf(rig, crossed, LimitMotion::kCrossUp),
                    CrossedOf(rig, crossed, LimitMotion::kCrossDown)};
  return report;
}

}  // namespace linkwright
