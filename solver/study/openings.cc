// SPDX-License-Identifier: MIT
#include "solver/study/openings.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/least.h"
#include "solver/geometry/steering.h"
#include "solver/study/paths.h"
#include "solver/study/swept_motion.h"

namespace linkwright {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kSteerStep = 5.0 * kDegree;  // [rad] between samples; the least is closed in on
constexpr int kRounds = 3;                    // pose and steer by turns
constexpr double kClosedIn = 1e-5;            // of a spacing, enough for 0.01 mm

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
  const std::vector<SweptSample>* samples;

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
  for (const SweptSample& sample : *search.samples) grid.push_back(sample.parameter);
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
  const std::vector<SweptSample>& samples = *search.samples;
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

std::vector<TireClearance> SurfacesOf(const Opening& opening, size_t axle, size_t side) {
  std::vector<TireClearance> surfaces;
  if (opening.radius) surfaces.push_back({axle, side, Surface::kLip, {}, {}});
  if (opening.inner_panel_y) surfaces.push_back({axle, side, Surface::kPanel, {}, {}});
  return surfaces;
}

// Both wheels of an axle against their openings, the same surfaces in the same order.
using BothSides = std::array<std::vector<TireClearance>, 2>;

bool Nearer(const BothSides& found, double enough) {
  for (size_t k = 0; k < found[0].size(); ++k) {
    const NearestTire* left = LeastOf(found[0][k]);
    const NearestTire* right = LeastOf(found[1][k]);
    const bool near = (left != nullptr && left->gap.distance < enough) ||
                      (right != nullptr && right->gap.distance < enough);
    if (!near) return false;
  }
  return true;
}

void AddGaps(const Rig& rig, const SweptMotion& swept, double start,
             const std::vector<double>& steers, TireClearance& to, OpeningsReport& report) {
  const Question question{&rig, to.axle, to.side, to.surface, report.tires[to.axle]};
  const Search search{&question, &swept.path, &swept.samples};
  const TireMotion motion = swept.range.motion;
  const auto m = static_cast<size_t>(std::find(kTireMotions.begin(), kTireMotions.end(), motion) -
                                     kTireMotions.begin());
  bool refused = false;
  to.held[m] = FindNearest(search, motion, start, {}, refused);
  if (steers.empty()) return;
  to.turned[m] = FindNearest(search, motion, start, steers, refused);
  report.steer_refused[to.axle] = report.steer_refused[to.axle] || refused;
}

void AddAxle(const Rig& rig, const std::array<double, 2>& start, size_t axle,
             std::optional<double> enough, std::optional<RollEnds>& roll, OpeningsReport& report) {
  const Opening& opening = *rig.vehicle->axles[axle].opening;
  const std::vector<double> steers = SteersOf(report.lock[axle]);
  BothSides found{SurfacesOf(opening, axle, 0), SurfacesOf(opening, axle, 1)};
  for (const TireMotion motion : kTireMotions) {
    if (enough && Nearer(found, *enough)) break;
    const bool rolls = motion == TireMotion::kRoll || motion == TireMotion::kCrossed;
    if (rolls && !roll) roll = FindRollEnds(rig, start);
    SweptMotion swept = SweepTireMotion(rig, start, roll, motion, 2 * axle);
    report.ranges[axle].push_back(swept.range);
    for (size_t side = 0; side < 2; ++side) {
      if (side == 1 && motion == TireMotion::kOneWheel) {
        swept = SweepTireMotion(rig, start, roll, motion, 2 * axle + side);
      }
      for (TireClearance& each : found[side]) {
        AddGaps(rig, swept, start[axle], steers, each, report);
      }
    }
  }
  for (size_t side = 0; side < 2; ++side) {
    report.wheels.push_back(AtRest(rig, start, axle, side, report.tires[axle]));
    report.clearances.insert(report.clearances.end(), found[side].begin(), found[side].end());
  }
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

OpeningsReport SweepOpenings(const Rig& rig, const Stance* stance, std::optional<double> lock,
                             std::optional<double> enough) {
  OpeningsReport report;
  const std::array<double, 2> start = StartOf(rig, stance);
  std::optional<RollEnds> roll;
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    report.tires[i] = ShapeOfTire(*rig.vehicle, i);
    if (axle.kingpin && axle.kingpin->p_CK) {
      report.lock[i] = lock;
      if (!lock && axle.steering) report.lock[i] = axle.steering->lock;
    }
    if (axle.opening) AddAxle(rig, start, i, enough, roll, report);
  }
  return report;
}

}  // namespace linkwright
