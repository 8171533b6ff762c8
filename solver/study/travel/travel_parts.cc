// SPDX-License-Identifier: MIT
#include "solver/study/travel/travel_parts.h"

#include <algorithm>
#include <cmath>

#include "solver/model/force_law.h"
#include "solver/model/twins.h"
#include "solver/numeric/roots.h"
#include "solver/rest/settle.h"
#include "solver/study/travel/reachable.h"

namespace linkwright {
namespace {

constexpr double kFarTab = 0.3;     // [m] no tab moves farther
constexpr double kTabFound = 1e-9;  // [m]

// Poses of one axle: at rest, at the wanted ends of both wheels, and wherever else it can get to.
struct Poses {
  Eigen::Isometry3d rest;
  std::optional<Eigen::Isometry3d> bump, droop;
  std::vector<Eigen::Isometry3d> all;
};

struct Range {
  double least, greatest;
};

Range RangeOf(const Span& span, const AxleFrame& frame, const Poses& poses) {
  Range range{LengthAt(span, frame, poses.rest), LengthAt(span, frame, poses.rest)};
  for (const Eigen::Isometry3d& X_CA : poses.all) {
    const double length = LengthAt(span, frame, X_CA);
    range = {std::min(range.least, length), std::max(range.greatest, length)};
  }
  return range;
}

Range RangeOfBoth(const Range& a, const Range& b) {
  return {std::min(a.least, b.least), std::max(a.greatest, b.greatest)};
}

// One damper, or two that are ordered as one.
using Ordered = std::vector<const Damper*>;

// Where they stand, their chassis ends moved along each one's own line at rest [m].
Range RangeOf(const Ordered& dampers, const AxleFrame& frame, const Poses& poses, double move) {
  std::optional<Range> range;
  for (const Damper* damper : dampers) {
    Span span = damper->span;
    const Eigen::Vector3d lower = poses.rest * OnHousing(frame, span.p_CQ);
    span.p_CP += move * (span.p_CP - lower).normalized();
    const Range own = RangeOf(span, frame, poses);
    range = range ? RangeOfBoth(*range, own) : own;
  }
  return *range;
}

Poses PosesOf(const RigAxle& axle, double start, const WantedTravel& wanted) {
  Poses poses;
  poses.rest = *PoseAtTravels(axle, start, 0.0, 0.0);
  if (wanted.bump) poses.bump = PoseAtTravels(axle, start, *wanted.bump, *wanted.bump);
  if (wanted.droop) poses.droop = PoseAtTravels(axle, start, -*wanted.droop, -*wanted.droop);
  return poses;
}

// The stops and straps of the advice on one axle. A side without one, and without one in the middle
// that serves both, is held at the wheel's own wanted travel.
Holds HoldsOf(const Axle& axle, size_t index, const AxleFrame& frame, const PartsAdvice& advice) {
  Holds holds{.members = {},
              .bump = {advice.wanted[index].bump, advice.wanted[index].bump},
              .droop = {advice.wanted[index].droop, advice.wanted[index].droop}};
  const auto limit = [&](LimitKind kind) {
    return TravelLimit{{kind, holds.members.size()}, "", "", LimitRole::kEndsRows};
  };
  const auto served = [](const Span& span, std::array<std::optional<double>, 2>& wheels) {
    if (span.p_CQ.y() >= 0.0) wheels[0].reset();
    if (span.p_CQ.y() <= 0.0) wheels[1].reset();
  };
  for (const StopAdvice& each : advice.stops) {
    if (each.axle != index || each.misses || each.solid <= 0.0) continue;
    for (const Stop& stop : axle.bump_stops) {
      if (DisplayName(stop.name) != each.member) continue;
      holds.members.push_back(StopLimit(limit(LimitKind::kStopSolid), stop, frame, each.solid));
      served(stop.span, holds.bump);
    }
  }
  for (const StrapAdvice& each : advice.straps) {
    if (each.axle != index) continue;
    holds.members.push_back({limit(LimitKind::kStrapTaut), each.span.p_CP,
                             OnHousing(frame, each.span.p_CQ), each.length, true});
    served(each.span, holds.droop);
  }
  return holds;
}

// The moves of a tab, along the damper, from which one of a damper's ends can be kept: those at or
// beyond `move`, one way or the other.
struct TabBound {
  double move;      // [m]; the end of what is within reach where all of that will do
  bool everywhere;  // that is so
  bool nowhere;     // no move within reach will do
};

// Where `excess`, which grows with the move, is 0 between two moves.
//   wanted_above   the moves wanted are those at which it is above 0, else those below
TabBound FindBound(double low, double high, bool wanted_above,
                   const std::function<double(double)>& excess) {
  const double at_low = excess(low), at_high = excess(high);
  if (at_low >= 0.0) return {low, wanted_above, !wanted_above};
  if (at_high <= 0.0) return {high, !wanted_above, wanted_above};
  const SignChange closed = CloseIn(excess, {high, at_high, low, at_low}, kTabFound);
  return {0.5 * (closed.above + closed.below), false, false};
}

//   dampers   this one and what is ordered with it
void FitDamper(const Damper& damper, const Ordered& dampers, const AxleFrame& frame,
               const Poses& poses, double reserve, DamperAdvice& advice) {
  if (!damper.shortest || !damper.longest) return;
  const double lacking = (advice.open - advice.closed) - (*damper.longest - *damper.shortest);
  const Eigen::Vector3d lower = poses.rest * OnHousing(frame, damper.span.p_CQ);
  const Eigen::Vector3d along = (damper.span.p_CP - lower).normalized();
  const auto range = [&](double move) { return RangeOf(dampers, frame, poses, move); };
  const double nearest = -std::min(kFarTab, 0.5 * advice.least);  // not past its other end
  const TabBound low = FindBound(nearest, kFarTab, true, [&](double move) {
    return range(move).least - reserve - *damper.shortest;
  });
  const TabBound high = FindBound(nearest, kFarTab, false, [&](double move) {
    return range(move).greatest + reserve - *damper.longest;
  });
  const bool found = !low.everywhere && !low.nowhere && !high.everywhere && !high.nowhere;
  const bool crossed = found && low.move > high.move + kTabFound;
  if (crossed || (lacking > 0.0 && !found)) {
    advice.fit = DamperFit::kStrokeShort;
    advice.stroke_short = found ? std::max(lacking, low.move - high.move) : lacking;
    return;
  }
  if (low.nowhere || high.nowhere) {
    advice.fit = DamperFit::kTabTooFar;
    return;
  }
  if (low.move <= kTabFound && high.move >= -kTabFound) {
    advice.fit = DamperFit::kFits;
    return;
  }
  advice.fit = DamperFit::kMoveTab;
  // With both ends in reach they get the same spare; else the shorter move, for one end has plenty.
  advice.tab_move = found ? 0.5 * (low.move + high.move) : std::clamp(0.0, low.move, high.move);
  advice.p_CP = damper.span.p_CP + *advice.tab_move * along;
}

// What a stop of another height is squeezed by in a stance; absent where neither it nor the one
// there touches, beside its pad neither.
std::optional<double> RestSqueeze(const Stop& stop, double height, const AxleFrame& frame,
                                  const Stance* stance, size_t index) {
  constexpr double kSame = 1e-6;  // [m] no other stop than the one there
  if (stance == nullptr || std::abs(height - stop.law.free_length) < kSame) return std::nullopt;
  const StopCone cone = PrepareCone(stop, frame);
  const ConePlace<double> place = PlaceOf(cone, Transform(stance->motion[index].pose));
  if (!MeetsPad(cone, place)) return std::nullopt;
  if (std::max(height, stop.law.free_length) <= place.length) return std::nullopt;
  return height - place.length;
}

//   mirror   how far twins may be off their mirror images and be ordered alike [m]
void AdviseStops(const Axle& axle, size_t index, const AxleFrame& frame, const Poses& poses,
                 const Stance* stance, double mirror, std::vector<StopAdvice>& to) {
  if (!poses.bump) return;
  const size_t first = to.size();
  for (const Stop& stop : axle.bump_stops) {
    const StopCone cone = PrepareCone(stop, frame);
    const ConePlace<double> at_bump = PlaceOf(cone, *poses.bump);
    to.push_back({.axle = index,
                  .member = DisplayName(stop.name),
                  .gap_at_rest = PlaceOf(cone, poses.rest).length - stop.law.free_length,
                  .solid = at_bump.length,
                  .misses = !MeetsPad(cone, at_bump),
                  .height_now = stop.law.free_length,
                  .height = std::nullopt,
                  .rest_squeeze = std::nullopt});
  }
  // The lower of both goes solid at the wanted bump on one side and just after it on the other.
  for (const std::vector<size_t>& pair : Pairs(axle.bump_stops, mirror)) {
    double solid = to[first + pair[0]].solid;
    for (const size_t i : pair) solid = std::min(solid, to[first + i].solid);
    for (const size_t i : pair) to[first + i].solid = solid;
  }
  for (size_t i = 0; i < axle.bump_stops.size(); ++i) {
    const Stop& stop = axle.bump_stops[i];
    StopAdvice& advice = to[first + i];
    if (stop.law.curve.empty() || advice.misses || advice.solid <= 0.0) continue;
    advice.height = advice.solid + stop.law.curve.back().deflection;
    advice.rest_squeeze = RestSqueeze(stop, *advice.height, frame, stance, index);
  }
}

// Of twins that are mirror images the longer is ordered: it is taut at the wanted droop, the other
// just after it.
template <typename Member>
void OrderStrapsAlike(const std::vector<Member>& members, double mirror, StrapAdvice* straps) {
  for (const std::vector<size_t>& pair : Pairs(members, mirror)) {
    double length = 0.0;
    for (const size_t i : pair) length = std::max(length, straps[i].length);
    for (const size_t i : pair) straps[i].length = length;
  }
}

void AdviseStraps(const Axle& axle, size_t index, const AxleFrame& frame, const Poses& poses,
                  double mirror, std::vector<StrapAdvice>& to) {
  if (!poses.droop) return;
  const size_t first = to.size();
  const auto add = [&](const MemberName& name, const Span& span, std::optional<double> now,
                       bool beside) {
    to.push_back({.axle = index,
                  .member = DisplayName(name),
                  .beside_damper = beside,
                  .length_now = now,
                  .length = LengthAt(span, frame, *poses.droop),
                  .span = span});
  };
  for (const Strap& strap : axle.straps) add(strap.name, strap.span, strap.length, false);
  if (!axle.straps.empty()) return OrderStrapsAlike(axle.straps, mirror, to.data() + first);
  for (const Damper& damper : axle.dampers) add(damper.name, damper.span, std::nullopt, true);
  OrderStrapsAlike(axle.dampers, mirror, to.data() + first);
}

// One axle's places with the stops and straps for what is wanted of it, which go into the advice;
// none but the ends where the links do not reach those.
Poses PlacesOf(const Rig& rig, size_t index, double start, const Stance* stance,
               PartsAdvice& advice) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  const WantedTravel& wanted = advice.wanted[index];
  const double mirror = rig.vehicle->aims.mirror;
  Poses poses = PosesOf(rig.axles[index], start, wanted);
  advice.reached[index] = (!wanted.bump || poses.bump) && (!wanted.droop || poses.droop);
  AdviseStops(axle, index, frame, poses, stance, mirror, advice.stops);
  AdviseStraps(axle, index, frame, poses, mirror, advice.straps);
  if (!poses.bump || !poses.droop) return poses;
  Reachable all = FindReachable(rig.axles[index], start, HoldsOf(axle, index, frame, advice));
  advice.reached[index] = all.followed;
  poses.all = std::move(all.poses);
  return poses;
}

// What an order's closed length has more than its stroke and dead length; below 0: no damper is so.
struct OrderRule {
  double reserve, dead_length;  // [m]

  [[nodiscard]] double Spare(const Range& range) const {
    const double closed = range.least - reserve, open = range.greatest + reserve;
    return closed - (open - closed) - dead_length;
  }
};

// Absent where the order can be had. docs/theory.md (72a)
std::optional<ImpossibleOrder> JudgeOrder(const Rig& rig, size_t index, double start,
                                          const Ordered& dampers, const Poses& poses,
                                          const WantedTravel& wanted, const OrderRule& rule) {
  constexpr double kToTell = 1e-5;  // [m] finer than any tape
  const AxleFrame& frame = rig.axles[index].frame;
  const double spare = rule.Spare(RangeOf(dampers, frame, poses, 0.0));
  if (spare >= 0.0) return std::nullopt;
  ImpossibleOrder order{.short_by = -spare, .tab_move = std::nullopt, .less_bump = std::nullopt};
  const auto moved = [&](double move) { return rule.Spare(RangeOf(dampers, frame, poses, move)); };
  if (const double farthest = moved(kFarTab); farthest > 0.0) {
    order.tab_move = CloseIn(moved, {kFarTab, farthest, 0.0, spare}, kTabFound).above;
  }
  const auto less = [&](double bump) -> std::optional<double> {
    PartsAdvice trial;
    trial.wanted[index] = {*wanted.bump - bump, wanted.droop};
    const Poses there = PlacesOf(rig, index, start, nullptr, trial);
    if (!there.bump || !there.droop) return std::nullopt;
    return rule.Spare(RangeOf(dampers, frame, there, 0.0));
  };
  const std::optional<double> none = less(*wanted.bump);
  if (none && *none > 0.0) {
    order.less_bump = CloseIn(less, {*wanted.bump, *none, 0.0, spare}, kToTell).above;
  }
  return order;
}

void AdviseDampers(const Rig& rig, size_t index, double start, const Poses& poses,
                   const WantedTravel& wanted, const OrderRule& rule,
                   std::vector<DamperAdvice>& to) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  const double reserve = rule.reserve;
  std::vector<Ordered> with(axle.dampers.size());
  for (const std::vector<size_t>& pair : Pairs(axle.dampers, rig.vehicle->aims.mirror)) {
    for (const size_t i : pair) {
      for (const size_t k : pair) with[i].push_back(&axle.dampers[k]);
    }
  }
  std::optional<ImpossibleOrder> impossible;
  const Ordered* judged = nullptr;
  for (size_t i = 0; i < axle.dampers.size(); ++i) {
    const Damper& damper = axle.dampers[i];
    const Range range = RangeOf(with[i], frame, poses, 0.0);
    if (judged == nullptr || *judged != with[i]) {
      impossible = JudgeOrder(rig, index, start, with[i], poses, wanted, rule);
      judged = &with[i];
    }
    DamperAdvice advice{.axle = index,
                        .member = DisplayName(damper.name),
                        .at_rest = LengthAt(damper.span, frame, poses.rest),
                        .at_bump = LengthAt(damper.span, frame, *poses.bump),
                        .at_droop = LengthAt(damper.span, frame, *poses.droop),
                        .least = range.least,
                        .greatest = range.greatest,
                        .closed = range.least - reserve,
                        .open = range.greatest + reserve,
                        .fit = DamperFit::kUnknown,
                        .stroke_short = std::nullopt,
                        .tab_move = std::nullopt,
                        .p_CP = std::nullopt,
                        .impossible = impossible};
    FitDamper(damper, with[i], frame, poses, reserve, advice);
    to.push_back(advice);
  }
}

void AdviseCoils(const Axle& axle, size_t index, const AxleFrame& frame, const Poses& poses,
                 std::vector<CoilAdvice>& to) {
  if (!poses.bump || !poses.droop) return;
  for (const Spring& spring : axle.springs) {
    const Range range = RangeOf(spring.span, frame, poses);
    CoilAdvice advice{.axle = index,
                      .member = DisplayName(spring.name),
                      .length_at_droop = LengthAt(spring.span, frame, *poses.droop),
                      .length_at_bump = LengthAt(spring.span, frame, *poses.bump),
                      .preload = spring.law.free_length - range.greatest,
                      .preload_force = Evaluate(spring.law, range.greatest).force,
                      .gap = std::nullopt};
    const std::optional<double> bound = BoundLength(spring);
    if (bound) advice.gap = range.least - *bound;
    to.push_back(advice);
  }
}

}  // namespace

WantedTravel WantedOf(const TravelWish& wish, const LimitsReport& limits, size_t axle) {
  const AxleLimit& up = limits.bounce[axle][0];
  const AxleLimit& down = limits.bounce[axle][1];
  WantedTravel wanted{wish.bump, wish.droop};
  if (!wanted.bump && up.ended_by && up.parameter > 0.0) wanted.bump = up.parameter;
  if (!wanted.droop && down.ended_by && down.parameter < 0.0) wanted.droop = -down.parameter;
  if (wish.split && wanted.bump && wanted.droop) {
    const double travel = *wanted.bump + *wanted.droop;
    wanted = {*wish.split * travel, (1.0 - *wish.split) * travel};
  }
  return wanted;
}

Vehicle WithStopsAndStraps(const Vehicle& vehicle, const PartsAdvice& advice) {
  Vehicle fitted = vehicle;
  for (const StopAdvice& each : advice.stops) {
    for (Stop& stop : fitted.axles[each.axle].bump_stops) {
      if (each.height && DisplayName(stop.name) == each.member) stop.law.free_length = *each.height;
    }
  }
  for (const StrapAdvice& each : advice.straps) {
    std::vector<Strap>& straps = fitted.axles[each.axle].straps;
    for (Strap& strap : straps) {
      if (!each.beside_damper && DisplayName(strap.name) == each.member) strap.length = each.length;
    }
    if (!each.beside_damper) continue;
    straps.push_back({.name = {"strap beside " + each.member, Side::kMiddle},
                      .span = each.span,
                      .length = each.length});
  }
  return fitted;
}

namespace {

// The parts for travels that count from one stance.
PartsAdvice AdviseFrom(const Rig& rig, const Stance* stance,
                       const std::array<WantedTravel, 2>& wanted, double damper_reserve) {
  PartsAdvice advice;
  advice.wanted = wanted;
  const std::array<double, 2> start = StartOf(rig, stance);
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    const Axle& axle = rig.vehicle->axles[i];
    const AxleFrame& frame = rig.axles[i].frame;
    const Poses poses = PlacesOf(rig, i, start[i], stance, advice);
    if (!poses.bump || !poses.droop) continue;
    const OrderRule rule{damper_reserve, rig.vehicle->aims.damper_dead_length};
    AdviseDampers(rig, i, start[i], poses, wanted[i], rule, advice.dampers);
    AdviseCoils(axle, i, frame, poses, advice.coils);
  }
  return advice;
}

// The stance with the stops fitted that give the wanted travels from a start; absent where the
// links do not reach those travels or the vehicle finds no rest.
std::optional<Stance> RestWithStopsFor(const Rig& rig, const Load& load,
                                       const std::array<WantedTravel, 2>& wanted,
                                       const std::array<double, 2>& start) {
  PartsAdvice advice;
  for (size_t i = 0; i < 2; ++i) {
    const std::optional<Eigen::Isometry3d> rest = PoseAtTravels(rig.axles[i], start[i], 0.0, 0.0);
    if (!rest) return std::nullopt;
    const Poses poses = PosesOf(rig.axles[i], start[i], wanted[i]);
    if (wanted[i].bump && !poses.bump) return std::nullopt;
    AdviseStops(rig.vehicle->axles[i], i, rig.axles[i].frame, poses, nullptr,
                rig.vehicle->aims.mirror, advice.stops);
  }
  const Vehicle fitted = WithStopsAndStraps(*rig.vehicle, advice);
  Stance rest = Settle(PrepareRig(fitted), load);
  if (rest.status != StanceStatus::kRests) return std::nullopt;
  return rest;
}

// The rest that the stops make whose travels count from it: where each axle starts is where it then
// starts. Absent where none is found.
std::optional<Stance> RestTheyMake(const Rig& rig, const Stance& now, const Load& load,
                                   const std::array<WantedTravel, 2>& wanted) {
  constexpr double kMet = 1e-9;  // [m]
  const auto start_of = [&](const Stance& stance) {
    const std::array<double, 2> start = StartOf(rig, &stance);
    return Eigen::VectorXd(Eigen::Vector2d(start[0], start[1]));
  };
  std::optional<Stance> rest;
  const auto moved = [&](const Eigen::VectorXd& start) -> std::optional<Eigen::VectorXd> {
    rest = RestWithStopsFor(rig, load, wanted, {start[0], start[1]});
    return rest ? std::optional<Eigen::VectorXd>(start_of(*rest) - start) : std::nullopt;
  };
  return BroydenRoot(moved, start_of(now), kMet) ? rest : std::nullopt;
}

}  // namespace

PartsAdvice AdviseParts(const Rig& rig, const Load* load, const Stance* stance,
                        const LimitsReport& limits, const TravelWish& wish, double damper_reserve) {
  std::array<WantedTravel, 2> wanted;
  for (const size_t i : AxlesOf(*rig.vehicle)) wanted[i] = WantedOf(wish, limits, i);
  const auto in_the_way = [&](const PartsAdvice& advice, const LimitsReport& found,
                              const Stance* from) {
    return FindInTheWay(found, wanted, WithStopsAndStraps(*rig.vehicle, advice), from);
  };
  PartsAdvice now = AdviseFrom(rig, stance, wanted, damper_reserve);
  const bool touches = std::any_of(now.stops.begin(), now.stops.end(), [](const StopAdvice& stop) {
    return stop.rest_squeeze.has_value();
  });
  const std::optional<Stance> then = touches && load != nullptr
                                         ? RestTheyMake(rig, *stance, *load, wanted)
                                         : std::optional<Stance>();
  if (!then) {
    now.in_the_way = in_the_way(now, limits, stance);
    for (StopAdvice& stop : now.stops) {
      if (load != nullptr && stop.rest_squeeze) stop.height.reset();
    }
    return now;
  }
  PartsAdvice advice = AdviseFrom(rig, &*then, wanted, damper_reserve);
  advice.in_the_way = in_the_way(advice, FindLimits({rig, &*then}), &*then);
  const std::array<double, 2> from = StartOf(rig, stance), to = StartOf(rig, &*then);
  advice.rest_moves = {to[0] - from[0], to[1] - from[1]};
  for (size_t i = 0; i < advice.stops.size(); ++i) {
    advice.stops[i].gap_at_rest = now.stops[i].gap_at_rest;
    if (!advice.stops[i].rest_squeeze) advice.stops[i].rest_squeeze = now.stops[i].rest_squeeze;
  }
  return advice;
}

}  // namespace linkwright
