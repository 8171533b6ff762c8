// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "io/write/amount.h"
#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

// Collects sentences about one vehicle.
struct Writer {
  const Vehicle* vehicle;
  const LimitAims* aims;
  UnitSystem units;
  std::vector<Finding>* to;

  [[nodiscard]] std::string Length(double si) const {
    return ShowAmount(si, Dimension::kLength, units);
  }
  void Warn(std::string text) const { to->push_back({true, std::move(text)}); }
  void Say(std::string text) const { to->push_back({false, std::move(text)}); }
};

bool IsDamper(TravelEnd end) {
  return end == TravelEnd::kDamperClosed || end == TravelEnd::kDamperOpen;
}

bool IsTire(TravelEnd end) {
  return end == TravelEnd::kTireOnLip || end == TravelEnd::kTireOnPanel;
}

void JudgeEnd(const Writer& writer, const std::string& where, const AxleLimit& limit) {
  if (!limit.ended_by) {
    writer.Say(where + ": nothing in the file ends it");
    return;
  }
  const RunOut& ender = limit.run_outs[*limit.ended_by];
  if (IsDamper(ender.end)) {
    writer.Warn(where + ": the damper is the stop (" + NameOf(ender) + ")");
  }
  if (ender.end == TravelEnd::kShaftBottomed || ender.end == TravelEnd::kShaftParted ||
      IsTire(ender.end) || ender.end == TravelEnd::kJointAtLimit) {
    writer.Warn(where + ": " + NameOf(ender) + " before a stop or a strap ends it");
  }
  for (const RunOut& run_out : limit.run_outs) {
    if (!run_out.event || !run_out.at || std::abs(*run_out.at) >= std::abs(limit.parameter)) {
      continue;
    }
    writer.Warn(fmt::format("{}: {} from {} of wheel travel on", where, NameOf(run_out),
                            writer.Length(*run_out.wheel_travel)));
  }
}

// The aim for what is left of one thing; absent where there is none for it on this way. Coils are
// judged over the whole of the wanted travel instead.
std::optional<double> AimOf(const LimitAims& aims, const RunOut& run_out, LimitMotion motion) {
  const bool bump = motion == LimitMotion::kBump, droop = motion == LimitMotion::kDroop;
  if (run_out.end == TravelEnd::kShaftBottomed && bump) return aims.slip_at_bump;
  if (run_out.end == TravelEnd::kShaftParted && droop) return aims.slip_at_droop;
  if (run_out.end == TravelEnd::kJointAtLimit) return aims.joint_reserve;
  if (IsTire(run_out.end)) return aims.tire_clearance;
  return std::nullopt;
}

// What is short of its aim where the travel ends, but not past it: of each kind the nearest, and
// not the twin of what ends it.
void JudgeMargins(const Writer& writer, const std::string& where, const AxleLimit& limit) {
  std::map<TravelEnd, const RunOut*> nearest;
  for (const RunOut& run_out : limit.run_outs) {
    if (!run_out.left || !run_out.at_rest || *run_out.left >= *run_out.at_rest) continue;
    const RunOut*& least = nearest[run_out.end];
    if (least == nullptr || *run_out.left < *least->left) least = &run_out;
  }
  if (limit.ended_by) nearest.erase(limit.run_outs[*limit.ended_by].end);
  for (const auto& [end, run_out] : nearest) {
    const std::optional<double> aim = AimOf(*writer.aims, *run_out, limit.motion);
    if (!aim || *run_out->left >= *aim || *run_out->left <= kEndTolerance) continue;
    const Dimension d = IsAngle(end) ? Dimension::kAngle : Dimension::kLength;
    writer.Warn(fmt::format("{}: {} left before {}, aim {} or more", where,
                            ShowAmount(*run_out->left, d, writer.units), NameOf(*run_out),
                            ShowAmount(*aim, d, writer.units)));
  }
}

void JudgeRest(const Writer& writer, size_t axle, const LimitsReport& limits) {
  const std::string& name = writer.vehicle->axles[axle].name;
  const AxleLimit& bump = limits.bounce[axle][0];
  if (bump.ended_by && bump.parameter < writer.aims->bump_at_rest) {
    writer.Warn(fmt::format("{}: {} of bump is left at rest, aim {} or more", name,
                            writer.Length(bump.parameter),
                            writer.Length(writer.aims->bump_at_rest)));
  }
  for (const TravelEnd end : {TravelEnd::kDamperClosed, TravelEnd::kDamperOpen}) {
    const RunOut* least = nullptr;
    for (const RunOut& run_out : bump.run_outs) {
      if (run_out.end != end || !run_out.at_rest) continue;
      if (least == nullptr || *run_out.at_rest < *least->at_rest) least = &run_out;
    }
    if (least == nullptr || *least->at_rest >= writer.aims->damper_at_rest) continue;
    writer.Warn(fmt::format("{}: {} left at rest before {}, aim {} or more", name,
                            writer.Length(*least->at_rest), NameOf(*least),
                            writer.Length(writer.aims->damper_at_rest)));
  }
}

// Other things that end the travel before what was asked for.
void JudgeWish(const Writer& writer, size_t axle, const LimitsReport& limits,
               const PartsAdvice& advice) {
  const std::string& name = writer.vehicle->axles[axle].name;
  if (!advice.reached[axle]) {
    writer.Warn(name + ": the links do not follow everywhere in the travel that is wanted");
  }
  for (size_t i = 0; i < 2; ++i) {
    const auto& wanted = i == 0 ? advice.wanted[axle].bump : advice.wanted[axle].droop;
    if (!wanted) {
      writer.Say(
          fmt::format("{}: no {} is wanted and none is found, so no parts are advised for "
                      "it; ask with --{}",
                      name, i == 0 ? "bump" : "droop", i == 0 ? "bump" : "droop"));
      continue;
    }
    for (const RunOut& run_out : limits.bounce[axle][i].run_outs) {
      const bool replaced = IsDamper(run_out.end) || run_out.end == TravelEnd::kStopSolid ||
                            run_out.end == TravelEnd::kStrapTaut || run_out.event;
      constexpr double kSame = 1e-6;  // [m] the travel as found is no shortfall
      if (replaced || !run_out.at || std::abs(*run_out.at) > *wanted - kSame) continue;
      writer.Warn(
          fmt::format("{} {}: {} is wanted, but {} at {}; no damper, stop or strap mends "
                      "that",
                      name, i == 0 ? "bump" : "droop", writer.Length(i == 0 ? *wanted : -*wanted),
                      NameOf(run_out), writer.Length(*run_out.at)));
    }
  }
}

void JudgeCoils(const Writer& writer, const PartsAdvice& advice) {
  for (const CoilAdvice& coil : advice.coils) {
    const std::string name = writer.vehicle->axles[coil.axle].name + " " + coil.member;
    if (coil.preload < 0.0) {
      writer.Warn(
          fmt::format("{}: off its seat by {} where it is longest in the wanted travel: "
                      "keep it in, or shorten the strap",
                      name, writer.Length(-coil.preload)));
    } else if (coil.preload < writer.aims->coil_preload) {
      writer.Warn(fmt::format("{}: {} of preload in the wanted travel, aim {} or more", name,
                              writer.Length(coil.preload),
                              writer.Length(writer.aims->coil_preload)));
    }
    if (coil.gap && *coil.gap < writer.aims->coil_gap) {
      writer.Warn(
          fmt::format("{}: {} left before it is solid in the wanted travel, aim {} or "
                      "more: a taller stop",
                      name, writer.Length(*coil.gap), writer.Length(writer.aims->coil_gap)));
    }
  }
}

template <typename Members, typename F>
void AddMissing(std::set<std::string>& what, const Members& members, const char* text,
                const F& lacks) {
  if (std::any_of(members.begin(), members.end(), lacks)) what.insert(text);
}

void SayUnwatched(const Writer& writer, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  std::set<std::string> what;
  AddMissing(what, it.springs, "coils going solid (solid_length)",
             [](const Spring& s) { return !s.solid_length && s.law.curve.empty(); });
  AddMissing(what, it.dampers, "dampers' ends (shortest, longest)",
             [](const Damper& d) { return !d.shortest || !d.longest; });
  AddMissing(what, it.bump_stops, "stops going solid (curve)",
             [](const Stop& s) { return s.law.curve.empty(); });
  AddMissing(what, it.straps, "straps (length)", [](const Strap& s) { return !s.length; });
  AddMissing(what, it.links, "joints of links (misalignment_limit)",
             [](const Link& l) { return !l.misalignment_limit; });
  for (const Driveshaft& shaft : writer.vehicle->driveshafts) {
    if (static_cast<size_t>(shaft.axle) == axle && !shaft.slip) what.insert("the spline (slip)");
  }
  if (!it.opening || !it.opening->radius) what.insert("tyre at the lip (openings: radius)");
  if (!it.opening || !it.opening->inner_panel_y) {
    what.insert("tyre at the inner panel (openings: inner_panel_y)");
  }
  if (it.opening && it.opening->radius && !it.opening->lip_y) {
    writer.Say(it.name +
               ": assumed: the opening has no lip_y, so its lip is taken to reach across "
               "the whole tyre; a tyre that tucks in behind it goes farther");
  }
  if (what.empty()) return;
  std::string text;
  for (const std::string& each : what) text += (text.empty() ? "" : "; ") + each;
  writer.Say(it.name + ", not watched for want of data: " + text);
}

}  // namespace

std::vector<Finding> LimitsFindings(const Vehicle& vehicle, const LimitsReport& limits,
                                    const PartsAdvice& advice, const LimitAims& aims,
                                    UnitSystem units) {
  std::vector<Finding> findings;
  const Writer writer{&vehicle, &aims, units, &findings};
  constexpr std::array kWays{" bump", " droop"}, kCrossings{" crossed +", " crossed -"};
  for (size_t axle = 0; axle < 2; ++axle) {
    const std::string& name = vehicle.axles[axle].name;
    JudgeRest(writer, axle, limits);
    for (size_t i = 0; i < 2; ++i) {
      JudgeEnd(writer, name + kWays[i], limits.bounce[axle][i]);
      JudgeMargins(writer, name + kWays[i], limits.bounce[axle][i]);
    }
    for (size_t i = 0; i < 2; ++i) {
      if (limits.crossed[i].first) {
        if (limits.crossed[i].first == axle) {
          JudgeEnd(writer, name + kCrossings[i], limits.crossed[i].axles[axle]);
        }
        JudgeMargins(writer, name + kCrossings[i], limits.crossed[i].axles[axle]);
      }
    }
    JudgeWish(writer, axle, limits, advice);
  }
  JudgeCoils(writer, advice);
  for (size_t axle = 0; axle < 2; ++axle) SayUnwatched(writer, axle);
  return findings;
}

}  // namespace linkwright
