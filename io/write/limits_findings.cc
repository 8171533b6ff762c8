// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <map>

#include "io/write/finding_writer.h"
#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

bool IsDamper(LimitKind end) {
  return end == LimitKind::kDamperClosed || end == LimitKind::kDamperOpen;
}

bool IsTire(LimitKind end) {
  return end == LimitKind::kTireOnLip || end == LimitKind::kTireOnPanel;
}

// What is passed on the way to the end; a warning only where something ends it.
//   end   where the travel ends; not looked at unless `ended`
void TellEvents(const FindingWriter& writer, const std::string& where, const AxleLimit& limit,
                bool ended, double end) {
  for (const LimitHit& hit : limit.hits) {
    if (hit.limit.role != LimitRole::kPassed || !hit.at) continue;
    if (ended && std::abs(*hit.at) >= std::abs(end)) continue;
    const std::string text = fmt::format("{}: {} from {} of wheel travel on", where,
                                         NameOf(hit.limit), writer.Length(*hit.wheel_travel));
    writer.to->push_back({ended, text});
  }
}

void JudgeEnd(const FindingWriter& writer, const std::string& where, const AxleLimit& limit) {
  if (!limit.ended_by) {
    writer.Say(where + ": nothing in the file ends it");
    return;
  }
  const LimitHit& ender = limit.hits[*limit.ended_by];
  if (IsDamper(ender.limit.id.kind)) {
    writer.Warn(where + ": the damper is the stop (" + NameOf(ender.limit) + ")");
  } else if (ender.limit.id.kind != LimitKind::kStopSolid &&
             ender.limit.id.kind != LimitKind::kStrapTaut) {
    writer.Warn(where + ": " + NameOf(ender.limit) + " before a stop or a strap ends it");
  }
}

// What a spline keeps: the shaft's own limit, else the vehicle's.
double SlipAim(const Vehicle& vehicle, const LimitHit& hit) {
  const bool bottoms = hit.limit.id.kind == LimitKind::kShaftBottomed;
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    if (hit.limit.name != shaft.name + " driveshaft") continue;
    const auto& own = bottoms ? shaft.aims.bottom_least : shaft.aims.part_least;
    if (own) return *own;
  }
  return bottoms ? vehicle.aims.slip_at_bump : vehicle.aims.slip_at_droop;
}

// The aim for what is left of one thing; absent where there is none for it on this way.
//   coils   judged here: where parts are advised, JudgeCoils does over all the axle can do
std::optional<double> AimOf(const Vehicle& vehicle, const LimitHit& hit, LimitMotion motion,
                            bool coils) {
  const bool bump = motion == LimitMotion::kBump, droop = motion == LimitMotion::kDroop;
  const Aims& aims = vehicle.aims;
  const bool slips = hit.limit.id.kind == LimitKind::kShaftBottomed ||
                     hit.limit.id.kind == LimitKind::kShaftParted;
  if (slips && (bump || droop)) return SlipAim(vehicle, hit);  // arms may make it short in droop
  if (hit.limit.id.kind == LimitKind::kJointAtLimit) return aims.joint_reserve;
  if (IsTire(hit.limit.id.kind)) return aims.tire_clearance;
  if (IsDamper(hit.limit.id.kind)) return aims.damper_reserve;
  if (hit.limit.id.kind == LimitKind::kCoilBound && coils && bump) return aims.coil_gap;
  if (hit.limit.id.kind == LimitKind::kCoilUnseated && coils && droop) return aims.coil_preload;
  return std::nullopt;
}

// What is short of its aim where the travel ends, but not past it: of each kind the nearest, and
// neither what ends it nor its twin on the other side.
void JudgeMargins(const FindingWriter& writer, const std::string& where, const AxleLimit& limit,
                  bool ends, bool coils) {
  const LimitHit* ender = ends && limit.ended_by ? &limit.hits[*limit.ended_by] : nullptr;
  std::map<LimitKind, const LimitHit*> nearest;
  for (const LimitHit& hit : limit.hits) {
    if (!hit.left || !hit.at_rest || *hit.left >= *hit.at_rest) continue;
    if (*hit.left <= kEndTolerance || (ender != nullptr && AreTwins(hit.limit, ender->limit)))
      continue;
    const LimitHit*& least = nearest[hit.limit.id.kind];
    if (least == nullptr || *hit.left < *least->left) least = &hit;
  }
  for (const auto& [end, hit] : nearest) {
    const std::optional<double> aim = AimOf(*writer.vehicle, *hit, limit.motion, coils);
    if (!aim || *hit->left >= *aim) continue;
    const Dimension d = IsAngle(end) ? Dimension::kAngle : Dimension::kLength;
    writer.Warn(fmt::format("{}: {} left before {}, aim {} or more", where,
                            ShowAmount(*hit->left, d, writer.units), NameOf(hit->limit),
                            ShowAmount(*aim, d, writer.units)));
  }
}

void JudgeRest(const FindingWriter& writer, const std::string& where, const AxleLimit& bump) {
  const double bump_left = writer.vehicle->aims.bump_left;
  const double damper_left = writer.vehicle->aims.damper_left;
  if (bump.ended_by && bump.parameter < bump_left) {
    writer.Warn(fmt::format("{}: {} of bump is left at rest, aim {} or more", where,
                            writer.Length(bump.parameter), writer.Length(bump_left)));
  }
  for (const LimitKind end : {LimitKind::kDamperClosed, LimitKind::kDamperOpen}) {
    const LimitHit* least = nullptr;
    for (const LimitHit& hit : bump.hits) {
      if (hit.limit.id.kind != end || !hit.at_rest) continue;
      if (least == nullptr || *hit.at_rest < *least->at_rest) least = &hit;
    }
    if (least == nullptr || *least->at_rest >= damper_left) continue;
    writer.Warn(fmt::format("{}: {} left at rest before {}, aim {} or more", where,
                            writer.Length(*least->at_rest), NameOf(least->limit),
                            writer.Length(damper_left)));
  }
}

// What ends the travel before the parts advised would: the first by how much, the rest by name.
void TellInTheWay(const FindingWriter& writer, const PartsAdvice& advice) {
  const std::vector<InTheWay>& all = advice.in_the_way;
  for (size_t i = 0; i < all.size();) {
    const InTheWay& first = all[i];
    const bool crossed =
        first.motion == LimitMotion::kCrossUp || first.motion == LimitMotion::kCrossDown;
    std::string text = fmt::format(
        "{} {}: {}, but {} comes first, at {}: {} short", writer.vehicle->axles[first.axle].name,
        NameOf(first.motion),
        crossed ? "the stops and straps advised let a wheel rise by " + writer.Length(first.wanted)
                : writer.Length(first.wanted) + " is wanted",
        NameOf(first.limit), writer.Length(first.at), writer.Length(first.short_by));
    std::string rest;
    for (++i; i < all.size() && all[i].axle == first.axle && all[i].motion == first.motion; ++i) {
      rest += fmt::format("{}{} at {}", rest.empty() ? "" : ", ", NameOf(all[i].limit),
                          writer.Length(all[i].at));
    }
    if (!rest.empty()) text += "; then " + rest;
    writer.Warn(text + "; no damper, stop or strap mends that");
  }
}

void JudgeWish(const FindingWriter& writer, size_t axle, const PartsAdvice& advice) {
  const std::string& name = writer.vehicle->axles[axle].name;
  if (!advice.reached[axle]) {
    writer.Warn(name +
                ": the links do not follow everywhere in the travel that is wanted, one wheel up "
                "and the other down");
  }
  for (size_t i = 0; i < 2; ++i) {
    const auto& wanted = i == 0 ? advice.wanted[axle].bump : advice.wanted[axle].droop;
    const char* way = i == 0 ? "bump" : "droop";
    if (wanted) continue;
    writer.Say(
        fmt::format("{}: no {} is wanted and none is found, so no parts are advised for it; "
                    "ask with --{}",
                    name, way, way));
  }
}

// Heights that are no order: of a stop that cannot be so short, or that lifts or lowers the truck.
void JudgeStops(const FindingWriter& writer, const PartsAdvice& advice) {
  for (const StopAdvice& stop : advice.stops) {
    const std::string name = writer.vehicle->axles[stop.axle].name + " " + stop.member;
    if (stop.solid <= 0.0) {
      writer.Warn(fmt::format(
          "{}: in the wanted bump its pad goes {} past its seat, so that no stop is short enough: "
          "want less bump, or move the seat",
          name, writer.Length(-stop.solid)));
    }
    if (!stop.rest_squeeze) continue;
    const std::string touch =
        *stop.rest_squeeze > 0.0
            ? fmt::format("is squeezed by {} at rest", writer.Length(*stop.rest_squeeze))
            : std::string("no longer touches at rest");
    if (!advice.rest_moves) {
      writer.Warn(fmt::format(
          "{}: as high as the wanted bump asks it {}, so that the truck then stands otherwise, and "
          "no heights are found that give this bump from there: want less bump, or move the seat",
          name, touch));
      continue;
    }
    const double rises = -(*advice.rest_moves)[stop.axle];
    writer.Warn(
        fmt::format("{}: as high as advised it {}, so that the {} then stands {} {} than "
                    "now; the parts here are for that",
                    name, touch, writer.vehicle->axles[stop.axle].name,
                    writer.Length(std::abs(rises)), rises > 0.0 ? "higher" : "lower"));
  }
}

void JudgeCoils(const FindingWriter& writer, const PartsAdvice& advice) {
  const Aims& aims = writer.vehicle->aims;
  for (const CoilAdvice& coil : advice.coils) {
    const std::string name = writer.vehicle->axles[coil.axle].name + " " + coil.member;
    if (coil.preload < 0.0) {
      writer.Warn(
          fmt::format("{}: off its seat by {} where it is longest in the wanted travel: "
                      "keep it in, or shorten the strap",
                      name, writer.Length(-coil.preload)));
    } else if (coil.preload < aims.coil_preload) {
      writer.Warn(fmt::format("{}: {} of preload in the wanted travel, aim {} or more", name,
                              writer.Length(coil.preload), writer.Length(aims.coil_preload)));
    }
    if (coil.gap && *coil.gap < aims.coil_gap) {
      writer.Warn(
          fmt::format("{}: {} left before it is solid in the wanted travel, aim {} or "
                      "more: a taller stop",
                      name, writer.Length(*coil.gap), writer.Length(aims.coil_gap)));
    }
  }
}

// Parts that the file has none of.
void TellMissing(const FindingWriter& writer, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  if (it.bump_stops.empty()) {
    writer.Warn(it.name + ": the file has no bump stop, so that something else must end bump");
  }
  if (it.straps.empty()) {
    writer.Say(it.name + ": the file has no strap, so that something else must end droop");
  }
}

}  // namespace

std::vector<Finding> LimitsFindings(const Vehicle& vehicle, const LimitsReport& limits,
                                    const PartsAdvice& advice, UnitSystem units, bool planned) {
  std::vector<Finding> findings;
  const FindingWriter writer{&vehicle, units, &findings};
  const std::string found = planned ? " as found" : "";
  if (planned) {
    writer.Say(
        "of the travel wanted, what is in the way and the coils are judged; lines that say 'as "
        "found' are of the vehicle as the file has it, without the parts advised");
  }
  for (size_t axle = 0; axle < 2; ++axle) {
    const std::string& name = vehicle.axles[axle].name;
    const bool coils = !advice.wanted[axle].bump || !advice.wanted[axle].droop;
    TellMissing(writer, axle);
    JudgeRest(writer, name + found, limits.bounce[axle][0]);
    for (const AxleLimit& limit : limits.bounce[axle]) {
      const std::string where = name + " " + NameOf(limit.motion) + found;
      JudgeEnd(writer, where, limit);
      TellEvents(writer, where, limit, limit.ended_by.has_value(), limit.parameter);
      JudgeMargins(writer, where, limit, true, coils);
    }
    for (const CrossedLimit& crossed : limits.crossed) {
      const AxleLimit& limit = crossed.axles[axle];
      const std::string where = name + " " + NameOf(limit.motion) + found;
      const bool first = crossed.first == axle;
      if (first || !crossed.first) JudgeEnd(writer, where, limit);
      TellEvents(writer, where, limit, crossed.first.has_value(), crossed.angle);
      JudgeMargins(writer, where, limit, first, coils);
    }
    JudgeWish(writer, axle, advice);
  }
  TellInTheWay(writer, advice);
  JudgeStops(writer, advice);
  JudgeCoils(writer, advice);
  for (size_t axle = 0; axle < 2; ++axle) SayUnwatched(writer, axle);
  return findings;
}

}  // namespace linkwright
