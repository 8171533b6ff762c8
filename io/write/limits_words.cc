// SPDX-License-Identifier: MIT
#include "io/write/limits_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/limits_tables.h"
#include "io/write/listed.h"

namespace linkwright {
namespace {

using enum Dimension;

// What the sentences are about.
struct LimitsTeller {
  const Vehicle& vehicle;
  const LimitsAsked& asked;
  const PartsAdvice& advice;
  UnitSystem units;

  [[nodiscard]] const LimitsReport& Found() const { return *asked.cases.front().found; }
  [[nodiscard]] const std::string& Name(size_t axle) const { return vehicle.axles[axle].name; }
  [[nodiscard]] std::string Length(double si) const { return ShowAmount(si, kLength, units); }
};

// "in front", "at the rear".
const char* AtAxle(size_t axle) { return axle == 0 ? "in front" : "at the rear"; }

const TravelLimit* EnderOf(const AxleLimit& way) {
  return way.ended_by ? &way.hits[*way.ended_by].limit : nullptr;
}

// "62 mm of bump until tyre left touches its opening"
std::string LeftOneWay(const LimitsTeller& t, const AxleLimit& way) {
  const char* name = way.motion == LimitMotion::kBump ? "bump" : "droop";
  const TravelLimit* ender = EnderOf(way);
  if (ender == nullptr) return fmt::format("nothing in the file ends {}", name);
  const std::string left = t.Length(std::abs(way.parameter));
  if (left == t.Length(0.0)) return fmt::format("no {}: {}", name, DescribeShort(*ender));
  return fmt::format("{} of {} until {}", left, name, DescribeShort(*ender));
}

void SayLeft(const LimitsTeller& t, std::vector<std::string>& to) {
  for (const size_t axle : AxlesOf(t.vehicle)) {
    const auto& [bump, droop] = t.Found().bounce[axle];
    const std::string& load = t.advice.under.front().load;
    const std::string under = load.empty() ? "As measured" : "Under '" + Shown(load) + "'";
    to.push_back(Sentence(fmt::format("{} it has {} ", under, AtAxle(axle)),
                          {LeftOneWay(t, bump), LeftOneWay(t, droop)}, "travel"));
  }
}

// The least bump that a load leaves, where another than the one told about leaves less.
std::string LeastBump(const LimitsTeller& t) {
  std::vector<std::string> parts;
  for (const size_t axle : AxlesOf(t.vehicle)) {
    const TravelCase* least = nullptr;
    for (const TravelCase& each : t.asked.cases) {
      const AxleLimit& bump = each.found->bounce[axle][0];
      if (!bump.ended_by) continue;
      if (least == nullptr || bump.parameter < least->found->bounce[axle][0].parameter) {
        least = &each;
      }
    }
    if (least == nullptr) continue;
    const std::string left = t.Length(least->found->bounce[axle][0].parameter);
    if (left == t.Length(t.Found().bounce[axle][0].parameter)) continue;
    parts.push_back(fmt::format("{} {} ('{}')",
                                left == t.Length(0.0) ? "no bump" : left + " of bump", AtAxle(axle),
                                Shown(least->load->name)));
  }
  return parts.empty() ? std::string() : "; the worst leaves as found " + Listed(parts);
}

// What should end each way and does not.
std::string WhatShouldEnd(const LimitsTeller& t) {
  std::vector<std::string> fails;
  for (const size_t axle : AxlesOf(t.vehicle)) {
    for (const AxleLimit& way : t.Found().bounce[axle]) {
      const TravelLimit* ender = EnderOf(way);
      const bool bump = way.motion == LimitMotion::kBump;
      const LimitKind right = bump ? LimitKind::kStopSolid : LimitKind::kStrapTaut;
      if (ender != nullptr && ender->id.kind == right) continue;
      fails.push_back(t.Name(axle) + (bump ? " bump" : " droop"));
    }
  }
  if (fails.empty()) return "Stops end bump and straps end droop, as they should.";
  if (fails.size() == 2 * AxlesOf(t.vehicle).size()) {
    return "A stop should end bump and a strap droop first; none does here.";
  }
  return fmt::format("A stop should end bump and a strap droop first; not so for {}.",
                     Listed(fails));
}

const InTheWay* WorstInTheWayOf(const PartsAdvice& advice) {
  const InTheWay* worst = nullptr;
  for (const InTheWay& each : advice.in_the_way) {
    if (worst == nullptr || each.short_by > worst->short_by) worst = &each;
  }
  return worst;
}

// What no part advised mends, the worst of it.
std::string WhatIsInTheWay(const LimitsTeller& t) {
  const InTheWay* worst = WorstInTheWayOf(t.advice);
  if (worst == nullptr || t.Length(worst->short_by) == t.Length(0.0)) return {};
  const bool crossed = IsCrossed(worst->motion);
  const char* way = crossed                               ? "crossed"
                    : worst->motion == LimitMotion::kBump ? "in bump"
                                                          : "in droop";
  const bool other = !worst->load.empty() && worst->load != t.advice.under.front().load;
  return fmt::format(
      "No part here mends this: {} {}{}, {} with the wheel {} {}, {} short of what they would "
      "give.",
      AtAxle(worst->axle), way, other ? " under '" + Shown(worst->load) + "'" : "",
      DescribeShort(worst->limit), t.Length(std::abs(worst->at)), worst->at < 0.0 ? "down" : "up",
      t.Length(worst->short_by));
}

// "rear", or with its name where an axle has several kinds.
template <typename Order>
std::string WhoseOrder(const LimitsTeller& t, const std::vector<Order>& orders,
                       const Order& order) {
  const auto of_axle = std::count_if(orders.begin(), orders.end(),
                                     [&](const Order& each) { return each.axle == order.axle; });
  return t.Name(order.axle) + (of_axle > 1 ? " " + order.member : "");
}

//   at_hand   say too how those in the file would do
std::string DamperWords(const LimitsTeller& t, const DamperAdvice& damper, bool at_hand) {
  if (damper.impossible) {
    return fmt::format("none can be had, {} too short closed",
                       t.Length(damper.impossible->short_by));
  }
  if (damper.fit == DamperFit::kFits) return "those in the file fit";
  const std::string order = fmt::format("at most {} closed, at least {} open",
                                        t.Length(damper.closed), t.Length(damper.open));
  if (!at_hand || damper.fit != DamperFit::kMoveTab) return order;
  return fmt::format("{}, or those in the file hung {} {} the axle", order,
                     t.Length(std::abs(*damper.tab_move)),
                     *damper.tab_move > 0.0 ? "farther from" : "nearer to");
}

std::string DampersToOrder(const LimitsTeller& t) {
  const std::vector<DamperAdvice> orders = DamperOrders(t.vehicle, t.advice);
  if (orders.empty()) return {};
  const auto say = [&](bool at_hand) {
    std::vector<std::string> parts;
    for (const DamperAdvice& each : orders) {
      parts.push_back(WhoseOrder(t, orders, each) + " " + DamperWords(t, each, at_hand));
    }
    return parts;
  };
  const char* head = "Dampers, eye to eye: ";
  const bool fits = IsTakenInAtOnce(head + InRow(say(true)) + ".");
  return Sentence(head, say(fits), "dampers");
}

std::string StopWords(const LimitsTeller& t, const StopAdvice& stop) {
  if (!stop.height) return "none of any height does it";
  const double taller = *stop.height - stop.height_now;
  if (t.Length(taller) == t.Length(0.0)) return "as tall as now";
  return t.Length(std::abs(taller)) + (taller > 0.0 ? " taller" : " lower");
}

std::string StopsToOrder(const LimitsTeller& t) {
  const std::vector<StopAdvice> orders = StopOrders(t.vehicle, t.advice);
  std::vector<std::string> parts;
  for (const StopAdvice& each : orders) {
    parts.push_back(WhoseOrder(t, orders, each) + " " + StopWords(t, each));
  }
  return parts.empty() ? std::string() : Sentence("Bump stops: ", parts, "stops");
}

std::string StrapsToOrder(const LimitsTeller& t) {
  const std::vector<StrapAdvice> orders = StrapOrders(t.vehicle, t.advice);
  std::vector<std::string> parts;
  for (const StrapAdvice& each : orders) {
    parts.push_back(WhoseOrder(t, orders, each) + " " + t.Length(each.length));
  }
  if (parts.empty()) return {};
  const bool beside = std::all_of(orders.begin(), orders.end(),
                                  [](const StrapAdvice& each) { return each.beside_damper; });
  return Sentence(beside ? "Straps beside the dampers, pulled taut: " : "Straps, pulled taut: ",
                  parts, "straps");
}

// "60 mm of bump and 75 mm of droop", where both axles are to have the same.
std::string WantedWords(const LimitsTeller& t) {
  std::vector<std::string> each;
  for (const size_t axle : AxlesOf(t.vehicle)) {
    const WantedTravel& wanted = t.advice.wanted[axle];
    if (!wanted.bump || !wanted.droop) return "the travel wanted";
    each.push_back(t.Length(*wanted.bump) + " of bump and " + t.Length(*wanted.droop) +
                   " of droop");
  }
  return each.front() == each.back() ? each.front() : "the travel wanted";
}

// "'crates' and 'people'", of many the first.
std::string LoadNames(const std::vector<std::string>& loads) {
  constexpr size_t kTold = 3;
  std::vector<std::string> names;
  for (size_t i = 0; i < std::min(loads.size(), kTold); ++i) {
    names.push_back("'" + Shown(loads[i]) + "'");
  }
  if (loads.size() > kTold) names.push_back(fmt::format("{} more", loads.size() - kTold));
  return Listed(names);
}

// What travel and which loads the orders are for.
std::string LoadsOrderedFor(const LimitsTeller& t) {
  const std::string travel = t.asked.planned ? " for " + WantedWords(t) : "";
  if (t.asked.one_load) {
    return fmt::format("Parts are ordered{} under '{}' alone; without --load for every load.",
                       travel, Shown(t.asked.cases.front().load->name));
  }
  std::vector<std::string> parts;
  if (t.asked.cases.size() > 1) {
    const bool had = t.asked.no_stops.empty();
    parts.push_back("parts are ordered" + travel + " under every load" +
                    (had ? LeastBump(t) : std::string()));
    if (!had) {
      parts.push_back("no stop gives that under " + LoadNames(t.asked.no_stops) +
                      ": want less bump, or order for another load with --load");
    }
  } else if (t.asked.planned) {
    parts.push_back("parts are ordered" + travel);
  }
  if (!t.asked.no_rest.empty()) {
    parts.push_back("it finds no rest under " + LoadNames(t.asked.no_rest) +
                    ", for which nothing is ordered");
  }
  return parts.empty() ? std::string() : Sentence("", parts, "stops");
}

}  // namespace

std::vector<std::string> LimitsSentences(const Vehicle& vehicle, const LimitsAsked& asked,
                                         const PartsAdvice& advice, UnitSystem units) {
  const LimitsTeller t{vehicle, asked, advice, units};
  std::vector<std::string> said;
  SayLeft(t, said);
  for (std::string sentence : {WhatShouldEnd(t), DampersToOrder(t), StopsToOrder(t),
                               StrapsToOrder(t), WhatIsInTheWay(t), LoadsOrderedFor(t)}) {
    if (!sentence.empty()) said.push_back(std::move(sentence));
  }
  return said;
}

}  // namespace linkwright
