// SPDX-License-Identifier: MIT
#include "io/write/driveline_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/listed.h"

namespace linkwright {
namespace {

using enum Dimension;

// One shaft, and how amounts are shown.
struct ShaftTeller {
  const Driveshaft& shaft;
  const ShaftReport& report;
  const ShaftOrder& order;
  UnitSystem units;

  [[nodiscard]] std::string Length(double si) const { return ShowAmount(si, kLength, units); }
  [[nodiscard]] std::string Angle(double si) const { return ShowAmount(si, kAngle, units); }
};

// ", too little" of a single joint at rest that is held against an aim.
const char* AgainstAim(const ShaftTeller& t, size_t joint, size_t joints) {
  const double angle = AtRest(t.report).joints[joint].angle;
  const ShaftAims& aims = t.shaft.aims;
  if (KindOf(t.shaft, joint, joints) == JointKind::kDouble) {
    return aims.double_most && angle > *aims.double_most ? ", too much" : "";
  }
  const bool straight =
      joint + 1 == joints && joints == 2 && t.shaft.output_joint == JointKind::kDouble;
  if (aims.joint_most && angle > *aims.joint_most) return ", too much";
  return !straight && aims.joint_least && angle < *aims.joint_least ? ", too little" : "";
}

// "0.5 to 3.0 deg", what single joints are held against; empty: they are not.
std::string AimedFor(const ShaftTeller& t) {
  const auto &least = t.shaft.aims.joint_least, &most = t.shaft.aims.joint_most;
  if (least && most) {
    return fmt::format("{} to {}", ShowNumber(FromSi(*least, kAngle, t.units), 1), t.Angle(*most));
  }
  if (least) return t.Angle(*least) + " or more";
  return most ? t.Angle(*most) + " or less" : std::string();
}

std::string WorksAt(const ShaftTeller& t) {
  const std::vector<JointParts>& joints = AtRest(t.report).joints;
  std::vector<std::string> parts, most;
  for (size_t j = 0; j < joints.size(); ++j) {
    parts.push_back(fmt::format("{} ({}{})", t.Angle(joints[j].angle), JointName(j, joints.size()),
                                AgainstAim(t, j, joints.size())));
    most.push_back(t.Angle(t.order.greatest[j]));
  }
  const std::string aim = AimedFor(t);
  return fmt::format(
      "At rest the {} shaft's joints work at {}{}; over all its travel at {} at most.",
      t.shaft.name, Listed(parts), aim.empty() ? "" : ", where single ones should at " + aim,
      Listed(most));
}

std::string TurnedBy(const ShaftTeller& t, const LinkCure& cure) {
  const std::optional<double> turns = TurnsOf(cure.links, cure.by);
  return fmt::format("{} {} {}{}{}", cure.links.name, ShowFine(std::abs(cure.by), t.units),
                     cure.by > 0.0 ? "longer" : "shorter",
                     turns ? fmt::format(" ({} turns)", ShowNumber(std::abs(*turns), 1)) : "",
                     cure.links.members.size() > 1 ? ", left and right alike" : "");
}

// How unevenly it runs at rest, now and then.
std::string RunsThen(const ShaftTeller& t, double now, double then) {
  if (t.Angle(then) == t.Angle(0.0)) {
    return fmt::format("it then runs evenly, not as unevenly as one joint at {}", t.Angle(now));
  }
  return fmt::format("it then runs as unevenly as one joint at {}, not {}", t.Angle(then),
                     t.Angle(now));
}

// What to turn so that the joints cancel, or why nothing.
std::string WhatToTurn(const ShaftTeller& t) {
  const std::optional<PinionOrder>& aim = t.report.aim;
  const double now = AtRest(t.report).net_angle;
  const std::string runs = t.Angle(now) == t.Angle(0.0)
                               ? std::string("evenly")
                               : "as unevenly as one joint at " + t.Angle(now);
  if (!aim || !Shows(*aim, t.shaft.pinion_low, now)) {
    return fmt::format("Nothing to turn: at rest the {} shaft runs {}{}.", t.shaft.name, runs,
                       aim ? "" : ", and its double joint lets the pinion stand as it likes");
  }
  const std::string pinion =
      fmt::format("{} {}", t.Angle(std::abs(aim->turn)), aim->turn > 0.0 ? "up" : "down");
  const LinkCure* cure = CureToTurn(t.report);
  if (cure == nullptr) {
    return fmt::format("Turn the {} pinion's yoke end {} on its housing, for no link does it: {}.",
                       t.shaft.name, pinion, RunsThen(t, now, aim->net_angle));
  }
  return fmt::format("For the {} shaft make {}: the pinion's yoke end comes {}, and {}.",
                     t.shaft.name, TurnedBy(t, *cure), pinion,
                     RunsThen(t, now, cure->after.net_angle));
}

std::string WhatToOrder(const ShaftTeller& t) {
  const ShaftOrder& order = t.order;
  std::vector<std::string> follows;
  const auto follow = [&](const char* how, double by) {
    if (t.Length(by) != t.Length(0.0)) follows.push_back(how + t.Length(by));
  };
  follow("shorten by ", order.rest - order.least);
  follow("lengthen by ", order.most - order.rest);
  std::string text = fmt::format(
      "Order the {} shaft {} between joint centres at rest{}{}", t.shaft.name, t.Length(order.rest),
      order.front_length ? " and its front piece " + t.Length(*order.front_length) : "",
      follows.empty() ? "" : ", to " + Listed(follows));
  if (!order.to_bottom || !order.to_part) {
    return text + "; the file gives no slip to hold that against.";
  }
  const auto left = [&](double slip, const char* ends) {
    return slip < 0.0 ? fmt::format("it {} by {}", ends, t.Length(-slip))
                      : fmt::format("{} are left before it {}", t.Length(slip), ends);
  };
  return fmt::format("{}; of the slip in the file {} and {}.", text,
                     left(*order.to_bottom, "bottoms"), left(*order.to_part, "parts"));
}

std::string OrderedForLoads(const DrivelineAsked& asked) {
  if (asked.one_load) {
    return fmt::format("That is for '{}' alone; without --load the order is for every load.",
                       Shown(asked.load));
  }
  std::string text;
  if (asked.loads > 1) {
    text = "that is at rest under '" + Shown(asked.load) + "'; lengths and slip are for every load";
  }
  if (!asked.no_rest.empty()) {
    std::vector<std::string> loads;
    for (const std::string& load : asked.no_rest) loads.push_back("'" + Shown(load) + "'");
    text += (text.empty() ? "" : "; ") + std::string("it finds no rest under ") + Listed(loads) +
            ", which is left out";
  }
  return text.empty() ? text : Capital(text) + ".";
}

}  // namespace

std::vector<std::string> DrivelineSentences(const Vehicle& vehicle, const DrivelineAsked& asked,
                                            const std::vector<ShaftReport>& reports,
                                            const std::vector<ShaftOrder>& orders,
                                            UnitSystem units) {
  constexpr size_t kOfShafts = 7;  // sentences, one being about the loads
  const size_t each = std::clamp<size_t>(kOfShafts / reports.size(), 1, 3);
  std::vector<std::string> said;
  for (size_t i = 0; i < reports.size() && said.size() + each <= kOfShafts; ++i) {
    const ShaftTeller t{vehicle.driveshafts[reports[i].shaft], reports[i], orders[i], units};
    said.push_back(WorksAt(t));
    if (each > 1) said.push_back(WhatToTurn(t));
    if (each > 2) said.push_back(WhatToOrder(t));
  }
  std::string loads = OrderedForLoads(asked);
  if (!loads.empty()) said.push_back(std::move(loads));
  return said;
}

}  // namespace linkwright
