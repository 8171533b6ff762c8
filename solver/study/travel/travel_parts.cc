// SPDX-License-Identifier: MIT
#include "solver/study/travel/travel_parts.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "solver/model/force_law.h"
#include "solver/model/twins.h"
#include "solver/numeric/roots.h"
#include "solver/rest/settle.h"
#include "solver/study/travel/reachable.h"

namespace linkwright {
namespace {

constexpr double kFarTab = 0.3;     // [m] no tab moves farther
constexpr double kTabFound = 1e-9;  // [m]

// Poses of one axle under one load: at rest, at the wanted ends of both wheels, and wherever else
// it can get to.
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

// The same under each load.
using EachPoses = std::vector<Poses>;

Range RangeOf(const Span& span, const AxleFrame& frame, const EachPoses& each) {
  Range range = RangeOf(span, frame, each.front());
  for (const Poses& poses : each) range = RangeOfBoth(range, RangeOf(span, frame, poses));
  return range;
}

// One damper, or two that are ordered as one.
using Ordered = std::vector<const Damper*>;

// Where they stand, their chassis ends moved along each one's own line at the first rest [m].
Range RangeOf(const Ordered& dampers, const AxleFrame& frame, const EachPoses& each, double move) {
  std::optional<Range> range;
  for (const Damper* damper : dampers) {
    Span span = damper->span;
    const Eigen::Vector3d lower = each.front().rest * OnHousing(frame, span.p_CQ);
    span.p_CP += move * (span.p_CP - lower).normalized();
    const Range own = RangeOf(span, frame, each);
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
Holds HoldsOf(const Axle& axle, size_t index, const AxleFrame& frame, const WantedTravel& wanted,
              const PartsAdvice& advice) {
  Holds holds{
      .members = {}, .bump = {wanted.bump, wanted.bump}, .droop = {wanted.droop, wanted.droop}};
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
               const EachPoses& each, double reserve, DamperAdvice& advice) {
  if (!damper.shortest || !damper.longest) return;
  const double lacking = (advice.open - advice.closed) - (*damper.longest - *damper.shortest);
  const Eigen::Vector3d lower = each.front().rest * OnHousing(frame, damper.span.p_CQ);
  const Eigen::Vector3d along = (damper.span.p_CP - lower).normalized();
  const auto range = [&](double move) { return RangeOf(dampers, frame, each, move); };
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

// Loads that come to the same for a tape have no one that decides.
constexpr double kAlike = 5e-5;  // [m]

// What each load by itself asks of a part, and the load whose is taken.
struct Decided {
  double value;       // [m]
  std::string under;  // empty: all come to the same
};

// One load, as PlacesOf goes through them.
struct Under {
  const Load* load;
  const Stance* stance;  // null: measured, or where nothing is to be said of a rest
  double start;          // mean travel of the wheels at rest, against the measured stance [m]
  WantedTravel wanted;
};
using EachUnder = std::vector<Under>;

std::string NameOf(const Load* load) { return load == nullptr ? std::string() : load->name; }

//   least    take the least of all, else the greatest
//   of       what a load asks for; absent: it has no say
std::optional<Decided> Decide(const EachUnder& loads, bool least,
                              const std::function<std::optional<double>(size_t)>& of) {
  std::optional<Decided> decided;
  double low = 0.0, high = 0.0;
  for (size_t c = 0; c < loads.size(); ++c) {
    const std::optional<double> value = of(c);
    if (!value) continue;
    if (!decided) low = high = *value;
    low = std::min(low, *value), high = std::max(high, *value);
    if (decided && (least ? *value >= decided->value : *value <= decided->value)) continue;
    decided = Decided{*value, NameOf(loads[c].load)};
  }
  if (decided && high - low < kAlike) decided->under.clear();
  return decided;
}

// Of a stop under the load that asks for the lowest.
StopAdvice AdviseStop(const Stop& stop, size_t index, const AxleFrame& frame,
                      const EachUnder& loads, const EachPoses& each) {
  const StopCone cone = PrepareCone(stop, frame);
  StopAdvice advice{.axle = index,
                    .member = DisplayName(stop.name),
                    .gap_at_rest = PlaceOf(cone, each.front().rest).length - stop.law.free_length,
                    .solid = 0.0,
                    .misses = false,
                    .height_now = stop.law.free_length,
                    .height = std::nullopt,
                    .rest_squeeze = std::nullopt,
                    .under = {},
                    .squeezed_under = {}};
  const auto lowest = Decide(loads, true, [&](size_t c) -> std::optional<double> {
    if (!each[c].bump) return std::nullopt;
    const ConePlace<double> at_bump = PlaceOf(cone, *each[c].bump);
    advice.misses = advice.misses || !MeetsPad(cone, at_bump);
    return at_bump.length;
  });
  advice.solid = lowest->value, advice.under = lowest->under;
  return advice;
}

bool AnyHas(const EachPoses& each, std::optional<Eigen::Isometry3d> Poses::*end) {
  return std::any_of(each.begin(), each.end(),
                     [end](const Poses& poses) { return (poses.*end).has_value(); });
}

//   mirror   how far twins may be off their mirror images and be ordered alike [m]
void AdviseStops(const Axle& axle, size_t index, const AxleFrame& frame, const EachUnder& loads,
                 const EachPoses& each, double mirror, std::vector<StopAdvice>& to) {
  if (!AnyHas(each, &Poses::bump)) return;
  const size_t first = to.size();
  for (const Stop& stop : axle.bump_stops) {
    to.push_back(AdviseStop(stop, index, frame, loads, each));
  }
  // The lower of both goes solid at the wanted bump on one side and just after it on the other.
  for (const std::vector<size_t>& pair : Pairs(axle.bump_stops, mirror)) {
    size_t lowest = pair[0];
    for (const size_t i : pair) {
      if (to[first + i].solid < to[first + lowest].solid) lowest = i;
    }
    for (const size_t i : pair) {
      to[first + i].solid = to[first + lowest].solid,
                 to[first + i].under = to[first + lowest].under;
    }
  }
  for (size_t i = 0; i < axle.bump_stops.size(); ++i) {
    const Stop& stop = axle.bump_stops[i];
    StopAdvice& advice = to[first + i];
    if (stop.law.curve.empty() || advice.misses || advice.solid <= 0.0) continue;
    advice.height = advice.solid + stop.law.curve.back().deflection;
    for (const Under& under : loads) {
      const auto squeeze = RestSqueeze(stop, *advice.height, frame, under.stance, index);
      if (!squeeze || (advice.rest_squeeze && *squeeze <= *advice.rest_squeeze)) continue;
      advice.rest_squeeze = squeeze, advice.squeezed_under = NameOf(under.load);
    }
  }
}

// Of twins that are mirror images the longer is ordered: it is taut at the wanted droop, the other
// just after it.
template <typename Member>
void OrderStrapsAlike(const std::vector<Member>& members, double mirror, StrapAdvice* straps) {
  for (const std::vector<size_t>& pair : Pairs(members, mirror)) {
    size_t longest = pair[0];
    for (const size_t i : pair) {
      if (straps[i].length > straps[longest].length) longest = i;
    }
    for (const size_t i : pair) {
      straps[i].length = straps[longest].length, straps[i].under = straps[longest].under;
    }
  }
}

void AdviseStraps(const Axle& axle, size_t index, const AxleFrame& frame, const EachUnder& loads,
                  const EachPoses& each, double mirror, std::vector<StrapAdvice>& to) {
  if (!AnyHas(each, &Poses::droop)) return;
  const size_t first = to.size();
  const auto add = [&](const MemberName& name, const Span& span, std::optional<double> now,
                       bool beside) {
    const auto longest = Decide(loads, false, [&](size_t c) -> std::optional<double> {
      if (!each[c].droop) return std::nullopt;
      return LengthAt(span, frame, *each[c].droop);
    });
    to.push_back({.axle = index,
                  .member = DisplayName(name),
                  .beside_damper = beside,
                  .length_now = now,
                  .length = longest->value,
                  .span = span,
                  .under = longest->under});
  };
  for (const Strap& strap : axle.straps) add(strap.name, strap.span, strap.length, false);
  if (!axle.straps.empty()) return OrderStrapsAlike(axle.straps, mirror, to.data() + first);
  for (const Damper& damper : axle.dampers) add(damper.name, damper.span, std::nullopt, true);
  OrderStrapsAlike(axle.dampers, mirror, to.data() + first);
}

// One axle's places under each load with the stops and straps for what is wanted of it, which go
// into the advice; none but the ends where the links do not reach those.
EachPoses PlacesOf(const Rig& rig, size_t index, const EachUnder& loads, PartsAdvice& advice) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  const double mirror = rig.vehicle->aims.mirror;
  EachPoses each;
  for (const Under& under : loads) {
    const WantedTravel& wanted = under.wanted;
    each.push_back(PosesOf(rig.axles[index], under.start, wanted));
    const bool reached = (!wanted.bump || each.back().bump) && (!wanted.droop || each.back().droop);
    advice.reached[index] = advice.reached[index] && reached;
  }
  AdviseStops(axle, index, frame, loads, each, mirror, advice.stops);
  AdviseStraps(axle, index, frame, loads, each, mirror, advice.straps);
  for (size_t c = 0; c < loads.size(); ++c) {
    if (!each[c].bump || !each[c].droop) continue;
    Reachable all = FindReachable(rig.axles[index], loads[c].start,
                                  HoldsOf(axle, index, frame, loads[c].wanted, advice));
    advice.reached[index] = advice.reached[index] && all.followed;
    each[c].all = std::move(all.poses);
  }
  return each;
}

// The first load under which both ends are wanted and reached.
const Poses* WithBothEnds(const EachPoses& each) {
  const auto found = std::find_if(each.begin(), each.end(),
                                  [](const Poses& poses) { return poses.bump && poses.droop; });
  return found == each.end() ? nullptr : &*found;
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
std::optional<ImpossibleOrder> JudgeOrder(const Rig& rig, size_t index, const EachUnder& loads,
                                          const Ordered& dampers, const EachPoses& each,
                                          const OrderRule& rule) {
  constexpr double kToTell = 1e-5;  // [m] finer than any tape
  const AxleFrame& frame = rig.axles[index].frame;
  const double spare = rule.Spare(RangeOf(dampers, frame, each, 0.0));
  if (spare >= 0.0) return std::nullopt;
  ImpossibleOrder order{.short_by = -spare, .tab_move = std::nullopt, .less_bump = std::nullopt};
  const auto moved = [&](double move) { return rule.Spare(RangeOf(dampers, frame, each, move)); };
  if (const double farthest = moved(kFarTab); farthest > 0.0) {
    order.tab_move = CloseIn(moved, {kFarTab, farthest, 0.0, spare}, kTabFound).above;
  }
  double most = std::numeric_limits<double>::infinity();  // that each load has to give
  for (const Under& under : loads) most = std::min(most, under.wanted.bump.value_or(most));
  const auto less = [&](double bump) -> std::optional<double> {
    EachUnder lower = loads;
    for (Under& under : lower) {
      under.stance = nullptr;
      if (under.wanted.bump) *under.wanted.bump -= bump;
    }
    PartsAdvice trial;
    const EachPoses there = PlacesOf(rig, index, lower, trial);
    for (size_t c = 0; c < there.size(); ++c) {
      if (each[c].bump && each[c].droop && !(there[c].bump && there[c].droop)) return std::nullopt;
    }
    return rule.Spare(RangeOf(dampers, frame, there, 0.0));
  };
  const std::optional<double> none = less(most);
  if (none && *none > 0.0) {
    order.less_bump = CloseIn(less, {most, *none, 0.0, spare}, kToTell).above;
  }
  return order;
}

void AdviseDampers(const Rig& rig, size_t index, const EachUnder& loads, const EachPoses& each,
                   const OrderRule& rule, std::vector<DamperAdvice>& to) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  const double reserve = rule.reserve;
  const Poses& ends = *WithBothEnds(each);
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
    const auto under = [&](size_t c) { return RangeOf(with[i], frame, EachPoses{each[c]}, 0.0); };
    const Decided least = *Decide(loads, true, [&](size_t c) { return under(c).least; });
    const Decided greatest = *Decide(loads, false, [&](size_t c) { return under(c).greatest; });
    if (judged == nullptr || *judged != with[i]) {
      impossible = JudgeOrder(rig, index, loads, with[i], each, rule);
      judged = &with[i];
    }
    DamperAdvice advice{.axle = index,
                        .member = DisplayName(damper.name),
                        .at_rest = LengthAt(damper.span, frame, each.front().rest),
                        .at_bump = LengthAt(damper.span, frame, *ends.bump),
                        .at_droop = LengthAt(damper.span, frame, *ends.droop),
                        .least = least.value,
                        .greatest = greatest.value,
                        .closed = least.value - reserve,
                        .open = greatest.value + reserve,
                        .closed_under = least.under,
                        .open_under = greatest.under,
                        .fit = DamperFit::kUnknown,
                        .stroke_short = std::nullopt,
                        .tab_move = std::nullopt,
                        .p_CP = std::nullopt,
                        .impossible = impossible};
    FitDamper(damper, with[i], frame, each, reserve, advice);
    to.push_back(advice);
  }
}

void AdviseCoils(const Axle& axle, size_t index, const AxleFrame& frame, const EachPoses& each,
                 std::vector<CoilAdvice>& to) {
  const Poses& ends = *WithBothEnds(each);
  for (const Spring& spring : axle.springs) {
    const Range range = RangeOf(spring.span, frame, each);
    CoilAdvice advice{.axle = index,
                      .member = DisplayName(spring.name),
                      .length_at_droop = LengthAt(spring.span, frame, *ends.droop),
                      .length_at_bump = LengthAt(spring.span, frame, *ends.bump),
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

using EachWanted = std::vector<std::array<WantedTravel, 2>>;
using EachStart = std::vector<std::array<double, 2>>;

EachStart StartsOf(const Rig& rig, const std::vector<const Stance*>& stances) {
  EachStart starts;
  for (const Stance* stance : stances) starts.push_back(StartOf(rig, stance));
  return starts;
}

std::vector<const Stance*> PointersTo(const std::vector<Stance>& stances) {
  std::vector<const Stance*> all;
  for (const Stance& stance : stances) all.push_back(&stance);
  return all;
}

// The loads as one axle meets them.
//   stances   empty: nothing is to be said of a rest
EachUnder UnderOf(std::span<const TravelCase> cases, size_t axle, const EachWanted& wanted,
                  const EachStart& starts, const std::vector<const Stance*>& stances) {
  EachUnder loads;
  for (size_t c = 0; c < cases.size(); ++c) {
    loads.push_back({.load = cases[c].load,
                     .stance = stances.empty() ? nullptr : stances[c],
                     .start = starts[c][axle],
                     .wanted = wanted[c][axle]});
  }
  return loads;
}

// The parts for travels that count from one stance under each load.
PartsAdvice AdviseFrom(const Rig& rig, std::span<const TravelCase> cases, const EachWanted& wanted,
                       const std::vector<const Stance*>& stances, double damper_reserve) {
  PartsAdvice advice;
  advice.wanted = wanted.front();
  for (size_t c = 0; c < cases.size(); ++c) {
    advice.under.push_back({NameOf(cases[c].load), wanted[c], std::nullopt});
  }
  const EachStart starts = StartsOf(rig, stances);
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    const Axle& axle = rig.vehicle->axles[i];
    const AxleFrame& frame = rig.axles[i].frame;
    const EachUnder loads = UnderOf(cases, i, wanted, starts, stances);
    const EachPoses each = PlacesOf(rig, i, loads, advice);
    if (WithBothEnds(each) == nullptr) continue;
    const OrderRule rule{damper_reserve, rig.vehicle->aims.damper_dead_length};
    AdviseDampers(rig, i, loads, each, rule, advice.dampers);
    AdviseCoils(axle, i, frame, each, advice.coils);
  }
  return advice;
}

// What is wanted under each load, from wherever it starts. A travel as found has its ends at
// places, from which it then counts; one that is asked for is so long from any rest.
struct Wishes {
  std::span<const TravelCase> cases;
  EachWanted from_now;  // counted from where it rests now
  bool as_found;

  // Absent where an end would be on the wrong side of a rest.
  [[nodiscard]] std::optional<EachWanted> From(const Rig& rig, const EachStart& starts) const {
    if (!as_found) return from_now;
    EachWanted wanted = from_now;
    for (size_t c = 0; c < cases.size(); ++c) {
      const std::array<double, 2> now = StartOf(rig, cases[c].stance);
      for (size_t i = 0; i < 2; ++i) {
        auto& [bump, droop] = wanted[c][i];
        if (bump) *bump -= starts[c][i] - now[i];
        if (droop) *droop += starts[c][i] - now[i];
        if ((bump && !(*bump > 0.0)) || (droop && !(*droop > 0.0))) return std::nullopt;
      }
    }
    return wanted;
  }
};

// The stances with the stops fitted that give the wanted travels from each start; absent where the
// links do not reach those travels or the vehicle finds no rest.
std::optional<std::vector<Stance>> RestWithStopsFor(const Rig& rig, const Wishes& wishes,
                                                    const EachStart& starts) {
  const std::span<const TravelCase> cases = wishes.cases;
  const std::optional<EachWanted> from = wishes.From(rig, starts);
  if (!from) return std::nullopt;
  const EachWanted& wanted = *from;
  PartsAdvice advice;
  for (size_t i = 0; i < 2; ++i) {
    const EachUnder loads = UnderOf(cases, i, wanted, starts, {});
    EachPoses each;
    for (const Under& under : loads) {
      if (!PoseAtTravels(rig.axles[i], under.start, 0.0, 0.0)) return std::nullopt;
      each.push_back(PosesOf(rig.axles[i], under.start, under.wanted));
      if (under.wanted.bump && !each.back().bump) return std::nullopt;
    }
    AdviseStops(rig.vehicle->axles[i], i, rig.axles[i].frame, loads, each, rig.vehicle->aims.mirror,
                advice.stops);
  }
  const Vehicle fitted = WithStopsAndStraps(*rig.vehicle, advice);
  const Rig with_stops = PrepareRig(fitted);
  std::vector<Stance> rests;
  for (const TravelCase& each : cases) {
    rests.push_back(Settle(with_stops, *each.load));
    if (rests.back().status != StanceStatus::kRests) return std::nullopt;
  }
  return rests;
}

// The rests that the stops make whose travels count from them: where each axle starts is where it
// then starts. Absent where none are found.
std::optional<std::vector<Stance>> RestsTheyMake(const Rig& rig, const Wishes& wishes) {
  const std::span<const TravelCase> cases = wishes.cases;
  constexpr double kMet = 1e-9;  // [m]
  const auto as_numbers = [](const EachStart& starts) {
    Eigen::VectorXd all(2 * static_cast<Eigen::Index>(starts.size()));
    Eigen::Index k = 0;
    for (const std::array<double, 2>& start : starts) {
      all[k++] = start[0], all[k++] = start[1];
    }
    return all;
  };
  std::optional<std::vector<Stance>> rests;
  const auto moved = [&](const Eigen::VectorXd& start) -> std::optional<Eigen::VectorXd> {
    EachStart starts;
    for (Eigen::Index k = 0; k < start.size(); k += 2) starts.push_back({start[k], start[k + 1]});
    rests = RestWithStopsFor(rig, wishes, starts);
    if (!rests) return std::nullopt;
    return std::optional<Eigen::VectorXd>(as_numbers(StartsOf(rig, PointersTo(*rests))) - start);
  };
  std::vector<const Stance*> now;
  for (const TravelCase& each : cases) now.push_back(each.stance);
  const Eigen::VectorXd from = as_numbers(StartsOf(rig, now));
  if (BroydenRoot(moved, from, kMet)) return rests;
  if (cases.size() == 1) return std::nullopt;
  // Where another load comes to decide on the way the steps may go astray: plain repetition then.
  constexpr int kMostRounds = 200;
  Eigen::VectorXd start = from;
  for (int round = 0; round < kMostRounds; ++round) {
    const std::optional<Eigen::VectorXd> step = moved(start);
    if (!step) return std::nullopt;
    if (step->cwiseAbs().maxCoeff() < kMet) return rests;
    start += *step;
  }
  return std::nullopt;
}

// What is in the way under each load: of each axle and way what comes under the load that is left
// shortest.
std::vector<InTheWay> WorstInTheWay(std::span<const TravelCase> cases,
                                    const std::vector<LimitsReport>& found,
                                    const EachWanted& wanted, const Vehicle& fitted,
                                    const std::vector<const Stance*>& stances) {
  constexpr double kTape = 1e-3;  // [m] what a tape shows: another load is told of for no less
  std::map<std::pair<size_t, LimitMotion>, std::vector<InTheWay>> worst;
  for (size_t c = 0; c < cases.size(); ++c) {
    std::map<std::pair<size_t, LimitMotion>, std::vector<InTheWay>> own;
    for (InTheWay& each : FindInTheWay(found[c], wanted[c], fitted, stances[c])) {
      each.load = NameOf(cases[c].load);
      own[{each.axle, each.motion}].push_back(std::move(each));
    }
    for (auto& [way, list] : own) {
      std::vector<InTheWay>& there = worst[way];
      if (there.empty() || list.front().short_by > there.front().short_by + kTape) {
        there = std::move(list);
      }
    }
  }
  std::vector<InTheWay> all;
  for (const auto& [way, list] : worst) all.insert(all.end(), list.begin(), list.end());
  return all;
}

}  // namespace

PartsAdvice AdviseParts(const Rig& rig, std::span<const TravelCase> cases, const TravelWish& wish,
                        double damper_reserve) {
  EachWanted wanted(cases.size());
  std::vector<const Stance*> stances;
  std::vector<LimitsReport> found;
  for (size_t c = 0; c < cases.size(); ++c) {
    for (const size_t i : AxlesOf(*rig.vehicle)) {
      wanted[c][i] = WantedOf(wish, *cases[c].found, i);
    }
    stances.push_back(cases[c].stance);
    found.push_back(*cases[c].found);
  }
  const bool loaded = cases.front().load != nullptr;
  const Wishes wishes{
      .cases = cases, .from_now = wanted, .as_found = !wish.split && !wish.bump && !wish.droop};
  PartsAdvice now = AdviseFrom(rig, cases, wanted, stances, damper_reserve);
  const bool touches = std::any_of(now.stops.begin(), now.stops.end(), [](const StopAdvice& stop) {
    return stop.rest_squeeze.has_value();
  });
  const std::optional<std::vector<Stance>> then =
      touches && loaded ? RestsTheyMake(rig, wishes) : std::nullopt;
  if (!then) {
    now.in_the_way =
        WorstInTheWay(cases, found, wanted, WithStopsAndStraps(*rig.vehicle, now), stances);
    for (StopAdvice& stop : now.stops) {
      if (loaded && stop.rest_squeeze) stop.height.reset();
    }
    return now;
  }
  const std::vector<const Stance*> rests = PointersTo(*then);
  wanted = *wishes.From(rig, StartsOf(rig, rests));
  PartsAdvice advice = AdviseFrom(rig, cases, wanted, rests, damper_reserve);
  for (size_t c = 0; c < cases.size(); ++c) found[c] = FindLimits({rig, rests[c]});
  advice.in_the_way =
      WorstInTheWay(cases, found, wanted, WithStopsAndStraps(*rig.vehicle, advice), rests);
  for (size_t c = 0; c < cases.size(); ++c) {
    const std::array<double, 2> from = StartOf(rig, stances[c]), to = StartOf(rig, rests[c]);
    advice.under[c].rest_moves = {to[0] - from[0], to[1] - from[1]};
  }
  advice.rest_moves = advice.under.front().rest_moves;
  for (size_t i = 0; i < advice.stops.size(); ++i) {
    StopAdvice& stop = advice.stops[i];
    stop.gap_at_rest = now.stops[i].gap_at_rest;
    if (stop.rest_squeeze) continue;
    stop.rest_squeeze = now.stops[i].rest_squeeze;
    stop.squeezed_under = now.stops[i].squeezed_under;
  }
  return advice;
}

PartsAdvice AdviseParts(const Rig& rig, const Load* load, const Stance* stance,
                        const LimitsReport& limits, const TravelWish& wish, double damper_reserve) {
  const TravelCase only{.load = load, .stance = stance, .found = &limits};
  return AdviseParts(rig, std::span(&only, 1), wish, damper_reserve);
}

}  // namespace linkwright
