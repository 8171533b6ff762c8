// SPDX-License-Identifier: MIT
#include "solver/study/travel/limits.h"

#include <cmath>

namespace linkwright {
namespace {

bool IsCrossed(LimitMotion motion) {
  return motion == LimitMotion::kCrossUp || motion == LimitMotion::kCrossDown;
}

bool GoesUp(LimitMotion motion) {
  return motion == LimitMotion::kBump || motion == LimitMotion::kCrossUp;
}

// An axle on its way.
struct Way {
  const Rig* rig;
  std::array<double, 2> start;
  size_t axle;
  LimitMotion motion;

  [[nodiscard]] double WheelTravel(double s) const {
    if (!IsCrossed(motion)) return s;
    return 0.5 * rig->axles[axle].frame.track * std::sin(std::abs(s));
  }
};

// An axle's limit and the walk that found it.
struct WalkedLimit {
  AxleLimit limit;
  AxleWalk walk;
};

WalkedLimit LimitOf(const Way& way) {
  const MotionKind kind = IsCrossed(way.motion) ? MotionKind::kCrossed : MotionKind::kBounce;
  const MotionReach reach = ReachOf(*way.rig->vehicle, kind);
  AxleWalk walk =
      WalkAxle(*way.rig, way.axle, PathOf(*way.rig, way.start, kind),
               {.far = GoesUp(way.motion) ? reach.far : -reach.far, .step = reach.step});
  AxleLimit limit{.axle = way.axle,
                  .motion = way.motion,
                  .ended_by = std::nullopt,
                  .parameter = walk.places.back().parameter,
                  .wheel_travel = 0.0,
                  .hits = walk.hits};
  if (const LimitHit* end = FirstEnd(walk.hits, reach.real)) {
    limit.ended_by = static_cast<size_t>(end - walk.hits.data());
    limit.parameter = *end->at;
  }
  limit.wheel_travel = way.WheelTravel(limit.parameter);
  for (LimitHit& hit : limit.hits) {
    if (hit.at) hit.wheel_travel = way.WheelTravel(*hit.at);
  }
  return {std::move(limit), std::move(walk)};
}

// What each has left where the travel ends.
void FillLeft(const Way& way, const Pose& pose, std::vector<LimitHit>& hits) {
  const AxleLimits limits =
      PrepareLimits(*way.rig->vehicle, way.axle, way.rig->axles[way.axle].frame, Watch::kAll);
  const std::vector<std::optional<double>> left = LeftOfAll(limits, Transform(pose));
  for (LimitHit& hit : hits) {
    for (size_t i = 0; i < left.size(); ++i) {
      if (limits.list[i].id == hit.limit.id) hit.left = left[i];
    }
  }
}

CrossedLimit CrossedOf(const Rig& rig, const std::array<double, 2>& start, LimitMotion motion) {
  const std::array<Way, 2> way{Way{&rig, start, kFront, motion}, Way{&rig, start, kRear, motion}};
  const std::array<WalkedLimit, 2> walked{LimitOf(way[0]), LimitOf(way[1])};
  CrossedLimit crossed{.angle = 0.0,
                       .first = std::nullopt,
                       .wheel_travel = {0.0, 0.0},
                       .diagonal_travel = 0.0,
                       .axles = {walked[0].limit, walked[1].limit}};
  const bool front_first =
      std::abs(crossed.axles[0].parameter) <= std::abs(crossed.axles[1].parameter);
  crossed.angle = crossed.axles[front_first ? 0 : 1].parameter;
  for (size_t i : {size_t{1}, size_t{0}}) {
    if (crossed.axles[i].ended_by && crossed.axles[i].parameter == crossed.angle) crossed.first = i;
  }
  std::array<Pose, 2> pose;
  for (size_t i = 0; i < 2; ++i) {
    crossed.wheel_travel[i] = way[i].WheelTravel(crossed.angle);
    pose[i] = *PoseOn(rig, walked[i].walk, crossed.angle);  // no farther than either was walked
    if (crossed.first) FillLeft(way[i], pose[i], crossed.axles[i].hits);
  }
  crossed.diagonal_travel = DiagonalTravel(rig, pose);
  return crossed;
}

}  // namespace

LimitsReport FindLimits(const Rig& rig, const Stance* stance) {
  const std::array<double, 2> start = StartOf(rig, stance);
  LimitsReport report;
  for (size_t axle = 0; axle < 2; ++axle) {
    for (size_t i = 0; i < 2; ++i) {
      const Way way{&rig, start, axle, i == 0 ? LimitMotion::kBump : LimitMotion::kDroop};
      WalkedLimit walked = LimitOf(way);
      const auto pose = PoseOn(rig, walked.walk, walked.limit.parameter);
      if (walked.limit.ended_by && pose) FillLeft(way, *pose, walked.limit.hits);
      report.bounce[axle][i] = std::move(walked.limit);
    }
  }
  report.crossed = {CrossedOf(rig, start, LimitMotion::kCrossUp),
                    CrossedOf(rig, start, LimitMotion::kCrossDown)};
  return report;
}

}  // namespace linkwright
