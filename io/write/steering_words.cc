// SPDX-License-Identifier: MIT
#include "io/write/steering_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/write/amount.h"
#include "io/write/listed.h"
#include "io/write/steering_tables.h"
#include "solver/study/findings/steering_findings.h"

namespace linkwright {
namespace {

using enum Dimension;

// One steered axle, and how amounts are shown.
struct SteeringTeller {
  const Vehicle& vehicle;
  const SteeredAxle& steered;
  UnitSystem units;

  [[nodiscard]] const Axle& TheAxle() const { return vehicle.axles[steered.axle]; }
  [[nodiscard]] std::string Length(double si) const {
    return ShowAmount(std::abs(si), kLength, units);
  }
  [[nodiscard]] std::string Angle(double si) const {
    return ShowAmount(std::abs(si), kAngle, units);
  }
  [[nodiscard]] bool IsNoLength(double si) const { return Length(si) == Length(0.0); }
  [[nodiscard]] bool IsNoAngle(double si) const { return Angle(si) == Angle(0.0); }
  // "0.3 deg right"; "none".
  [[nodiscard]] std::string Turned(double si) const {
    return IsNoAngle(si) ? "none" : Angle(si) + (si > 0.0 ? " left" : " right");
  }
};

// The rows of travel that the axle reaches.
std::vector<const SweepRow*> ReachedRows(const SteeringTeller& t) {
  std::vector<const SweepRow*> rows;
  for (const SweepRow& row : t.steered.travel.rows) {
    if (row.axles[t.steered.axle]) rows.push_back(&row);
  }
  return rows;
}

const AxleRow& RowOf(const SteeringTeller& t, const SweepRow& row) {
  return *row.axles[t.steered.axle];
}

std::string BumpSteerWords(const SteeringTeller& t) {
  const std::vector<const SweepRow*> rows = ReachedRows(t);
  const AxleRow& rest = RowOf(t, AtRest(t.steered.travel));
  if (!rest.steer_rate) {
    return fmt::format(
        "The {} drag link stands in line at rest and holds the wheel by nothing: "
        "move one of its ends.",
        t.TheAxle().name);
  }
  const double stretch = t.units == UnitSystem::kMetric ? 0.025 : 0.0254;  // [m]
  const auto over_it = [&](double rate) {
    return ShowNumber(FromSi(std::abs(rate) * stretch, kAngle, t.units), 2) + " deg";
  };
  const double rate = *rest.steer_rate;
  std::vector<std::string> parts{fmt::format("{} of bump {} {} at rest",
                                             t.units == UnitSystem::kMetric ? "25 mm" : "1 in",
                                             over_it(rate), rate > 0.0 ? "left" : "right")};
  const std::optional<double>& aim = t.TheAxle().steering->aims.steer_rate;
  if (aim) {
    parts.back() += fmt::format(", {} the {} that are usual",
                                std::abs(rate) > *aim ? "more than" : "within", over_it(*aim));
  }
  const auto add = [&](const SweepRow& row, const char* way) {
    const std::optional<double>& steer = RowOf(t, row).steer;
    if (!steer || t.IsNoLength(row.travel)) return;
    parts.push_back(fmt::format("{} of {} {}", t.Length(row.travel), way, t.Turned(*steer)));
  };
  add(*rows.back(), "bump");
  add(*rows.front(), "droop");
  return Sentence("With the steering wheel held the " + t.TheAxle().name + " wheels steer: ", parts,
                  t.TheAxle().name + " travel");
}

// Where one end of the track bar goes.
std::string MoveWords(const SteeringTeller& t, const BarMove& move) {
  const bool on_axle = move.kind == BarMoveKind::kAxleEndToMatch;
  std::vector<std::string> ways;
  const auto add = [&](double by, const char* plus, const char* minus) {
    if (!t.IsNoLength(by)) ways.push_back(t.Length(by) + (by > 0.0 ? plus : minus));
  };
  add(move.by.z(), " up", " down");
  add(move.by.y(), " to the left", " to the right");
  add(move.by.x(), " forward", " back");
  return fmt::format("{} {}", on_axle ? "axle end" : "frame end",
                     ways.empty() ? "as it is" : Listed(ways));
}

bool IsSteeringPast(const SteeringTeller& t, const SteeringReport& report) {
  const std::vector<Finding> findings = SteeringFindings(t.vehicle, report);
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return finding.past && finding.axle == t.steered.axle &&
           finding.kind != FindingKind::kOffCenter;
  });
}

// What to do with the track bar.
std::string TrackBarWords(const SteeringTeller& t, const SteeringReport& report) {
  if (!t.steered.match) {
    return fmt::format(
        "No link of the {} axle lies across, so no track bar has to match the drag "
        "link.",
        t.TheAxle().name);
  }
  const BarMatch& match = *t.steered.match;
  if (!IsSteeringPast(t, report)) {
    return fmt::format(
        "Leave the {} where it is: from in front it differs from the drag link by {} of "
        "slope and {} of length.",
        match.bar, t.Angle(match.bar_slope - match.drag_slope),
        t.Length(match.bar_length - match.drag_length));
  }
  std::vector<std::string> parts;
  for (const BarMoveKind kind : {BarMoveKind::kFrameEndNoSteer, BarMoveKind::kFrameEndToMatch,
                                 BarMoveKind::kAxleEndToMatch}) {
    const auto move = std::find_if(t.steered.moves.begin(), t.steered.moves.end(),
                                   [kind](const BarMove& each) { return each.kind == kind; });
    if (move == t.steered.moves.end()) continue;
    parts.push_back(fmt::format("{}, {} long, {}", MoveWords(t, *move), t.Length(move->length),
                                kind == BarMoveKind::kFrameEndNoSteer
                                    ? "so that bump steers nothing at rest"
                                    : "so that it lies like the drag link"));
    if (parts.size() == 2) break;  // the axle end where the frame end has one place or none
  }
  if (parts.empty()) {
    return fmt::format("No place for the {} within {} of where it is mends that.", match.bar,
                       t.Length(kMostMove));
  }
  for (size_t i = 1; i < parts.size(); ++i) parts[i] = "or its " + parts[i];
  return Sentence(fmt::format("Move the {}: its ", match.bar), parts,
                  t.TheAxle().name + " track bar moved");
}

std::string ToeWords(const SteeringTeller& t) {
  if (!t.steered.tie_rod) {
    return "The file gives no tie_rod, so both wheels are taken to steer alike and toe is not "
           "told.";
  }
  const auto toe = [&](const SweepRow& row) {
    const std::optional<double>& in = RowOf(t, row).toe_in;
    if (!in || t.IsNoAngle(*in)) return std::string("none");
    return t.Angle(*in) + (*in > 0.0 ? " toe-in" : " toe-out");
  };
  const std::vector<const SweepRow*> rows = ReachedRows(t);
  const std::string bump = toe(*rows.back()), droop = toe(*rows.front());
  if (bump == "none" && droop == "none") return "Toe does not change with travel.";
  return fmt::format("Toe changes over the travel: {} at full bump, {} at full droop.", bump,
                     droop);
}

// Inner against outer wheel at both ends of the steering.
std::string AckermannWords(const SteeringTeller& t) {
  if (!t.steered.tie_rod || t.steered.lock.empty()) return {};
  std::vector<std::string> parts;
  for (const HandRow* row : {&t.steered.lock.front(), &t.steered.lock.back()}) {
    if (!row->wanted || t.IsNoAngle(row->left)) continue;
    const double error = row->difference - *row->wanted;
    parts.push_back(fmt::format(
        "steered {} {} the inner wheel turns {} {} than the outer; Ackermann asks {} more",
        t.Angle(row->left), row->left > 0.0 ? "left" : "right", t.Angle(row->difference),
        row->difference < 0.0 ? "less" : "more", t.Angle(*row->wanted)));
    if (!t.IsNoAngle(error)) {
      parts.back() += fmt::format(", so {} of toe-{}", t.Angle(error), error < 0.0 ? "in" : "out");
    }
  }
  return parts.empty() ? std::string() : Sentence("", parts, t.TheAxle().name + " lock to lock");
}

std::string CasterWords(const SteeringTeller& t) {
  const std::vector<const SweepRow*> rows = ReachedRows(t);
  const AxleRow& rest = RowOf(t, AtRest(t.steered.travel));
  const auto& droop = RowOf(t, *rows.front()).caster;
  const auto& bump = RowOf(t, *rows.back()).caster;
  if (!rest.caster || !droop || !bump) return {};
  const auto show = [&](double caster) { return ShowAmount(caster, kAngle, t.units); };
  return fmt::format("Caster is {} at rest, {} at full droop and {} at full bump.",
                     show(*rest.caster), show(*droop), show(*bump));
}

std::string RollSteerWords(const SteeringTeller& t) {
  const std::optional<double> per_roll = SteerPerBodyRoll(AtRest(t.steered.roll), t.steered.axle);
  if (!per_roll) return {};
  const std::string rate = ShowNumber(std::abs(*per_roll), 2);
  if (rate == ShowNumber(0.0, 2)) return "Body roll steers the wheels by nothing to speak of.";
  return fmt::format(
      "A degree of body roll steers the {} wheels {} deg {}.", t.TheAxle().name, rate,
      *per_roll > 0.0 ? "into the bend (oversteer)" : "out of the bend (understeer)");
}

// Where an axle stands sideways and what centres it.
std::string CentringWords(const Vehicle& vehicle, const SidewaysCure& cure, UnitSystem units) {
  const std::string& axle = vehicle.axles[cure.axle].name;
  const std::string off = ShowAmount(std::abs(cure.offset), kLength, units);
  if (off == ShowAmount(0.0, kLength, units)) return "the " + axle + " axle is centred";
  std::string text = fmt::format("the {} axle stands {} to the {}", axle, off,
                                 cure.offset > 0.0 ? "left" : "right");
  if (!cure.bar) return text + ", and no one link centres it";
  if (!cure.by) return text + ", farther than a shop can turn " + cure.bar->name;
  text += fmt::format(": {} {} {} centres it", cure.bar->name, ShowFine(std::abs(*cure.by), units),
                      *cure.by > 0.0 ? "longer" : "shorter");
  if (const std::optional<double> turns = TurnsOf(*cure.bar, *cure.by)) {
    text += fmt::format(" ({} turns)", ShowNumber(std::abs(*turns), 1));
  }
  if (cure.drag_link_by && ShowFine(std::abs(*cure.drag_link_by), units) != ShowFine(0.0, units)) {
    text +=
        fmt::format(", the drag link {} {} with it", ShowFine(std::abs(*cure.drag_link_by), units),
                    *cure.drag_link_by > 0.0 ? "longer" : "shorter");
  }
  return text;
}

}  // namespace

std::vector<std::string> SteeringSentences(const Vehicle& vehicle, const SteeringReport& report,
                                           UnitSystem units) {
  std::vector<std::string> said;
  const auto add = [&](std::string sentence) {
    if (!sentence.empty()) said.push_back(std::move(sentence));
  };
  for (const SteeredAxle& steered : report.axles) {
    const SteeringTeller t{vehicle, steered, units};
    add(BumpSteerWords(t));
    add(TrackBarWords(t, report));
    if (report.axles.size() > 1) continue;  // the rest of each is in the tables
    add(ToeWords(t));
    add(AckermannWords(t));
    add(CasterWords(t));
    add(RollSteerWords(t));
  }
  if (report.axles.empty()) {
    add("No axle has steering in the file, so nothing is said of it: give "
        "steering: {drag_link: {frame: ..., axle: ...}}.");
  }
  std::vector<std::string> parts;
  for (const SidewaysCure& cure : report.sideways) {
    parts.push_back(CentringWords(vehicle, cure, units));
  }
  if (!parts.empty()) add(Sentence("", parts, "sideways"));
  return said;
}

}  // namespace linkwright
