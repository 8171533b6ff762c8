// SPDX-License-Identifier: MIT
#include "io/write/openings_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "io/write/amount.h"
#include "io/write/listed.h"

namespace linkwright {
namespace {

using enum Dimension;

// What the sentences are about.
struct OpeningsTeller {
  const Vehicle& vehicle;
  const OpeningsAnswer& answer;
  UnitSystem units;

  [[nodiscard]] std::string Length(double si) const {
    return ShowAmount(std::abs(si), kLength, units);
  }
  // A tape reads nothing of it.
  [[nodiscard]] bool IsNone(double si) const { return Length(si) == Length(0.0); }
  [[nodiscard]] std::string Way(double si, const char* plus, const char* minus) const {
    return Length(si) + " " + (si < 0.0 ? minus : plus);
  }
  // "6 mm ahead of and 9 mm above", of a place against the opening's centre; empty: in it.
  [[nodiscard]] std::string Beside(const Offset& from) const {
    std::vector<std::string> ways;
    if (!IsNone(from.ahead)) ways.push_back(Way(from.ahead, "ahead of", "behind"));
    if (!IsNone(from.up)) ways.push_back(Way(from.up, "above", "below"));
    return Listed(ways);
  }
};

const char* ThereAt(size_t axle) { return axle == 0 ? "in front" : "at the rear"; }

void SayWhereTheyStand(const OpeningsTeller& t, std::vector<std::string>& to) {
  std::vector<std::string> parts;
  for (const size_t axle : AxlesOf(t.vehicle)) {
    Offset sum{0.0, 0.0};
    double count = 0.0;
    for (const WheelInOpening& wheel : t.answer.report.wheels) {
      if (wheel.axle == axle) sum.ahead += wheel.ahead, sum.up += wheel.up, count += 1.0;
    }
    if (count == 0.0) continue;
    const std::string beside = t.Beside({sum.ahead / count, sum.up / count});
    parts.push_back(
        fmt::format("{} {}", ThereAt(axle), beside.empty() ? "centred" : beside + " the centre"));
  }
  if (parts.empty()) {
    to.emplace_back("The file gives no opening, so nothing is said of the wheels in theirs.");
  } else {
    to.push_back(Sentence(t.answer.under + " the wheels stand in their openings ", parts,
                          "in their openings at rest"));
  }
}

const char* SurfaceName(Surface surface) {
  return surface == Surface::kLip ? "lip" : "inner panel";
}

void SayFirstTouch(const OpeningsTeller& t, std::vector<std::string>& to) {
  std::vector<std::string> parts;
  for (const FirstTouch& touch : t.answer.touches) {
    parts.push_back(fmt::format(
        "{} the {} tyre at its {}, {}", ThereAt(touch.axle), touch.side == 0 ? "left" : "right",
        SurfaceName(touch.surface),
        t.IsNone(touch.travel) ? "at rest already" : "after " + t.Length(touch.travel)));
  }
  if (!parts.empty()) {
    to.push_back("As both wheels rise the first to touch is " + Listed(parts) + ".");
  } else if (!t.answer.report.clearances.empty()) {
    to.emplace_back("As both wheels rise no tyre touches before their travel ends.");
  }
}

bool IsNothingToDo(const OpeningsTeller& t, const BodyMove& move) {
  return t.IsNone(move.ahead) && t.IsNone(move.up_front) && t.IsNone(move.up_rear) &&
         t.IsNone(move.longer);
}

void SayWhatToDo(const OpeningsTeller& t, std::vector<std::string>& to) {
  if (t.answer.plans.empty()) {
    if (!t.vehicle.only_axle) {
      to.emplace_back("Both axles need an opening before there is a plan to centre the wheels.");
    }
    return;
  }
  const CentringPlan& first = t.answer.plans.front();
  if (!first.found) {
    to.emplace_back("No plan was found that centres them.");
    return;
  }
  const BodyMove& move = first.move;
  if (IsNothingToDo(t, move)) {
    to.emplace_back("There is nothing to cut or to move.");
    return;
  }
  std::vector<std::string> steps;
  if (!t.IsNone(move.longer)) {
    steps.push_back((move.longer > 0.0 ? "let " + t.Length(move.longer) + " into"
                                       : "cut " + t.Length(move.longer) + " out of") +
                    " the chassis between the axles");
  }
  if (!t.IsNone(move.ahead)) {
    steps.push_back("set the body " + t.Way(move.ahead, "forward", "back") + " on the chassis");
  }
  std::vector<std::string> heights;
  if (!t.IsNone(move.up_front)) heights.push_back(t.Way(move.up_front, "up", "down") + " in front");
  if (!t.IsNone(move.up_rear)) {
    heights.push_back(t.Way(move.up_rear, "up", "down") + " at the rear");
  }
  if (!heights.empty()) steps.push_back("set it " + Listed(heights) + " on its pucks");
  to.push_back((first.share == 1.0 ? "To centre them " : "To bring them nearer ") + Listed(steps) +
               ".");
}

// What is left with the body moved alone, where the chassis takes some of the mismatch.
void SayBodyAlone(const OpeningsTeller& t, std::vector<std::string>& to) {
  const std::vector<CentringPlan>& plans = t.answer.plans;
  if (plans.size() < 2 || !plans.front().found || !plans.back().found) return;
  const CentringPlan& alone = plans.back();
  if (t.IsNone(alone.after[0].ahead) && t.IsNone(alone.after[1].ahead)) return;
  to.push_back(fmt::format(
      "With the chassis left whole{} the wheels stay {} the centre in front and {} it at the rear.",
      t.IsNone(alone.move.ahead)
          ? ""
          : " the body goes " + t.Way(alone.move.ahead, "forward", "back") + ", and",
      t.Way(alone.after[0].ahead, "ahead of", "behind"),
      t.Way(alone.after[1].ahead, "ahead of", "behind")));
}

void SayShaftsThen(const OpeningsTeller& t, std::vector<std::string>& to) {
  if (t.answer.plans.empty() || !t.answer.plans.front().found) return;
  if (t.IsNone(t.answer.plans.front().move.longer)) return;
  std::vector<std::string> parts;
  for (const ShaftChange& shaft : t.answer.plans.front().shafts) {
    if (t.IsNone(shaft.longer)) continue;
    parts.push_back(fmt::format("the {} driveshaft must be {} for it", shaft.name,
                                t.Way(shaft.longer, "longer", "shorter")));
  }
  if (parts.empty()) return;
  to.push_back(Sentence("", parts, "shafts then"));
  to.back().pop_back();
  to.back() += "; brake lines, cables, wiring and exhaust follow the cut too.";
}

// How near the tyres come in each motion: clear, nearer than they should, inside the body.
void SayWhetherClear(const OpeningsTeller& t, std::vector<std::string>& to) {
  const OpeningsReport& report = t.answer.after ? t.answer.after->report : t.answer.report;
  struct Situation {
    const char* name;
    std::optional<TireMotion> motion;
  };
  constexpr std::array kSituations{Situation{"at rest", TireMotion::kRest},
                                   Situation{"in bump and droop", TireMotion::kBounce},
                                   Situation{"crossed", TireMotion::kCrossed},
                                   Situation{"with one wheel moved", TireMotion::kOneWheel},
                                   Situation{"rolled", TireMotion::kRoll},
                                   Situation{"lock to lock", std::nullopt}};
  const double aim = t.vehicle.aims.tire_clearance;
  std::vector<std::string> clear, near, inside;
  for (const auto& [name, motion] : kSituations) {
    std::optional<double> least;
    size_t whose = 0;
    for (const size_t axle : AxlesOf(t.vehicle)) {
      const std::optional<double> gap = LeastGap(report, axle, motion);
      if (gap && (!least || *gap < *least)) least = gap, whose = axle;
    }
    if (!least) continue;
    (*least >= aim   ? clear
     : *least >= 0.0 ? near
                     : inside)
        .push_back(
            fmt::format("{} {}{}", name, t.Length(*least),
                        t.vehicle.only_axle ? "" : " (" + t.vehicle.axles[whose].name + ")"));
  }
  std::vector<std::string> parts;
  if (!clear.empty()) parts.push_back("clear " + Listed(clear));
  if (!near.empty()) parts.push_back("nearer than " + t.Length(aim) + " " + Listed(near));
  if (!inside.empty()) parts.push_back("inside the body " + Listed(inside));
  if (parts.empty()) return;
  to.push_back(Sentence(t.answer.after ? "With that done the tyres are " : "The tyres are ", parts,
                        t.answer.after ? "after the plan" : "clearance by motion"));
}

void SayTrims(const OpeningsTeller& t, std::vector<std::string>& to) {
  const std::string aim = t.Length(t.vehicle.aims.tire_clearance);
  const OpeningsReport& report = t.answer.after ? t.answer.after->report : t.answer.report;
  if (report.clearances.empty()) return;
  if (t.answer.trims.empty()) {
    to.push_back("No lip has to be trimmed: every tyre keeps the " + aim + " that it should.");
    return;
  }
  std::vector<std::string> parts;
  for (const BodyTrim& trim : t.answer.trims) {
    const std::string beside = t.Beside(trim.from_center);
    const bool lip = trim.surface == Surface::kLip;
    parts.push_back(fmt::format("{} the {} {} by up to {}, deepest {}", lip ? "trim" : "set in",
                                t.vehicle.axles[trim.axle].name, SurfaceName(trim.surface),
                                t.Length(trim.by),
                                beside.empty() ? "at its centre" : beside + " its centre"));
  }
  to.push_back(Sentence("For " + aim + " of clearance, ", parts, "trim"));
}

}  // namespace

std::vector<std::string> OpeningsSentences(const Vehicle& vehicle, const OpeningsAnswer& answer,
                                           UnitSystem units) {
  const OpeningsTeller t{vehicle, answer, units};
  std::vector<std::string> said;
  SayWhereTheyStand(t, said);
  SayFirstTouch(t, said);
  SayWhatToDo(t, said);
  SayBodyAlone(t, said);
  SayShaftsThen(t, said);
  SayWhetherClear(t, said);
  SayTrims(t, said);
  return said;
}

}  // namespace linkwright
