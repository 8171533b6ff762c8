// SPDX-License-Identifier: MIT
#include "solver/study/travel/limits.h"

#include <cmath>

namespace linkwright {
namespace {

bool GoesUp(LimitMotion motion) {
  return motion == LimitMotion::kBump || motion == LimitMotion::kCrossUp;
}

double WheelTravel(const Rig& rig, size_t axle, LimitMotion motion, double s) {
  if (!IsCrossed(motion)) return s;
  return WheelTravelCrossed(rig, axle, s);
}

const AxleWalk& WalkOf(const Walks& walks, size_t axle, LimitMotion motion) {
  return Walked(walks, axle, IsCrossed(motion) ? MotionKind::kCrossed : MotionKind::kBounce, 0,
                GoesUp(motion) ? 1.0 : -1.0, Watch::kAll);
}

AxleLimit LimitOf(const Walks& walks, size_t axle, LimitMotion motion) {
  const MotionKind kind = IsCrossed(motion) ? MotionKind::kCrossed : MotionKind::kBounce;
  const double real = ReachOf(*walks.rig->vehicle, kind).real;
  const AxleWalk& walk = WalkOf(walks, axle, motion);
  AxleLimit limit{.axle = axle,
                  .motion = motion,
                  .ended_by = std::nullopt,
                  .parameter = walk.places.back().parameter,
                  .wheel_travel = 0.0,
                  .hits = walk.hits};
  if (const LimitHit* end = FirstEnd(walk.hits, Watch::kAll, real)) {
    limit.ended_by = static_cast<size_t>(end - walk.hits.data());
    limit.parameter = *end->at;
  }
  limit.wheel_travel = WheelTravel(*walks.rig, axle, motion, limit.parameter);
  for (LimitHit& hit : limit.hits) {
    if (hit.at) hit.wheel_travel = WheelTravel(*walks.rig, axle, motion, *hit.at);
  }
  return limit;
}

// What each has left where the travel ends.
void FillLeft(const AxleLimits& limits, const Pose& pose, std::vector<LimitHit>& hits) {
  const Eigen::Isometry3d X_CA = Transform(pose);
  const std::vector<std::optional<double>> left = LeftOfAll(limits, X_CA);
  for (LimitHit& hit : hits) {
    for (size_t i = 0; i < left.size(); ++i) {
      if (limits.list[i].id != hit.limit.id) continue;
      hit.left = left[i] && IsMissed(limits, i, X_CA) ? std::nullopt : left[i];
    }
  }
}

// An axle that is there alone, crossed as far as it goes.
CrossedLimit CrossedAlone(const Walks& walks, size_t axle, LimitMotion motion) {
  CrossedLimit crossed{};
  AxleLimit& limit = crossed.axles[axle] = LimitOf(walks, axle, motion);
  crossed.angle = limit.parameter;
  crossed.wheel_travel[axle] = limit.wheel_travel;
  if (!limit.ended_by) return crossed;
  crossed.first = axle;
  const AxleWalk& walk = WalkOf(walks, axle, motion);
  FillLeft(walk.limits, *PoseOn(*walks.rig, walk, crossed.angle), limit.hits);
  return crossed;
}

CrossedLimit CrossedOf(const Walks& walks, LimitMotion motion) {
  if (const std::optional<size_t>& only = walks.rig->vehicle->only_axle) {
    return CrossedAlone(walks, *only, motion);
  }
  CrossedLimit crossed{.angle = 0.0,
                       .first = std::nullopt,
                       .wheel_travel = {0.0, 0.0},
                       .diagonal_travel = 0.0,
                       .axles = {LimitOf(walks, kFront, motion), LimitOf(walks, kRear, motion)}};
  const bool front_first =
      std::abs(crossed.axles[0].parameter) <= std::abs(crossed.axles[1].parameter);
  crossed.angle = crossed.axles[front_first ? 0 : 1].parameter;
  for (size_t i : {size_t{1}, size_t{0}}) {
    if (crossed.axles[i].ended_by && crossed.axles[i].parameter == crossed.angle) crossed.first = i;
  }
  std::array<Pose, 2> pose;
  for (size_t i = 0; i < 2; ++i) {
    const AxleWalk& walk = WalkOf(walks, i, motion);
    crossed.wheel_travel[i] = WheelTravel(*walks.rig, i, motion, crossed.angle);
    pose[i] = *PoseOn(*walks.rig, walk, crossed.angle);  // no farther than either was walked
    if (crossed.first) FillLeft(walk.limits, pose[i], crossed.axles[i].hits);
  }
  crossed.diagonal_travel = DiagonalTravel(*walks.rig, pose);
  return crossed;
}

}  // namespace

bool IsCrossed(LimitMotion motion) {
  return motion == LimitMotion::kCrossUp || motion == LimitMotion::kCrossDown;
}

double WheelTravelCrossed(const Rig& rig, size_t axle, double angle) {
  return 0.5 * rig.axles[axle].frame.track * std::sin(std::abs(angle));
}

LimitsReport FindLimits(const Walks& walks) {
  LimitsReport report{};
  for (const size_t axle : AxlesOf(*walks.rig->vehicle)) {
    for (size_t i = 0; i < 2; ++i) {
      const LimitMotion motion = i == 0 ? LimitMotion::kBump : LimitMotion::kDroop;
      AxleLimit limit = LimitOf(walks, axle, motion);
      const AxleWalk& walk = WalkOf(walks, axle, motion);
      const auto pose = PoseOn(*walks.rig, walk, limit.parameter);
      if (limit.ended_by && pose) FillLeft(walk.limits, *pose, limit.hits);
      report.bounce[axle][i] = std::move(limit);
    }
  }
  report.crossed = {CrossedOf(walks, LimitMotion::kCrossUp),
                    CrossedOf(walks, LimitMotion::kCrossDown)};
  return report;
}

}  // namespace linkwright
