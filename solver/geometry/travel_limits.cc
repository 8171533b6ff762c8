// SPDX-License-Identifier: MIT
#include "solver/geometry/travel_limits.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "solver/geometry/driveshaft.h"
#include "solver/model/force_law.h"
#include "solver/pose/link_ends.h"

namespace linkwright {
namespace {

constexpr std::array kSides{"left", "right"};

TravelLimit Named(LimitKind kind, size_t member, const MemberName& name, LimitRole role) {
  return {{kind, member, 0}, DisplayName(name), name.key, role};
}

LengthLimit LengthOf(TravelLimit limit, const AxleFrame& frame, const Span& span, double end,
                     bool longest) {
  return {std::move(limit), span.p_CP, OnHousing(frame, span.p_CQ), end, longest};
}

// One pose looked at: what several limits share is worked out once.
struct Look {
  const AxleLimits* limits;
  const Eigen::Isometry3d* X_CA;
  std::optional<size_t> turned_link{}, slid_shaft{};  // whose turn and slip stand below
  LinkTurn turn{};
  double in_before_bottom = 0.0;  // [m]
  bool steered = false;           // whether `held` was looked for
  std::optional<HandTurns> held{};

  [[nodiscard]] const Axle& axle() const { return limits->vehicle->axles[limits->axle]; }
};

const LinkTurn& TurnOf(Look& look, size_t link) {
  if (look.turned_link != link) {
    const FrameLink& prepared = look.limits->frame->links[link];
    look.turn = TurnOfLink(*look.limits->frame, prepared, UsualBolt(prepared, *look.limits->frame),
                           *look.X_CA);
    look.turned_link = link;
  }
  return look.turn;
}

// What a shaft's spline has left before it bottoms [m]; before it parts, the rest of its slip.
double InBeforeBottom(Look& look, size_t index) {
  if (look.slid_shaft != index) {
    const Driveshaft& shaft = look.limits->vehicle->driveshafts[index];
    const AxleFrame& frame = *look.limits->frame;
    const double as_measured = shaft.slip_left.value_or(0.5 * *shaft.slip);
    look.in_before_bottom = as_measured +
                            EvaluateDriveshaft(shaft, look.axle(), frame, *look.X_CA).length -
                            MadeLength(shaft, look.axle(), frame);
    look.slid_shaft = index;
  }
  return look.in_before_bottom;
}

// The gap of one side's tyre, the steering wheel held; absent where the drag link does not reach.
std::optional<double> GapOf(Look& look, LimitKind kind, size_t side) {
  const AxleFrame& frame = *look.limits->frame;
  if (!look.steered) {
    look.held = HandTurns{0.0, 0.0};
    if (look.axle().steering) look.held = TurnsHeld(look.axle(), frame, *look.X_CA);
    look.steered = true;
  }
  if (!look.held) return std::nullopt;
  const double turn = side == 0 ? look.held->left : look.held->right;
  const TireSolid tire = TireAt(look.axle(), frame, look.limits->tire, *look.X_CA, side, turn);
  const Opening& opening = *look.axle().opening;
  const auto gap = kind == LimitKind::kTireOnLip ? GapToLip(tire, opening, side)
                                                 : GapToPanel(tire, opening, side);
  return gap ? std::optional(gap->distance) : std::nullopt;
}

std::optional<double> LeftIn(Look& look, size_t index) {
  const AxleLimits& limits = *look.limits;
  if (index < limits.lengths.size()) {
    const double left = LeftOf(limits.lengths[index], *look.X_CA);
    return std::isfinite(left) ? std::optional(left) : std::nullopt;
  }
  const LimitId& id = limits.list[index].id;
  switch (id.kind) {
    case LimitKind::kDragLinkOutOfReach:
      return ReachLeft(*limits.knuckle, *look.X_CA);
    case LimitKind::kJointAtLimit: {
      const LinkTurn& turn = TurnOf(look, id.member);
      return *look.axle().links[id.member].misalignment_limit -
             (id.side == 0 ? turn.frame : turn.axle).misalignment;
    }
    case LimitKind::kShaftBottomed:
      return InBeforeBottom(look, id.member);
    case LimitKind::kShaftParted:
      return *limits.vehicle->driveshafts[id.member].slip - InBeforeBottom(look, id.member);
    case LimitKind::kTireOnLip:
    case LimitKind::kTireOnPanel:
      return GapOf(look, id.kind, id.side);
    default:
      return std::nullopt;
  }
}

// A coil is let go of where it is longer than its free length.
void AddSeats(const Axle& axle, const AxleFrame& frame, std::vector<LengthLimit>& to) {
  for (size_t i = 0; i < axle.springs.size(); ++i) {
    const Spring& spring = axle.springs[i];
    const LimitRole role = spring.keep_seated ? LimitRole::kEndsTravel : LimitRole::kPassed;
    to.push_back(LengthOf(Named(LimitKind::kCoilUnseated, i, spring.name, role), frame, spring.span,
                          spring.law.free_length, true));
  }
}

// A cone misses its pad where it would touch but is beside it.
void AddPads(const Axle& axle, const AxleFrame& frame, std::vector<LengthLimit>& to) {
  for (size_t i = 0; i < axle.bump_stops.size(); ++i) {
    const Stop& stop = axle.bump_stops[i];
    to.push_back(StopLimit(Named(LimitKind::kConeOffPad, i, stop.name, LimitRole::kPassed), stop,
                           frame, stop.law.free_length));
  }
}

// Of a stop whose cone is on its pad, or of which that is asked.
double LeftOfCone(const LengthLimit& limit, const Eigen::Isometry3d& X_CA) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  const ConePlace<double> place = PlaceOf(*limit.cone, X_CA);
  const bool of_pad = limit.limit.id.kind == LimitKind::kConeOffPad;
  if (!(place.lean > 0.0)) return of_pad ? std::min(place.lean, -kEndTolerance) : kInfinity;
  const double along = place.length - limit.end;
  const double inside = limit.cone->pad_radius.value_or(kInfinity) - OffPadPoint(place);
  return std::max(along, of_pad ? inside : -inside);
}

void ListJoints(const Axle& axle, std::vector<TravelLimit>& to) {
  for (size_t i = 0; i < axle.links.size(); ++i) {
    const Link& link = axle.links[i];
    if (!link.misalignment_limit) continue;
    for (size_t end = 0; end < 2; ++end) {
      const std::string at = end == 0 ? ", frame end" : ", axle end";
      to.push_back({{LimitKind::kJointAtLimit, i, end},
                    DisplayName(link.name) + at,
                    link.name.key + at,
                    LimitRole::kEndsTravel});
    }
  }
}

void ListShafts(const Vehicle& vehicle, size_t axle, std::vector<TravelLimit>& to) {
  for (size_t i = 0; i < vehicle.driveshafts.size(); ++i) {
    const Driveshaft& shaft = vehicle.driveshafts[i];
    if (static_cast<size_t>(shaft.axle) != axle || !shaft.slip) continue;
    const std::string name = shaft.name + " driveshaft";
    for (const LimitKind kind : {LimitKind::kShaftBottomed, LimitKind::kShaftParted}) {
      to.push_back({{kind, i, 0}, name, name, LimitRole::kEndsTravel});
    }
  }
}

void ListTires(const Axle& axle, std::vector<TravelLimit>& to) {
  if (!axle.opening) return;
  for (size_t side = 0; side < 2; ++side) {
    const std::string name = std::string("tyre ") + kSides[side];
    const auto add = [&](LimitKind kind) {
      to.push_back({{kind, 0, side}, name, "tyre", LimitRole::kEndsTravel});
    };
    if (axle.opening->radius) add(LimitKind::kTireOnLip);
    if (axle.opening->inner_panel_y) add(LimitKind::kTireOnPanel);
  }
}

}  // namespace

double LeftOf(const LengthLimit& limit, const Eigen::Isometry3d& X_CA) {
  if (limit.cone) return LeftOfCone(limit, X_CA);
  const double length = (X_CA * limit.p_AQ - limit.p_CP).norm();
  return limit.longest ? limit.end - length : length - limit.end;
}

LengthLimit StopLimit(TravelLimit limit, const Stop& stop, const AxleFrame& frame, double end) {
  LengthLimit made = LengthOf(std::move(limit), frame, stop.span, end, false);
  made.cone = PrepareCone(stop, frame);
  return made;
}

std::vector<LengthLimit> EndLengths(const Axle& axle, const AxleFrame& frame) {
  std::vector<LengthLimit> all;
  const auto add = [&](LimitKind kind, size_t i, const auto& member, std::optional<double> end,
                       bool longest) {
    if (!end) return;
    all.push_back(LengthOf(Named(kind, i, member.name, LimitRole::kEndsRows), frame, member.span,
                           *end, longest));
  };
  for (size_t i = 0; i < axle.dampers.size(); ++i) {
    add(LimitKind::kDamperClosed, i, axle.dampers[i], axle.dampers[i].shortest, false);
    add(LimitKind::kDamperOpen, i, axle.dampers[i], axle.dampers[i].longest, true);
  }
  // One end of a coil, even where the file has both: whichever comes first.
  for (size_t i = 0; i < axle.springs.size(); ++i) {
    add(LimitKind::kCoilBound, i, axle.springs[i], BoundLength(axle.springs[i]), false);
  }
  for (size_t i = 0; i < axle.bump_stops.size(); ++i) {
    const Stop& stop = axle.bump_stops[i];
    if (stop.law.curve.empty()) continue;
    all.push_back(StopLimit(Named(LimitKind::kStopSolid, i, stop.name, LimitRole::kEndsRows), stop,
                            frame, SolidBelow(stop.law)));
  }
  for (size_t i = 0; i < axle.straps.size(); ++i) {
    add(LimitKind::kStrapTaut, i, axle.straps[i], axle.straps[i].length, true);
  }
  return all;
}

bool EndsFor(const TravelLimit& limit, Watch watch) {
  const LimitKind kind = limit.id.kind;
  const bool tire = kind == LimitKind::kTireOnLip || kind == LimitKind::kTireOnPanel;
  if (limit.role == LimitRole::kPassed || (tire && watch != Watch::kAll)) return false;
  return limit.role == LimitRole::kEndsRows || watch != Watch::kRows;
}

AxleLimits PrepareLimits(const Vehicle& vehicle, size_t index, const AxleFrame& frame,
                         Watch watch) {
  const Axle& axle = vehicle.axles[index];
  AxleLimits limits{.vehicle = &vehicle,
                    .axle = index,
                    .frame = &frame,
                    .list = {},
                    .lengths = EndLengths(axle, frame),
                    .knuckle = std::nullopt,
                    .tire = {}};
  if (watch != Watch::kRows) {
    AddSeats(axle, frame, limits.lengths);
    AddPads(axle, frame, limits.lengths);
  }
  for (const LengthLimit& length : limits.lengths) limits.list.push_back(length.limit);
  if (axle.steering) {
    limits.knuckle = PrepareKnuckle(axle, frame);
    limits.list.push_back(
        {{LimitKind::kDragLinkOutOfReach}, "drag link", "drag link", LimitRole::kEndsRows});
  }
  if (watch == Watch::kRows) return limits;
  ListJoints(axle, limits.list);
  ListShafts(vehicle, index, limits.list);
  if (watch == Watch::kAll && axle.opening) {
    limits.tire = ShapeOfTire(vehicle, index);
    ListTires(axle, limits.list);
  }
  return limits;
}

std::optional<double> LeftOf(const AxleLimits& limits, size_t index,
                             const Eigen::Isometry3d& X_CA) {
  Look look{.limits = &limits, .X_CA = &X_CA};
  return LeftIn(look, index);
}

std::vector<std::optional<double>> LeftOfAll(const AxleLimits& limits,
                                             const Eigen::Isometry3d& X_CA) {
  Look look{.limits = &limits, .X_CA = &X_CA};
  std::vector<std::optional<double>> left;
  left.reserve(limits.list.size());
  for (size_t i = 0; i < limits.list.size(); ++i) left.push_back(LeftIn(look, i));
  return left;
}

bool IsMissed(const AxleLimits& limits, size_t index, const Eigen::Isometry3d& X_CA) {
  if (limits.list[index].id.kind != LimitKind::kStopSolid) return false;
  const StopCone& cone = *limits.lengths[index].cone;
  return !MeetsPad(cone, PlaceOf(cone, X_CA));
}

bool IsAngle(LimitKind kind) { return kind == LimitKind::kJointAtLimit; }

const LengthLimit* FarthestPast(const std::vector<LengthLimit>& limits,
                                const Eigen::Isometry3d& X_CA) {
  const LengthLimit* farthest = nullptr;
  double least = -kEndTolerance;
  for (const LengthLimit& limit : limits) {
    const double left = LeftOf(limit, X_CA);
    if (left < least) least = left, farthest = &limit;
  }
  return farthest;
}

namespace {

// What is told of a limit that is reached; NAME stands for the member's.
struct Saying {
  LimitKind kind;
  const char* words;
};

using K = LimitKind;
constexpr std::array kSayings{
    Saying{K::kDamperClosed, "NAME is fully closed"},
    Saying{K::kDamperOpen, "NAME is fully open"},
    Saying{K::kCoilBound, "NAME is coil-bound"},
    Saying{K::kStopSolid, "NAME is solid"},
    Saying{K::kLinksStraight, "its links line up and can follow no further (NAME holds it most)"},
    Saying{K::kDragLinkOutOfReach, "the drag link cannot reach its knuckle"},
    Saying{K::kStrapTaut, "NAME is taut"},
    Saying{K::kTieRodOutOfReach, "the tie rod cannot follow"},
    Saying{K::kSteeringAtLock, "the steering is at its lock"},
    Saying{K::kDragLinkOverCentre,
           "the drag link stands in line with its knuckle arm and turns the wheel no further"},
    Saying{K::kCoilUnseated, "NAME is off its seat"},
    Saying{K::kJointAtLimit, "NAME is at its misalignment limit"},
    Saying{K::kShaftBottomed, "NAME bottoms in its slip"},
    Saying{K::kShaftParted, "NAME parts"},
    Saying{K::kTireOnLip, "NAME touches its opening"},
    Saying{K::kTireOnPanel, "NAME touches its inner panel"},
    Saying{K::kConeOffPad, "NAME misses its pad"},
};

}  // namespace

std::string Describe(const TravelLimit& limit) {
  const auto* saying = std::find_if(kSayings.begin(), kSayings.end(),
                                    [&](const Saying& each) { return each.kind == limit.id.kind; });
  std::string words = saying->words;
  const std::string placeholder = "NAME";
  const size_t at = words.find(placeholder);
  return at == std::string::npos ? words : words.replace(at, placeholder.size(), limit.name);
}

}  // namespace linkwright
