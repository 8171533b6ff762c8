// SPDX-License-Identifier: MIT
#include "solver/study/openings/nearest_tire.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/numeric/minima.h"

namespace linkwright {
namespace {
constexpr double kSteerStep = 5.0 * kOneDegree;  // [rad] between samples that are always taken
constexpr size_t kHalvings = 3;               // of such a step, where the least could hide in it
constexpr size_t kFine = 1U << kHalvings;
constexpr double kClosedIn = 1e-5;  // of two steps: some 0.1 um
constexpr double kNowhere = 1e3;    // [m] a knuckle that does not follow is never the nearest

// The tyre at a pose, steered or with the steering wheel held; absent where a knuckle does not
// follow.
std::optional<TireSolid> TireSteered(const TireQuestion& q, const Pose& pose,
                                     std::optional<double> steer) {
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
  return TireAt(axle, frame, q.shape, X_CA, q.side, q.side == 0 ? turns->left : turns->right);
}

std::optional<TireGap> GapOf(const TireQuestion& q, const TireSolid& tire) {
  const Opening& opening = *q.rig->vehicle->axles[q.axle].opening;
  return q.surface == Surface::kLip ? GapToLip(tire, opening, q.side)
                                    : GapToPanel(tire, opening, q.side);
}

std::vector<double> SteersOf(double lock) {
  const int steps = std::max(1, static_cast<int>(std::ceil(lock / kSteerStep)));
  const int count = steps * static_cast<int>(kFine);
  std::vector<double> steers;
  for (int k = -count; k <= count; ++k) steers.push_back(lock * k / count);
  return steers;
}

// A sample of the motion, and a steer.
struct Spot {
  size_t sample, steer;
};

// A tyre somewhere with its gap.
struct Placed {
  TireSolid tire;
  double gap;  // [m]
};

// No point of a tyre moves further than this from one place to another, straight; and no gap
// changes by more than the points do.
double Moved(const Placed& a, const Placed& b) {
  const double reach = std::hypot(a.tire.radius, a.tire.half_width);
  return (a.tire.p_CW - b.tire.p_CW).norm() + reach * (a.tire.axis_C - b.tire.axis_C).norm();
}

// The gaps at every sample and fine step of steer, each worked out when it is first asked for.
class Gaps {
 public:
  Gaps(const TireQuestion& question, const SweptMotion& swept, std::vector<double> steers)
      : question_(question),
        swept_(swept),
        steers_(std::move(steers)),
        known_(swept.samples.size() * Columns()) {}

  [[nodiscard]] size_t Rows() const { return swept_.samples.size(); }
  [[nodiscard]] size_t Columns() const { return std::max<size_t>(steers_.size(), 1); }
  [[nodiscard]] std::optional<double> Steer(size_t k) const {
    return steers_.empty() ? std::nullopt : std::optional(steers_[k]);
  }
  [[nodiscard]] double Parameter(size_t i) const { return swept_.samples[i].parameter; }
  [[nodiscard]] bool Looked(const Spot& at) const { return Known(at).has_value(); }
  [[nodiscard]] const std::optional<Placed>& At(const Spot& at) {
    auto& known = known_[at.sample * Columns() + at.steer];
    if (known) return *known;
    known.emplace();
    const auto tire =
        TireSteered(question_, swept_.samples[at.sample].motion.pose, Steer(at.steer));
    const auto gap = tire ? GapOf(question_, *tire) : std::nullopt;
    refused_ = refused_ || !gap;
    if (gap) *known = Placed{*tire, gap->distance};
    if (gap && (!least_ || gap->distance < *least_)) least_ = gap->distance;
    return *known;
  }
  [[nodiscard]] double Value(const Spot& at) const {
    const auto& known = Known(at);
    return known && *known ? (*known)->gap : kNowhere;
  }
  [[nodiscard]] std::optional<double> Least() const { return least_; }
  [[nodiscard]] bool Refused() const { return refused_; }

 private:
  [[nodiscard]] const std::optional<std::optional<Placed>>& Known(const Spot& at) const {
    return known_[at.sample * Columns() + at.steer];
  }

  const TireQuestion& question_;
  const SweptMotion& swept_;
  std::vector<double> steers_;
  std::vector<std::optional<std::optional<Placed>>> known_;
  std::optional<double> least_;
  bool refused_ = false;
};

// Samples and steers from one corner to the other; either may be but one.
struct Cell {
  Spot low, high;
};

// What no gap within a cell is below: a place within is as far from the corners, all together, as
// two sides are long. Nothing is known where a corner could not be had.
double NoneBelow(Gaps& gaps, const Cell& cell) {
  constexpr double kBend = 1.1;  // ways over straight lines: an arc of 5 deg is longer by 1e-3
  const auto &a = gaps.At(cell.low), &b = gaps.At({cell.high.sample, cell.low.steer}),
             &c = gaps.At({cell.low.sample, cell.high.steer}), &d = gaps.At(cell.high);
  if (!a || !b || !c || !d) return -kNowhere;
  const double sides =
      std::max(Moved(*a, *b), Moved(*c, *d)) + std::max(Moved(*a, *c), Moved(*b, *d));
  return 0.25 * (a->gap + b->gap + c->gap + d->gap) - 0.5 * kBend * sides;
}

// Halves a cell's steer as long as the least could be within; keeps what is left of it.
void Split(Gaps& gaps, const Cell& cell, std::vector<Cell>& fine) {
  if (NoneBelow(gaps, cell) > gaps.Least().value_or(kNowhere)) return;
  const size_t wide = cell.high.steer - cell.low.steer;
  if (wide <= 1) {
    fine.push_back(cell);
    return;
  }
  const size_t middle = cell.low.steer + wide / 2;
  Split(gaps, {cell.low, {cell.high.sample, middle}}, fine);
  Split(gaps, {{cell.low.sample, middle}, cell.high}, fine);
}

// The neighbour one step on, within the grid.
size_t Next(size_t at, size_t count) { return std::min(at + 1, count - 1); }
size_t Before(size_t at) { return at == 0 ? 0 : at - 1; }

// No place looked at next to it is lower; of two alike the first counts.
bool IsLow(const Gaps& gaps, const Spot& at) {
  const double here = gaps.Value(at);
  for (size_t i = Before(at.sample); i <= Next(at.sample, gaps.Rows()); ++i) {
    for (size_t k = Before(at.steer); k <= Next(at.steer, gaps.Columns()); ++k) {
      const Spot near{i, k};
      if (!gaps.Looked(near) || (i == at.sample && k == at.steer)) continue;
      const bool first = i < at.sample || (i == at.sample && k < at.steer);
      if (gaps.Value(near) < here || (first && gaps.Value(near) == here)) return false;
    }
  }
  return here < kNowhere;
}

// The places that the least may be next to.
std::vector<Spot> LowSpots(Gaps& gaps) {
  const size_t step = gaps.Columns() > 1 ? kFine : 1;
  for (size_t i = 0; i < gaps.Rows(); ++i) {
    for (size_t k = 0; k < gaps.Columns(); k += step) (void)gaps.At({i, k});
  }
  std::vector<Cell> fine;
  for (size_t i = 0; i < std::max<size_t>(gaps.Rows() - 1, 1); ++i) {
    for (size_t k = 0; k < std::max<size_t>(gaps.Columns() - 1, 1); k += step) {
      const Spot high{Next(i, gaps.Rows()), std::min(k + step, gaps.Columns() - 1)};
      Split(gaps, {{i, k}, high}, fine);
    }
  }
  std::vector<Spot> low;
  for (const Cell& cell : fine) {
    if (NoneBelow(gaps, cell) > gaps.Least().value_or(kNowhere)) continue;  // lower found since
    for (const size_t i : {cell.low.sample, cell.high.sample}) {
      for (const size_t k : {cell.low.steer, cell.high.steer}) {
        const bool there = std::any_of(low.begin(), low.end(), [&](const Spot& spot) {
          return spot.sample == i && spot.steer == k;
        });
        if (!there && IsLow(gaps, {i, k})) low.push_back({i, k});
      }
    }
  }
  return low;
}

// A place closed in on.
struct Found {
  double parameter;
  std::optional<double> steer;
  Pose pose;
  double gap;
};

// Closes in on the least next to a spot. At each pose the steer is closed in on by itself: taking
// pose and steer by turns would stop at the first crease that runs aslant.
Found CloseIn(const TireQuestion& question, const SweptMotion& swept, const Gaps& gaps,
              const Spot& spot) {
  const HousingMotion& near = swept.samples[spot.sample].motion;
  const AxleFrame& frame = question.rig->axles[question.axle].frame;
  const auto least_at = [&](double parameter) {
    const AxlePlace place = swept.path.place(parameter, question.axle);
    Found found{parameter, gaps.Steer(spot.steer), {}, 0.0};
    found.pose = MovePose(frame, near, place.z, place.roll).pose;
    const auto gap_at = [&](std::optional<double> steer) {
      const auto tire = TireSteered(question, found.pose, steer);
      const auto gap = tire ? GapOf(question, *tire) : std::nullopt;
      return gap ? gap->distance : kNowhere;
    };
    if (!found.steer) {
      found.gap = gap_at(std::nullopt);
      return found;
    }
    const LeastPoint least =
        LeastOnInterval(gap_at, *gaps.Steer(Before(spot.steer)),
                        *gaps.Steer(Next(spot.steer, gaps.Columns())), 3, kClosedIn);
    found.steer = least.at, found.gap = least.value;
    return found;
  };
  const double low = gaps.Parameter(Before(spot.sample));
  const double high = gaps.Parameter(Next(spot.sample, gaps.Rows()));
  if (!(high > low)) return least_at(low);
  return least_at(
      LeastOnInterval([&](double s) { return least_at(s).gap; }, low, high, 3, kClosedIn).at);
}

}  // namespace

std::optional<NearestTire> FindNearest(const TireQuestion& question, const SweptMotion& swept,
                                       double start, std::optional<double> lock, bool& refused) {
  Gaps gaps(question, swept, lock ? SteersOf(*lock) : std::vector<double>{});
  const std::vector<Spot> low = LowSpots(gaps);
  refused = refused || gaps.Refused();
  std::optional<Found> best;
  for (const Spot& spot : low) {
    const Found found = CloseIn(question, swept, gaps, spot);
    if (!best || found.gap < best->gap) best = found;
  }
  if (!best) return std::nullopt;
  const auto tire = TireSteered(question, best->pose, best->steer);
  const auto gap = tire ? GapOf(question, *tire) : std::nullopt;
  if (!gap) return std::nullopt;
  const Travels travels = TravelsOf(question.rig->axles[question.axle].frame, best->pose);
  return NearestTire{.gap = *gap,
                     .motion = swept.range.motion,
                     .parameter = best->parameter,
                     .wheel_travel = (question.side == 0 ? travels.left : travels.right) - start,
                     .steer = best->steer};
}

}  // namespace linkwright
