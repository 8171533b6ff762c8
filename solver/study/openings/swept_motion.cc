// SPDX-License-Identifier: MIT
#include "solver/study/openings/swept_motion.h"

#include <cmath>

namespace linkwright {
namespace {

constexpr int kStepsASide = 24;

MotionKind KindOf(TireMotion motion) {
  switch (motion) {
    case TireMotion::kRoll:
      return MotionKind::kRoll;
    case TireMotion::kCrossed:
      return MotionKind::kCrossed;
    case TireMotion::kOneWheel:
      return MotionKind::kOneWheel;
    default:
      return MotionKind::kBounce;
  }
}

// Where one axle ends, its tyres left out: how deep they would be in is the question here.
std::optional<SweptEnd> OwnEnd(const Walks& walks, size_t axle, TireMotion motion, size_t wheel,
                               double sign) {
  const MotionKind kind = KindOf(motion);
  const AxleWalk& walk = Walked(walks, axle, kind, wheel, sign, Watch::kAllButTires);
  const double real = ReachOf(*walks.rig->vehicle, kind).real;
  const LimitHit* first = FirstEnd(walk.hits, Watch::kAllButTires, real);
  if (first == nullptr) return std::nullopt;
  return SweptEnd{.at = *first->at, .axle = axle, .limit = first->limit};
}

// Both axles end a roll or a crossing, where both are there.
std::optional<SweptEnd> EndOf(const Walks& walks, TireMotion motion, size_t wheel, double sign) {
  const size_t axle = wheel / 2;
  std::optional<SweptEnd> own = OwnEnd(walks, axle, motion, wheel, sign);
  if (motion != TireMotion::kRoll && motion != TireMotion::kCrossed) return own;
  if (!IsThere(*walks.rig->vehicle, 1 - axle)) return own;
  std::optional<SweptEnd> other = OwnEnd(walks, 1 - axle, motion, wheel, sign);
  return !own || (other && std::abs(other->at) < std::abs(own->at)) ? other : own;
}

SweptRange RangeOf(const Walks& walks, TireMotion motion, size_t wheel) {
  SweptRange range{.motion = motion, .low = 0.0, .high = 0.0, .ended_by = {}};
  if (motion == TireMotion::kRest) return range;
  range.ended_by = {EndOf(walks, motion, wheel, -1.0), EndOf(walks, motion, wheel, 1.0)};
  const double unlimited = ReachOf(*walks.rig->vehicle, KindOf(motion)).unlimited;
  range.low = range.ended_by[0] ? range.ended_by[0]->at : -unlimited;
  range.high = range.ended_by[1] ? range.ended_by[1]->at : unlimited;
  return range;
}

// Places of a walk from its start to `end`, both among them.
void AddSamples(const Walks& walks, const AxleWalk& walk, double end, std::vector<WalkPlace>& to) {
  const AxleFrame& frame = walks.rig->axles[walk.axle].frame;
  for (int k = 1; k <= kStepsASide && end != 0.0; ++k) {
    const double s = k < kStepsASide ? end * k / kStepsASide : end;
    if (const auto pose = PoseOn(*walks.rig, walk, s)) {
      to.push_back({s, EvaluateMotion(frame, *pose)});
    }
  }
}

}  // namespace

SweptMotion SweepTireMotion(const Walks& walks, TireMotion motion, size_t wheel) {
  const MotionKind kind = KindOf(motion);
  const auto walk = [&](double sign) -> const AxleWalk& {
    return Walked(walks, wheel / 2, kind, wheel, sign, Watch::kAllButTires);
  };
  SweptMotion swept{.path = PathOf(*walks.rig, walks.start, kind, wheel),
                    .range = RangeOf(walks, motion, wheel),
                    .samples = {}};
  AddSamples(walks, walk(-1.0), swept.range.low, swept.samples);
  std::reverse(swept.samples.begin(), swept.samples.end());
  swept.samples.push_back(walk(1.0).places.front());
  AddSamples(walks, walk(1.0), swept.range.high, swept.samples);
  return swept;
}

}  // namespace linkwright
