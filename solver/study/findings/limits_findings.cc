// SPDX-License-Identifier: MIT
#include "solver/study/findings/limits_findings.h"

#include <algorithm>
#include <cmath>

#include "solver/study/findings/driveline_findings.h"

namespace linkwright {
namespace {

bool IsDamper(LimitKind kind) {
  return kind == LimitKind::kDamperClosed || kind == LimitKind::kDamperOpen;
}

bool IsShaft(LimitKind kind) {
  return kind == LimitKind::kShaftBottomed || kind == LimitKind::kShaftParted;
}

FindingPlace PlaceOf(const AxleLimit& limit) {
  return {.motion = IsCrossed(limit.motion) ? TireMotion::kCrossed : TireMotion::kBounce,
          .parameter = limit.parameter,
          .wheel_travel = limit.wheel_travel,
          .steer = {}};
}

// About one thing that limits travel.
Finding About(Finding finding, const Vehicle& vehicle, size_t axle, const TravelLimit& limit) {
  finding.member = limit.name;
  finding.twins = limit.both + " " + std::to_string(static_cast<int>(limit.id.kind));
  finding.part = PartOf(vehicle, axle, limit.id);
  return finding;
}

// How one way ends.
void AddEnd(const Vehicle& vehicle, const AxleLimit& limit, std::vector<Finding>& to) {
  if (!limit.ended_by) return;
  const TravelLimit& ender = limit.hits[*limit.ended_by].limit;
  if (ender.id.kind == LimitKind::kStopSolid || ender.id.kind == LimitKind::kStrapTaut) return;
  to.push_back(About(
      {.kind = IsDamper(ender.id.kind) ? FindingKind::kDamperIsStop : FindingKind::kEndsBeforeStop,
       .axle = limit.axle,
       .place = PlaceOf(limit),
       .value = limit.wheel_travel,
       .detail = Describe(ender)},
      vehicle, limit.axle, ender));
}

// What is left of one thing where the travel ends, held against its aim; absent where there is none
// for it on this way.
std::optional<Finding> LeftThere(const Vehicle& vehicle, const AxleLimit& limit,
                                 const LimitHit& hit, bool coils) {
  const bool bump = limit.motion == LimitMotion::kBump, droop = limit.motion == LimitMotion::kDroop;
  const Aims& aims = vehicle.aims;
  const auto judge = [&](FindingKind kind, double aim) {
    return Judged(kind, limit.axle, *hit.left, aim);
  };
  switch (hit.limit.id.kind) {
    case LimitKind::kShaftBottomed:  // arms may make it short in droop too
    case LimitKind::kShaftParted:
      if (!bump && !droop) return std::nullopt;
      return hit.limit.id.kind == LimitKind::kShaftBottomed
                 ? judge(FindingKind::kSlipBottoms,
                         AimBeforeBottoming(vehicle, hit.limit.id.member))
                 : judge(FindingKind::kSlipParts, AimBeforeParting(vehicle, hit.limit.id.member));
    case LimitKind::kJointAtLimit:
      return judge(FindingKind::kJointNearLimit, aims.joint_reserve);
    case LimitKind::kTireOnLip:
    case LimitKind::kTireOnPanel:
      return judge(FindingKind::kTireNear, aims.tire_clearance);
    case LimitKind::kDamperClosed:
    case LimitKind::kDamperOpen:
      return judge(FindingKind::kDamperNearEnd, aims.damper_reserve);
    case LimitKind::kCoilBound:
      if (!coils || !bump) return std::nullopt;
      return judge(FindingKind::kCoilNearSolid, aims.coil_gap);
    case LimitKind::kCoilUnseated:
      if (!coils || bump || (!droop && *hit.left >= 0.0)) return std::nullopt;
      return judge(FindingKind::kCoilUnseats, aims.coil_preload);
    default:
      return std::nullopt;
  }
}

// What is short of its aim where the travel ends; neither what ends it nor its twin on the other
// side, nor what the way only frees.
//   ends   this axle's own end is the end of the motion
void AddLeft(const Vehicle& vehicle, const AxleLimit& limit, bool ends, bool coils,
             std::vector<Finding>& to) {
  const TravelLimit* ender = ends && limit.ended_by ? &limit.hits[*limit.ended_by].limit : nullptr;
  for (const LimitHit& hit : limit.hits) {
    if (!hit.left || !hit.at_rest || *hit.left >= *hit.at_rest) continue;
    if (ender && AreTwins(*ender, hit.limit)) continue;
    std::optional<Finding> left = LeftThere(vehicle, limit, hit, coils);
    if (!left) continue;
    left->place = PlaceOf(limit);
    Finding about = About(*std::move(left), vehicle, limit.axle, hit.limit);
    if (about.kind == FindingKind::kTireNear) {
      about.member = hit.limit.id.kind == LimitKind::kTireOnLip ? "lip" : "inner panel";
      about.twins.clear();
      about.detail = hit.limit.id.side == 0 ? "left" : "right";
    } else if (IsShaft(hit.limit.id.kind)) {
      // The same that `driveline` finds of it.
      about.axle.reset(), about.twins.clear();
      about.member = vehicle.driveshafts[hit.limit.id.member].name;
    }
    AddIfPast(std::move(about), to);
  }
}

// Stops that would touch on the way but are beside their pads; at rest they are so at once.
//   reach   how far the motion goes
void AddMissed(const Vehicle& vehicle, const AxleLimit& limit, double reach,
               std::vector<Finding>& to) {
  for (const LimitHit& hit : limit.hits) {
    if (hit.limit.id.kind != LimitKind::kConeOffPad) continue;
    const bool at_rest = hit.at_rest && *hit.at_rest < 0.0;
    if (!at_rest && !(hit.at && std::abs(*hit.at) <= std::abs(reach))) continue;
    const double wheel_travel = at_rest ? 0.0 : hit.wheel_travel.value_or(0.0);
    Finding missed = {.kind = FindingKind::kConeMissesPad,
                      .axle = limit.axle,
                      .place = PlaceOf(limit),
                      .value = wheel_travel};
    missed.place->parameter = at_rest ? 0.0 : *hit.at;
    missed.place->wheel_travel = wheel_travel;
    if (at_rest) missed.place->motion = TireMotion::kRest;
    to.push_back(About(std::move(missed), vehicle, limit.axle, hit.limit));
  }
}

// What is left at rest, where bump begins.
void AddRest(const Vehicle& vehicle, const AxleLimit& bump, std::vector<Finding>& to) {
  const Aims& aims = vehicle.aims;
  if (bump.ended_by) {
    const TravelLimit& ender = bump.hits[*bump.ended_by].limit;
    Finding left = Judged(FindingKind::kShortBump, bump.axle, bump.parameter, aims.bump_left);
    left.detail = Describe(ender), left.part = PartOf(vehicle, bump.axle, ender.id);
    AddIfPast(std::move(left), to);
  }
  for (const LimitHit& hit : bump.hits) {
    if (!hit.at_rest) continue;
    if (IsDamper(hit.limit.id.kind)) {
      Finding left = Judged(FindingKind::kDamperAtRest, bump.axle, *hit.at_rest, aims.damper_left);
      left.detail = Describe(hit.limit);
      AddIfPast(About(std::move(left), vehicle, bump.axle, hit.limit), to);
    } else if (hit.limit.id.kind == LimitKind::kJointAtLimit && *hit.at_rest < 0.0) {
      Finding left =
          Judged(FindingKind::kJointNearLimit, bump.axle, *hit.at_rest, aims.joint_reserve);
      left.place = FindingPlace{TireMotion::kRest, 0.0, 0.0, {}};
      AddIfPast(About(std::move(left), vehicle, bump.axle, hit.limit), to);
    }
  }
}

// What ends the travel before the parts advised would, by what a tape shows: of each way the first.
void AddInTheWay(const Vehicle& vehicle, const PartsAdvice& advice, std::vector<Finding>& to) {
  std::vector<InTheWay> all = advice.in_the_way;
  std::erase_if(all, [](const InTheWay& each) { return each.short_by < kTapeShows; });
  for (size_t i = 0; i < all.size(); ++i) {
    const InTheWay& each = all[i];
    if (i > 0 && all[i - 1].axle == each.axle && all[i - 1].motion == each.motion) continue;
    Finding first =
        About({.kind = FindingKind::kInTheWay,
               .axle = each.axle,
               .place = FindingPlace{.motion = IsCrossed(each.motion) ? TireMotion::kCrossed
                                                                      : TireMotion::kBounce,
                                     .parameter = each.parameter,
                                     .wheel_travel = each.at,
                                     .steer = {}},
               .value = each.at,
               .detail = Describe(each.limit),
               .more = {each.wanted, each.short_by}},
              vehicle, each.axle, each.limit);
    if (each.load != advice.under.front().load) first.load = each.load;
    to.push_back(std::move(first));
  }
}

// Of the member that is displayed so: what twins share.
template <typename Member>
std::string SharedKey(const std::vector<Member>& members, const std::string& displayed) {
  return std::find_if(members.begin(), members.end(),
                      [&](const Member& each) { return DisplayName(each.name) == displayed; })
      ->name.key;
}

// The bump wanted under the first load that wants one.
double FirstBump(const PartsAdvice& advice, size_t axle) {
  for (const WantedUnder& under : advice.under) {
    if (under.wanted[axle].bump) return *under.wanted[axle].bump;
  }
  return 0.0;
}

// The load that a stop is squeezed most under.
const WantedUnder& Squeezing(const PartsAdvice& advice, const StopAdvice& stop) {
  const auto found =
      std::find_if(advice.under.begin(), advice.under.end(),
                   [&](const WantedUnder& under) { return under.load == stop.squeezed_under; });
  return found == advice.under.end() ? advice.under.front() : *found;
}

void AddStopOrders(const Vehicle& vehicle, const PartsAdvice& advice, std::vector<Finding>& to) {
  for (const StopAdvice& stop : advice.stops) {
    const auto tell = [&](FindingKind kind, double value, std::vector<double> more) {
      to.push_back({.kind = kind,
                    .axle = stop.axle,
                    .member = stop.member,
                    .twins = SharedKey(vehicle.axles[stop.axle].bump_stops, stop.member),
                    .part = {"axles", vehicle.axles[stop.axle].name, "bump_stops"},
                    .value = value,
                    .more = std::move(more)});
    };
    if (stop.misses) {
      const double bump = FirstBump(advice, stop.axle);
      tell(FindingKind::kConeMissesPad, bump, {});
      to.back().twins += " as wanted";
      to.back().place = FindingPlace{
          .motion = TireMotion::kBounce, .parameter = bump, .wheel_travel = bump, .steer = {}};
      continue;
    }
    if (stop.solid <= 0.0) tell(FindingKind::kNoStopSoShort, -stop.solid, {});
    if (!stop.rest_squeeze) continue;
    if (advice.rest_moves) {
      const WantedUnder& under = Squeezing(advice, stop);
      tell(FindingKind::kStopMovesRest, *stop.rest_squeeze, {-(*under.rest_moves)[stop.axle]});
    } else {
      tell(FindingKind::kStopHeightNotHad, *stop.rest_squeeze, {});
    }
    if (stop.squeezed_under != advice.under.front().load) to.back().load = stop.squeezed_under;
  }
}

void AddDamperOrders(const Vehicle& vehicle, const PartsAdvice& advice, std::vector<Finding>& to) {
  for (const DamperAdvice& damper : advice.dampers) {
    if (!damper.impossible) continue;
    to.push_back({.kind = FindingKind::kNoSuchDamper,
                  .axle = damper.axle,
                  .member = damper.member,
                  .twins = SharedKey(vehicle.axles[damper.axle].dampers, damper.member),
                  .part = {"axles", vehicle.axles[damper.axle].name, "dampers"},
                  .value = damper.impossible->short_by,
                  .aim = vehicle.aims.damper_dead_length,
                  .more = {damper.impossible->tab_move.value_or(0.0),
                           damper.impossible->less_bump.value_or(0.0)}});
  }
}

void AddCoilOrders(const Vehicle& vehicle, const PartsAdvice& advice, std::vector<Finding>& to) {
  for (const CoilAdvice& coil : advice.coils) {
    const auto judge = [&](FindingKind kind, double left, double aim) {
      Finding judged = Judged(kind, coil.axle, left, aim);
      judged.member = coil.member;
      judged.twins = SharedKey(vehicle.axles[coil.axle].springs, coil.member);
      judged.part = {"axles", vehicle.axles[coil.axle].name, "springs"};
      AddIfPast(std::move(judged), to);
    };
    judge(FindingKind::kOrderUnseatsCoil, coil.preload, vehicle.aims.coil_preload);
    if (coil.gap) judge(FindingKind::kOrderBindsCoil, *coil.gap, vehicle.aims.coil_gap);
  }
}

}  // namespace

std::vector<Finding> LimitsFindings(const Vehicle& vehicle, const LimitsReport& limits,
                                    const PartsAdvice* advice) {
  std::vector<Finding> found;
  for (const size_t axle : AxlesOf(vehicle)) {
    const bool coils =
        advice == nullptr || !advice->wanted[axle].bump || !advice->wanted[axle].droop;
    const Axle& it = vehicle.axles[axle];
    if (it.bump_stops.empty()) {
      found.push_back({.kind = FindingKind::kNoStop, .axle = axle, .part = {"axles", it.name}});
    }
    AddRest(vehicle, limits.bounce[axle][0], found);
    for (const AxleLimit& limit : limits.bounce[axle]) {
      AddEnd(vehicle, limit, found);
      AddLeft(vehicle, limit, true, coils, found);
      AddMissed(vehicle, limit, limit.parameter, found);
    }
    for (const CrossedLimit& crossed : limits.crossed) {
      const AxleLimit& limit = crossed.axles[axle];
      const bool first = crossed.first == axle;
      if (first) AddEnd(vehicle, limit, found);
      AddLeft(vehicle, limit, first, coils, found);
      AddMissed(vehicle, limit, crossed.angle, found);
    }
  }
  return found;
}

std::vector<Finding> AdviceFindings(const Vehicle& vehicle, const PartsAdvice& advice) {
  std::vector<Finding> found;
  for (const size_t axle : AxlesOf(vehicle)) {
    if (advice.reached[axle]) continue;
    found.push_back({.kind = FindingKind::kLinksFollowNot,
                     .axle = axle,
                     .part = {"axles", vehicle.axles[axle].name, "links"}});
  }
  AddInTheWay(vehicle, advice, found);
  AddStopOrders(vehicle, advice, found);
  AddDamperOrders(vehicle, advice, found);
  AddCoilOrders(vehicle, advice, found);
  KeepWorst(found);
  return found;
}

}  // namespace linkwright
