// SPDX-License-Identifier: MIT
#include "solver/study/openings/swept_motion.h"

#include <algorithm>
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
std::optional<SweptEnd> OwnEnd(const Rig& rig, const AxlePath& path, size_t axle,
                               const MotionReach& reach, double sign) {
  const AxleWalk walk = WalkAxle(rig, axle, path,
                                 {.far = sign * reach.far,
                                  .step = reach.step,
                                  .watch = Watch::kAllButTires,
                                  .to_first = true});
  const LimitHit* first = FirstEnd(walk.hits, reach.real);
  if (first == nullptr) return std::nullopt;
  return SweptEnd{.at = *first->at, .axle = axle, .limit = first->limit};
}

SweptEnds OwnEnds(const Rig& rig, const AxlePath& path, size_t axle, TireMotion motion) {
  const MotionReach reach = ReachOf(*rig.vehicle, KindOf(motion));
  return {OwnEnd(rig, path, axle, reach, -1.0), OwnEnd(rig, path, axle, reach, 1.0)};
}

// A crossing is a roll of either axle, the rear one's the other way round.
SweptEnds Crossed(const SweptEnds& roll, size_t axle) {
  if (axle == kFront) return roll;
  SweptEnds crossed{roll[1], roll[0]};
  for (std::optional<SweptEnd>& end : crossed) {
    if (end) end->at = -end->at;
  }
  return crossed;
}

// Both axles end a roll or a crossing.
SweptEnds Nearer(const SweptEnds& own, const SweptEnds& other) {
  SweptEnds nearer = own;
  for (size_t k = 0; k < 2; ++k) {
    if (!own[k] || (other[k] && std::abs(other[k]->at) < std::abs(own[k]->at))) {
      nearer[k] = other[k];
    }
  }
  return nearer;
}

SweptEnds EndsOf(const Rig& rig, const AxlePath& path, const std::optional<RollEnds>& roll,
                 TireMotion motion, size_t axle) {
  switch (motion) {
    case TireMotion::kRest:
      return {};
    case TireMotion::kRoll:
      return Nearer((*roll)[axle], (*roll)[1 - axle]);
    case TireMotion::kCrossed:
      return Nearer(Crossed((*roll)[axle], axle), Crossed((*roll)[1 - axle], 1 - axle));
    default:
      return OwnEnds(rig, path, axle, motion);
  }
}

SweptRange RangeOf(const Rig& rig, TireMotion motion, const SweptEnds& ends) {
  SweptRange range{.motion = motion, .low = 0.0, .high = 0.0, .ended_by = ends};
  if (motion == TireMotion::kRest) return range;
  const double unlimited = ReachOf(*rig.vehicle, KindOf(motion)).unlimited;
  range.low = ends[0] ? ends[0]->at : -unlimited;
  range.high = ends[1] ? ends[1]->at : unlimited;
  return range;
}

std::vector<SweptSample> SamplesOf(const Rig& rig, const AxlePath& path, size_t axle,
                                   const SweptRange& range) {
  std::vector<SweptSample> samples;
  for (const double end : {range.low, range.high}) {
    if (end == range.low) samples.push_back({0.0, StartMotion(rig, axle, path)});
    if (end == 0.0) continue;
    // The walk has the pose at its end even where that is where the links line up.
    const AxleWalk walk = WalkAxle(
        rig, axle, path, {.far = end, .step = std::abs(end) / kStepsASide, .watch = Watch::kRows});
    for (auto place = walk.places.begin() + 1; place != walk.places.end(); ++place) {
      samples.push_back({place->parameter, place->motion});
    }
  }
  std::sort(samples.begin(), samples.end(),
            [](const SweptSample& a, const SweptSample& b) { return a.parameter < b.parameter; });
  return samples;
}

}  // namespace

RollEnds FindRollEnds(const Rig& rig, const std::array<double, 2>& start) {
  const AxlePath path = PathOf(rig, start, MotionKind::kRoll);
  return {OwnEnds(rig, path, kFront, TireMotion::kRoll),
          OwnEnds(rig, path, kRear, TireMotion::kRoll)};
}

SweptMotion SweepTireMotion(const Rig& rig, const std::array<double, 2>& start,
                            const std::optional<RollEnds>& roll, TireMotion motion, size_t wheel) {
  const size_t axle = wheel / 2;
  SweptMotion swept{.path = PathOf(rig, start, KindOf(motion), wheel), .range = {}, .samples = {}};
  swept.range = RangeOf(rig, motion, EndsOf(rig, swept.path, roll, motion, axle));
  swept.samples = SamplesOf(rig, swept.path, axle, swept.range);
  return swept;
}

}  // namespace linkwright
