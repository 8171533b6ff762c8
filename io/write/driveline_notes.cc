// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "io/write/amount.h"
#include "io/write/driveline_tables.h"

namespace linkwright {
namespace {

using Kind = ShaftPlaceKind;

struct Teller {
  const Vehicle& vehicle;
  const ShaftReport& report;
  UnitSystem units;
  std::vector<std::string>& to;

  [[nodiscard]] const Driveshaft& Shaft() const { return vehicle.driveshafts[report.shaft]; }
  [[nodiscard]] std::string Amount(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Angle(double si) const { return Amount(si, Dimension::kAngle); }
  void Say(const std::string& text) const {
    to.push_back("the " + Shaft().name + " shaft: " + text);
  }
};

void TellEnds(const Teller& teller) {
  const auto tell = [&](const std::string& side, const std::optional<LimitHit>& end,
                        double looked) {
    teller.Say(
        end ? fmt::format("full {} is at {}: {}", side, teller.Amount(*end->at, Dimension::kLength),
                          Describe(end->limit))
            : fmt::format("nothing in the file ends its axle's travel in {}: it is looked at to "
                          "{}, and angles are greatest over that",
                          side, teller.Amount(looked, Dimension::kLength)));
  };
  tell("droop", teller.report.droop, teller.report.low);
  tell("bump", teller.report.bump, teller.report.high);
}

std::string Direction(const Teller& teller, double up) {
  return fmt::format("{} {}", teller.Angle(std::abs(up)), up > 0.0 ? "up" : "down");
}

void TellLinks(const Teller& teller, bool off) {
  for (const LinkCure& cure : teller.report.cures) {
    std::string turns;
    if (cure.links.thread) {
      turns = fmt::format(", {} turns of its adjuster",
                          ShowNumber(std::abs(cure.by / *cure.links.thread), 2));
    }
    teller.Say(fmt::format("turn {}{} {} by {}{}: net angle {}{}", cure.links.name,
                           cure.links.members.size() > 1 ? " (both alike)" : "",
                           cure.by > 0.0 ? "out, longer" : "in, shorter",
                           teller.Amount(std::abs(cure.by), Dimension::kLength), turns,
                           teller.Angle(cure.after.net_angle), off ? "" : ", if you want it"));
  }
  if (off && teller.report.cures.empty() && teller.report.no_cure.empty()) {
    teller.Say("no link of its axle lowers the net angle by its length");
  }
  if (teller.report.no_cure.empty()) return;
  std::string names;
  for (const std::string& name : teller.report.no_cure) names += (names.empty() ? "" : ", ") + name;
  teller.Say(
      fmt::format("no length that a shop can make does it by {}: {} either way on a "
                  "thread, {:.0f} % of its length where the file gives none (common "
                  "practice)",
                  names, teller.Amount(kMostByThread, Dimension::kLength), 100.0 * kMostByShare));
}

void TellAim(const Teller& teller) {
  const std::optional<PinionOrder>& aim = teller.report.aim;
  const ShaftAims& aims = teller.Shaft().aims;
  const double now = AtRest(teller.report).net_angle;
  if (!aim) {
    teller.Say(
        fmt::format("the double joint at the pinion lets it stand as it likes; what is left "
                    "uneven, {}, comes from the joints before it",
                    teller.Angle(now)));
    return;
  }
  const double low = teller.Shaft().pinion_low;
  if (low == 0.0 && now - aim->net_angle <= kFinder) {
    teller.Say(
        fmt::format("no turn of the pinion lowers its net angle at rest, {}, by what "
                    "a finder shows",
                    teller.Angle(now)));
  } else if (low != 0.0 && std::abs(aim->turn) <= kFinder) {
    teller.Say(fmt::format("the pinion stands {} {} of the least net angle, as wanted",
                           teller.Angle(std::abs(low)), low > 0.0 ? "low" : "high"));
  } else {
    TellLinks(teller, aims.pair_differ && std::abs(aim->turn) > *aims.pair_differ);
  }
}

void TellPhase(const Teller& teller) {
  const std::optional<PhaseAdvice>& best = teller.report.phase;
  if (!best) return;
  const double net = AtRest(teller.report).net_angle;
  const double phase = teller.Shaft().phase;
  if (net - best->net_angle < kFinder) {
    teller.Say(
        fmt::format("the phase of its yokes, {}, is as good as any at rest", teller.Angle(phase)));
    return;
  }
  teller.Say(
      fmt::format("with its yokes at a phase of {}, not {}, its net angle at rest "
                  "would be {}, not {}",
                  teller.Angle(best->phase), teller.Angle(phase), teller.Angle(best->net_angle),
                  teller.Angle(net)));
}

// A driveline supplier's rule: a degree for each 5 in between joint centres where output and pinion
// are parallel, for each 10 in where their lines cross.
void TellLengthRule(const Teller& teller) {
  constexpr double kPerDegree = 5.0 * 0.0254 / (std::numbers::pi / 180.0);  // [m/rad]
  const double most = AtRest(teller.report).length / kPerDegree;
  teller.Say(
      fmt::format("by its length a joint may work at {} at most with output and "
                  "pinion parallel, at {} where their lines cross (a driveline "
                  "supplier's rule: inches over 5, over 10)",
                  teller.Angle(most), teller.Angle(0.5 * most)));
}

void TellTorque(const Teller& teller) {
  const ShaftReport& report = teller.report;
  if (!report.under_torque) return;
  const std::string torque = teller.Amount(*report.torque, Dimension::kTorque);
  const std::vector<double>& force = report.wind_up->link_force;
  const auto most = std::max_element(force.begin(), force.end(),
                                     [](double a, double b) { return std::abs(a) < std::abs(b); });
  const auto link = static_cast<size_t>(most - force.begin());
  teller.Say(fmt::format(
      "under {} at the wheels the pinion's yoke end goes {}; {} then "
      "carries {} {}",
      torque, Direction(teller, *report.pinion_up), report.wind_up->link_name[link],
      teller.Amount(std::abs(*most), Dimension::kForce), *most > 0.0 ? "of pull" : "of push"));
}

}  // namespace

std::vector<std::string> DrivelineNotes(const Vehicle& vehicle,
                                        const std::vector<ShaftReport>& reports, UnitSystem units) {
  std::vector<std::string> notes;
  for (const ShaftReport& report : reports) {
    const Teller teller{.vehicle = vehicle, .report = report, .units = units, .to = notes};
    TellEnds(teller);
    TellAim(teller);
    TellPhase(teller);
    TellLengthRule(teller);
    if (!teller.Shaft().slip) {
      teller.Say("the file gives no slip, so that bottoming and parting are not watched");
    }
    if (!report.speed) {
      teller.Say("no speed: give --speed, or top_speed_rpm in the file, for its accelerations");
    }
    TellTorque(teller);
  }
  return notes;
}

}  // namespace linkwright
