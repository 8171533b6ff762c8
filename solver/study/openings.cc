// SPDX-License-Identifier: MIT
#include "solver/study/openings.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/least.h"
#include "solver/geometry/steering.h"
#include "solver/study/paths.h"
#include "solver/study/run_outs.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kSteerStep = 5.0 * kDegree;  // [rad] between samples; the least is closed in on
constexpr int kStepsASide = 24;
constexpr int kRounds = 3;          // pose and steer by turns
constexpr double kClosedIn = 1e-5;  // of a spacing, enough for 0.01 mm

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

// Both axles end a roll or a crossing, an axle by itself the rest.
std::optional<SweepEnd> EndOf(const Rig& rig, const AxlePath& path, TireMotion motion, size_t axle,
                              double sign) {
  const Reach reach = ReachOf(motion);
  std::optional<SweepEnd> own = OwnEnd(rig, path, axle, reach, sign);
  if (motion != TireMotion::kRoll && motion != TireMotion::kCrossed) return own;
  const auto other = OwnEnd(rig, path, 1 - axle, reach, sign);
  if (!own || (other && std::abs(other->travel) < std::abs(own->travel))) return other;
  return own;
}

SweptRange RangeOf(const Rig& rig, const AxlePath& path, TireMotion motion, size_t axle) {
  SweptRange range{.motion = motion, .low = 0.0, .high = 0.0, .ended_by = {}};
  if (motion == TireMotion::kRest) return range;
  const double unlimited = ReachOf(motion).unlimited;
  range.ended_by = {EndOf(rig, path, motion, axle, -1.0), EndOf(rig, path, motion, axle, 1.0)};
  range.low = range.ended_by[0] ? range.ended_by[0]->travel : -unlimited;
  range.high = range.ended_by[1] ? range.ended_by[1]->travel : unlimited;
  return range;
}

struct Sample {
  double parameter;
  HousingMotion motion;
};

std::vector<Sample> SamplesOf(const Rig& rig, const AxlePath& path, size_t axle,
                              const SweptRange& range) {
  std::vector<Sample> samples;
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
            [](const Sample& a, const Sample& b) { return a.parameter < b.parameter; });
  return samples;
}

// One tyre and what it may touch.
struct Question {
  const Rig* rig;
  size_t axle, side;
  Surface surface;
  TireShape shape;
};

// The gap at a pose, steered or with the steering wheel held; absent where a knuckle does not
// follow.
std::optional<TireGap> GapAt(const Question& q, const Pose& pose, std::optional<double> steer) {
  const Axle& axle = q.rig->vehicle->axles[q.axle];
  const AxleFrame& frame = q.rig->axles[q.axle].frame;
  const Eigen::Isometry3d X_CA = Transform(pose);
  std::optional<HandTurns> turns = HandTurns{0.0, 0.0};
  if (steer) {
    turns = TurnInside(axle, frame, X_CA, *steer);
  } else if (axle.steering) {
    turns = TurnsHeld(axle, frame, X_CA);
  }
  if (!turns) return std::nullopt;
  const TireSolid tire =
      TireAt(axle, frame, q.shape, X_CA, q.side, q.side == 0 ? turns->left : turns->right);
  return q.surface == Surface::kLip ? GapToLip(tire, *axle.opening, q.side)
                                    : GapToPanel(tire, *axle.opening, q.side);
}

double Spaced(const std::vector<double>& grid, size_t i, int by) {
  const auto at = static_cast<long>(i) + by;
  return grid[static_cast<size_t>(std::clamp(at, 0L, static_cast<long>(grid.size()) - 1))];
}

// Where the least was found, and a way to evaluate anywhere near.
struct Search {
  const Question* question;
  const AxlePath* path;
  const std::vector<Sample>* samples;

  [[nodiscard]] Pose PoseAt(double parameter, size_t from) const {
    const HousingMotion& near = (*samples)[from].motion;
    const AxlePlace place = path->place(parameter, question->axle);
    return MovePose(question->rig->axles[question->axle].frame, near, place.z, place.roll).pose;
  }
  [[nodiscard]] double Value(double parameter, size_t from, std::optional<double> steer) const {
    constexpr double kNowhere = 1e3;  // [m] a knuckle that does not follow is never the nearest
    const auto gap = GapAt(*question, PoseAt(parameter, from), steer);
    return gap ? gap->distance : kNowhere;
  }
};

// Closes in on the least about sample i and steer k.
void CloseIn(const Search& search, const std::vector<double>& steers, size_t i, size_t k,
             double& parameter, std::optional<double>& steer) {
  std::vector<double> grid;
  for (const Sample& sample : *search.samples) grid.push_back(sample.parameter);
  for (int round = 0; round < kRounds; ++round) {
    if (grid.size() > 1) {
      parameter = LeastOnInterval([&](double s) { return search.Value(s, i, steer); },
                                  Spaced(grid, i, -1), Spaced(grid, i, 1), 3, kClosedIn)
                      .at;
    }
    if (!steer) return;
    steer = LeastOnInterval([&](double s) { return search.Value(parameter, i, s); },
                            Spaced(steers, k, -1), Spaced(steers, k, 1), 3, kClosedIn)
                .at;
  }
}

std::optional<NearestTire> FindNearest(const Search& search, TireMotion motion, double start,
                                       const std::vector<double>& steers, bool& refused) {
  const std::vector<Sample>& samples = *search.samples;
  std::optional<double> least;
  size_t best = 0, best_steer = 0;
  for (size_t i = 0; i < samples.size(); ++i) {
    for (size_t k = 0; k < std::max<size_t>(steers.size(), 1); ++k) {
      const std::optional<double> steer = steers.empty() ? std::nullopt : std::optional(steers[k]);
      const auto gap = GapAt(*search.question, samples[i].motion.pose, steer);
      if (!gap) {
        refused = true;
        continue;
      }
      if (least && gap->distance >= *least) continue;
      least = gap->distance;
      best = i, best_steer = k;
    }
  }
  if (!least) return std::nullopt;
  double parameter = samples[best].parameter;
  std::optional<double> steer = steers.empty() ? std::nullopt : std::optional(steers[best_steer]);
  CloseIn(search, steers, best, best_steer, parameter, steer);
  const Pose pose = search.PoseAt(parameter, best);
  const auto gap = GapAt(*search.question, pose, steer);
  if (!gap) return std::nullopt;
  const Travels travels = TravelsOf(search.question->rig->axles[search.question->axle].frame, pose);
  return NearestTire{
      .gap = *gap,
      .motion = motion,
      .parameter = parameter,
      .wheel_travel = (search.question->side == 0 ? travels.left : travels.right) - start,
      .steer = steer};
}

std::vector<double> SteersOf(std::optional<double> lock) {
  std::vector<double> steers;
  if (!lock) return steers;
  const int count = static_cast<int>(std::ceil(*lock / kSteerStep));
  for (int k = -count; k <= count; ++k) steers.push_back(*lock * k / count);
  return steers;
}

void AddWheel(const Rig& rig, const std::array<double, 2>& start, size_t axle, size_t side,
              OpeningsReport& report) {
  const Opening& opening = *rig.vehicle->axles[axle].opening;
  std::vector<TireClearance> mine;
  if (opening.radius) mine.push_back({axle, side, Surface::kLip, {}, {}});
  if (opening.inner_panel_y) mine.push_back({axle, side, Surface::kPanel, {}, {}});
  const std::vector<double> steers = SteersOf(report.lock[axle]);
  for (size_t m = 0; m < kTireMotions.size(); ++m) {
    const TireMotion motion = kTireMotions[m];
    const AxlePath path = PathOf(rig, start, motion, 2 * axle + side);
    const SweptRange range = RangeOf(rig, path, motion, axle);
    if (side == 0) report.ranges[axle].push_back(range);
    const std::vector<Sample> samples = SamplesOf(rig, path, axle, range);
    for (TireClearance& clearance : mine) {
      const Question question{&rig, axle, side, clearance.surface, report.tires[axle]};
      const Search search{&question, &path, &samples};
      bool refused = false;
      clearance.held[m] = FindNearest(search, motion, start[axle], {}, refused);
      if (steers.empty()) continue;
      clearance.turned[m] = FindNearest(search, motion, start[axle], steers, refused);
      report.steer_refused[axle] = report.steer_refused[axle] || refused;
    }
  }
  for (TireClearance& clearance : mine) report.clearances.push_back(std::move(clearance));
}

WheelInOpening AtRest(const Rig& rig, const std::array<double, 2>& start, size_t axle, size_t side,
                      const TireShape& shape) {
  const Axle& of = rig.vehicle->axles[axle];
  const AxlePath path = BouncePath(rig, start);
  const Eigen::Isometry3d X_CA = Transform(StartWalk(rig, axle, path).here.pose);
  const TireSolid tire = TireAt(of, rig.axles[axle].frame, shape, X_CA, side, 0.0);
  return {.axle = axle,
          .side = side,
          .ahead = tire.p_CW.x() - of.opening->x,
          .up = tire.p_CW.z() - of.opening->z,
          .tape = TapeAround(tire, *of.opening, side)};
}

}  // namespace

const NearestTire* LeastOf(const TireClearance& clearance) {
  const NearestTire* least = nullptr;
  for (const auto& list : {&clearance.held, &clearance.turned}) {
    for (const std::optional<NearestTire>& each : *list) {
      if (!each) continue;
      if (least == nullptr || each->gap.distance < least->gap.distance) least = &*each;
    }
  }
  return least;
}

OpeningsReport SweepOpenings(const Rig& rig, const Stance* stance, std::optional<double> lock) {
  OpeningsReport report;
  const std::array<double, 2> start = StartOf(rig, stance);
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    report.tires[i] = ShapeOfTire(*rig.vehicle, i);
    if (axle.kingpin && axle.kingpin->p_CK) {
      report.lock[i] = lock;
      if (!lock && axle.steering) report.lock[i] = axle.steering->lock;
    }
    if (!axle.opening) continue;
    for (size_t side = 0; side < 2; ++side) {
      report.wheels.push_back(AtRest(rig, start, i, side, report.tires[i]));
      AddWheel(rig, start, i, side, report);
    }
  }
  return report;
}

}  // namespace linkwright
