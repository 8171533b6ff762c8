// SPDX-License-Identifier: MIT
#include "solver/study/walk/walks.h"

#include <algorithm>

namespace linkwright {
namespace {

// A crossing of the rear axle is its roll the other way round.
AxleWalk Crossed(AxleWalk roll, AxlePath path) {
  roll.path = std::move(path);
  for (WalkPlace& place : roll.places) {
    if (place.parameter != 0.0) place.parameter = -place.parameter;
  }
  for (LimitHit& hit : roll.hits) {
    if (hit.at && *hit.at != 0.0) hit.at = -*hit.at;
  }
  return roll;
}

}  // namespace

Walks::Walks(const Rig& rig_in, const Stance* stance_in, Watch watch_in)
    : rig(&rig_in), stance(stance_in), start(StartOf(rig_in, stance_in)), watch(watch_in) {}

const AxleWalk& Walked(const Walks& walks, size_t axle, MotionKind motion, size_t wheel,
                       double sign, Watch watch, double far) {
  const MotionReach reach = ReachOf(*walks.rig->vehicle, motion);
  watch = std::max(watch, walks.watch);
  far = std::max(far, reach.far);
  const auto key = std::tuple(axle, motion, motion == MotionKind::kOneWheel ? wheel : 0, sign > 0);
  const auto known = walks.kept.find(key);
  if (known != walks.kept.end() && known->second.watch >= watch && known->second.far >= far) {
    return known->second.walk;
  }
  const auto walk = [&]() -> AxleWalk {
    if (motion == MotionKind::kCrossed && axle == kFront) {
      return Walked(walks, axle, MotionKind::kRoll, wheel, sign, watch, far);
    }
    AxlePath path = PathOf(*walks.rig, walks.start, motion, wheel);
    if (motion == MotionKind::kCrossed) {
      return Crossed(Walked(walks, axle, MotionKind::kRoll, wheel, -sign, watch, far),
                     std::move(path));
    }
    return WalkAxle(
        *walks.rig, axle, path,
        {.far = sign * far, .step = reach.step, .watch = watch, .to_first = watch == Watch::kRows});
  };
  return walks.kept.insert_or_assign(key, Walks::Kept{watch, far, walk()}).first->second.walk;
}

HousingMotion StartMotion(const Walks& walks, size_t axle) {
  return StartMotion(*walks.rig, axle, PathOf(*walks.rig, walks.start, MotionKind::kBounce));
}

}  // namespace linkwright
