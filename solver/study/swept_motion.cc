// SPDX-License-Identifier: MIT
#include "solver/study/swept_motion.h"

#include <algorithm>
#include <cmath>

#include "solver/study/paths.h"
#include "solver/study/run_outs.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr int kStepsASide = 24;

// How far a motion is searched for ends, in what steps, beyond what links alone end nothing, and
// how far it is swept where nothing ends it.
struct Reach {
  double far, step, real, unlimited;
};

Reach ReachOf(TireMotion motion) {
  if (motion == TireMotion::kRoll || motion == TireMotion::kCrossed) {
    return {
        .far = kFarthestAngle, .step = kAngleStep, .real = kRealAngle, .unlimited = 10.0 * kDegree};
  }
  return {.far = kFarthestTravel, .step = kTravelStep, .real = kRealTravel, .unlimited = 0.1};
}

AxlePath PathOf(const Rig& rig, const std::array<double, 2>& start, TireMotion motion,
                size_t wheel) {
  switch (motion) {
    case TireMotion::kRoll:
      return MotionPath(rig, {.kind = MotionKind::kRoll, .wheel = 0, .grid = {}}, start);
    case TireMotion::kCrossed:
      return MotionPath(rig, {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}}, start);
    case TireMotion::kOneWheel:
      return MotionPath(rig, {.kind = MotionKind::kOneWheel, .wheel = wheel, .grid = {}}, start);
    default:
      return BouncePath(rig, start);
  }
}

// Where one axle ends, its tyres left out: how deep they would be in is the question here.
std::optional<SweepEnd> OwnEnd(const Rig& rig, const AxlePath& path, size_t axle,
                               const Reach& reach, double sign) {
  const std::vector<RunOut> what =
      FindRunOuts(rig, axle, path,
                  {.far = sign * reach.far, .step = reach.step, .tires = false, .to_first = true});
  const auto first = FirstEnd(what, reach.real);
  if (!first) return std::nullopt;
  return SweepEnd{.travel = *what[*first].at, .axle = axle, .reason = DescribeEnd(what[*first])};
}

SweptEnds OwnEnds(const Rig& rig, const AxlePath& path, size_t axle, TireMotion motion) {
  const Reach reach = ReachOf(motion);
  return {OwnEnd(rig, path, axle, reach, -1.0), OwnEnd(rig, path, axle, reach, 1.0)};
}

// A crossing is a roll of either axle, the rear one's the other way round.
SweptEnds Crossed(const SweptEnds& roll, size_t axle) {
  if (axle == kFront) return roll;
  SweptEnds crossed{roll[1], roll[0]};
  for (std::optional<SweepEnd>& end : crossed) {
    if (end) end->travel = -end->travel;
  }
  return crossed;
}

// Both axles end a roll or a crossing.
SweptEnds Nearer(const SweptEnds& own, const SweptEnds& other) {
  SweptEnds nearer = own;
  for (size_t k = 0; k < 2; ++k) {
    if (!own[k] || (other[k] && std::abs(other[k]->travel) < std::abs(own[k]->travel))) {
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

SweptRange RangeOf(TireMotion motion, const SweptEnds& ends) {
  SweptRange range{.motion = motion, .low = 0.0, .high = 0.0, .ended_by = ends};
  if (motion == TireMotion::kRest) return range;
  const double unlimited = ReachOf(motion).unlimited;
  range.low = ends[0] ? ends[0]->travel : -unlimited;
  range.high = ends[1] ? ends[1]->travel : unlimited;
  return range;
}

std::vector<SweptSample> SamplesOf(const Rig& rig, const AxlePath& path, size_t axle,
                                   const SweptRange& range) {
  std::vector<SweptSample> samples;
  for (const double end : {range.low, range.high}) {
    HousingMotion here = StartWalk(rig, axle, path).here;
    if (end == range.low) samples.push_back({0.0, here});
    if (end == 0.0) continue;
    for (int i = 1; i <= kStepsASide; ++i) {
      const double parameter = end * i / kStepsASide;
      const AxlePlace place = path.place(parameter, axle);
      const PoseSolution moved = MovePose(rig.axles[axle].frame, here, place.z, place.roll);
      if (moved.status != SolveStatus::kConverged) break;
      here = EvaluateMotion(rig.axles[axle].frame, moved.pose);
      samples.push_back({parameter, here});
    }
  }
  std::sort(samples.begin(), samples.end(),
            [](const SweptSample& a, const SweptSample& b) { return a.parameter < b.parameter; });
  return samples;
}

}  // namespace

RollEnds FindRollEnds(const Rig& rig, const std::array<double, 2>& start) {
  const AxlePath path = PathOf(rig, start, TireMotion::kRoll, 0);
  return {OwnEnds(rig, path, kFront, TireMotion::kRoll),
          OwnEnds(rig, path, kRear, TireMotion::kRoll)};
}

SweptMotion SweepTireMotion(const Rig& rig, const std::array<double, 2>& start,
                            const std::optional<RollEnds>& roll, TireMotion motion, size_t wheel) {
  const size_t axle = wheel / 2;
  SweptMotion swept{.path = PathOf(rig, start, motion, wheel), .range = {}, .samples = {}};
  swept.range = RangeOf(motion, EndsOf(rig, swept.path, roll, motion, axle));
  swept.samples = SamplesOf(rig, swept.path, axle, swept.range);
  return swept;
}

}  // namespace linkwright
