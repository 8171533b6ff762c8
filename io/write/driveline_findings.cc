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
  std::vector<Finding>& to;

  [[nodiscard]] const Driveshaft& Shaft() const { return vehicle.driveshafts[report.shaft]; }
  [[nodiscard]] std::string Amount(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Angle(double si) const { return Amount(si, Dimension::kAngle); }
  void Say(bool warning, const std::string& text) const {
    to.push_back({warning, "the " + Shaft().name + " shaft: " + text});
  }
};

JointKind KindOf(const Driveshaft& shaft, size_t joint, size_t joints) {
  if (joint == 0) return shaft.output_joint;
  return joint + 1 == joints ? shaft.axle_joint : shaft.center_bearing->joint;
}

void TellEnds(const Teller& teller) {
  const auto tell = [&](const std::string& side, const std::optional<LimitHit>& end,
                        double looked) {
    teller.Say(
        false,
        end ? fmt::format("full {} is at {}: {}", side, teller.Amount(*end->at, Dimension::kLength),
                          Describe(end->limit))
            : fmt::format("nothing in the file ends its axle's travel in {}: it is looked at to "
                          "{}, and angles are greatest over that",
                          side, teller.Amount(looked, Dimension::kLength)));
  };
  tell("droop", teller.report.droop, teller.report.low);
  tell("bump", teller.report.bump, teller.report.high);
}

// The pinion's single joint behind a constant-velocity one is meant to run straight.
bool MeantStraight(const Driveshaft& shaft, size_t joint, size_t joints) {
  return joint + 1 == joints && joints == 2 && shaft.output_joint == JointKind::kDouble;
}

void TellJoints(const Teller& teller) {
  const Driveshaft& shaft = teller.Shaft();
  const ShaftAims& aims = shaft.aims;
  const ShaftPlace& rest = AtRest(teller.report);
  const size_t n = rest.joints.size();
  for (size_t j = 0; j < n; ++j) {
    const double angle = rest.joints[j].angle;
    const std::string where = "the joint at the " + JointName(j, n);
    if (KindOf(shaft, j, n) == JointKind::kDouble) {
      if (aims.double_most && angle > *aims.double_most) {
        teller.Say(true, fmt::format("{}, a double one, works at {} at rest, above {}", where,
                                     teller.Angle(angle), teller.Angle(*aims.double_most)));
      }
      continue;
    }
    if (aims.joint_most && angle > *aims.joint_most) {
      teller.Say(true, fmt::format("{} works at {} at rest, above {}", where, teller.Angle(angle),
                                   teller.Angle(*aims.joint_most)));
    }
    if (aims.joint_least && angle < *aims.joint_least && !MeantStraight(shaft, j, n)) {
      teller.Say(true, fmt::format("{} works at {} at rest, below {}: its needles do not turn",
                                   where, teller.Angle(angle), teller.Angle(*aims.joint_least)));
    }
    const std::optional<double>& allowed = teller.report.angle_allowed;
    if (allowed && angle > *allowed) {
      teller.Say(true, fmt::format("{} works at {} at rest, above the {} that go with {}", where,
                                   teller.Angle(angle), teller.Angle(*allowed),
                                   teller.Amount(*teller.report.speed, Dimension::kShaftSpeed)));
    }
  }
  if (n != 2 || !aims.pair_differ || shaft.output_joint != JointKind::kSingle ||
      shaft.axle_joint != JointKind::kSingle) {
    return;
  }
  const double differ = std::abs(rest.joints[0].angle - rest.joints[1].angle);
  teller.Say(differ > *aims.pair_differ,
             fmt::format("its two joints differ by {} at rest; {} is the limit",
                         teller.Angle(differ), teller.Angle(*aims.pair_differ)));
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
    teller.Say(false,
               fmt::format("turn {}{} {} by {}{}: net angle {}{}", cure.links.name,
                           cure.links.members.size() > 1 ? " (both alike)" : "",
                           cure.by > 0.0 ? "out, longer" : "in, shorter",
                           teller.Amount(std::abs(cure.by), Dimension::kLength), turns,
                           teller.Angle(cure.after.net_angle), off ? "" : ", if you want it"));
  }
  if (off && teller.report.cures.empty() && teller.report.no_cure.empty()) {
    teller.Say(false, "no link of its axle lowers the net angle by its length");
  }
  if (teller.report.no_cure.empty()) return;
  std::string names;
  for (const std::string& name : teller.report.no_cure) names += (names.empty() ? "" : ", ") + name;
  teller.Say(false, fmt::format("no length that a shop can make does it by {}: {} either way on a "
                                "thread, {:.0f} % of its length where the file gives none (common "
                                "practice)",
                                names, teller.Amount(kMostByThread, Dimension::kLength),
                                100.0 * kMostByShare));
}

void TellAim(const Teller& teller) {
  const std::optional<PinionOrder>& aim = teller.report.aim;
  const Driveshaft& shaft = teller.Shaft();
  const double now = AtRest(teller.report).net_angle;
  if (!aim) {
    teller.Say(false,
               fmt::format("the double joint at the pinion lets it stand as it likes; what is left "
                           "uneven, {}, comes from the joints before it",
                           teller.Angle(now)));
    return;
  }
  const double low = shaft.pinion_low;
  if (low == 0.0 && now - aim->net_angle <= kFinder) {
    teller.Say(false, fmt::format("no turn of the pinion lowers its net angle at rest, {}, by what "
                                  "a finder shows",
                                  teller.Angle(now)));
  } else if (low != 0.0 && std::abs(aim->turn) <= kFinder) {
    teller.Say(false, fmt::format("the pinion stands {} {} of the least net angle, as wanted",
                                  teller.Angle(std::abs(low)), low > 0.0 ? "low" : "high"));
  } else {
    const bool off = shaft.aims.pair_differ && std::abs(aim->turn) > *shaft.aims.pair_differ;
    const std::string stand =
        low == 0.0 ? " for the least net angle at rest: "
                   : fmt::format(", to stand {} {} of the least net angle: at rest ",
                                 teller.Angle(std::abs(low)), low > 0.0 ? "low" : "high");
    teller.Say(off, fmt::format("the pinion's yoke end has to come {}{}{}, now {}",
                                Direction(teller, aim->turn), stand, teller.Angle(aim->net_angle),
                                teller.Angle(now)));
    TellLinks(teller, off);
  }
  if (aim->least <= kFinder) return;
  teller.Say(shaft.aims.pair_differ && aim->least > *shaft.aims.pair_differ,
             fmt::format("{} is the least net angle that a turn of the pinion can leave at rest: "
                         "it comes from the plan view or from the phase of the yokes",
                         teller.Angle(aim->least)));
}

void TellPhase(const Teller& teller) {
  const std::optional<PhaseAdvice>& best = teller.report.phase;
  if (!best) return;
  const double net = AtRest(teller.report).net_angle;
  const double phase = teller.Shaft().phase;
  if (net - best->net_angle < kFinder) {
    teller.Say(false, fmt::format("the phase of its yokes, {}, is as good as any at rest",
                                  teller.Angle(phase)));
    return;
  }
  teller.Say(false, fmt::format("with its yokes at a phase of {}, not {}, its net angle at rest "
                                "would be {}, not {}",
                                teller.Angle(best->phase), teller.Angle(phase),
                                teller.Angle(best->net_angle), teller.Angle(net)));
}

// A driveline supplier's rule: a degree for each 5 in between joint centres where output and pinion
// are parallel, for each 10 in where their lines cross.
void TellLengthRule(const Teller& teller) {
  constexpr double kPerDegree = 5.0 * 0.0254 / (std::numbers::pi / 180.0);  // [m/rad]
  const double most = AtRest(teller.report).length / kPerDegree;
  teller.Say(false, fmt::format("by its length a joint may work at {} at most with output and "
                                "pinion parallel, at {} where their lines cross (a driveline "
                                "supplier's rule: inches over 5, over 10)",
                                teller.Angle(most), teller.Angle(0.5 * most)));
}

void TellSlip(const Teller& teller) {
  const ShaftAims& aims = teller.Shaft().aims;
  if (!teller.Shaft().slip) {
    teller.Say(false, "the file gives no slip, so that bottoming and parting are not watched");
    return;
  }
  const std::vector<ShaftPlace> places = AllPlaces(teller.report);
  const auto least = [&](std::optional<double> ShaftPlace::*margin) {
    double value = *(places.front().*margin);
    for (const ShaftPlace& place : places) value = std::min(value, *(place.*margin));
    return value;
  };
  const double bottom = least(&ShaftPlace::to_bottom), part = least(&ShaftPlace::to_part);
  const auto tell = [&](double left, std::optional<double> limit, const char* what,
                        const char* done) {
    if (left < 0.0) {
      teller.Say(true, fmt::format("its slip joint {}: {} too little", done,
                                   teller.Amount(-left, Dimension::kLength)));
      return;
    }
    teller.Say(limit && left < *limit,
               fmt::format("at worst {} of its slip are left before it {}{}",
                           teller.Amount(left, Dimension::kLength), what,
                           limit ? fmt::format("; {} is the limit",
                                               teller.Amount(*limit, Dimension::kLength))
                                 : ""));
  };
  tell(bottom, aims.bottom_least, "bottoms", "bottoms");
  tell(part, aims.part_least, "parts", "parts");
}

void TellSpeed(const Teller& teller) {
  const ShaftPlace& rest = AtRest(teller.report);
  if (!teller.report.speed) {
    teller.Say(false,
               "no speed: give --speed, or top_speed_rpm in the file, for its accelerations");
    return;
  }
  const ShaftAims& aims = teller.Shaft().aims;
  const auto tell = [&](const char* what, double value, std::optional<double> limit) {
    const std::string text =
        fmt::format("{} acceleration at rest and {}: {}", what,
                    teller.Amount(*teller.report.speed, Dimension::kShaftSpeed),
                    teller.Amount(value, Dimension::kAcceleration));
    if (!limit) return teller.Say(false, text);
    teller.Say(value > *limit, fmt::format("{}; {} is the limit", text,
                                           teller.Amount(*limit, Dimension::kAcceleration)));
  };
  tell("torsional", *rest.torsional, aims.torsional);
  tell("inertial", *rest.inertial, aims.inertial);
}

void TellTorque(const Teller& teller) {
  const ShaftReport& report = teller.report;
  if (!report.torque) return;
  const std::string torque = teller.Amount(*report.torque, Dimension::kTorque);
  if (!report.under_torque) {
    teller.Say(true, report.settled ? "under " + torque + " at the wheels its axle finds no balance"
                                    : "wind-up needs masses: the file gives none");
    return;
  }
  const std::vector<double>& force = report.wind_up->link_force;
  const auto most = std::max_element(force.begin(), force.end(),
                                     [](double a, double b) { return std::abs(a) < std::abs(b); });
  const auto link = static_cast<size_t>(most - force.begin());
  teller.Say(false, fmt::format("under {} at the wheels the pinion's yoke end goes {}; {} then "
                                "carries {} {}",
                                torque, Direction(teller, *report.pinion_up),
                                report.wind_up->link_name[link],
                                teller.Amount(std::abs(*most), Dimension::kForce),
                                *most > 0.0 ? "of pull" : "of push"));
}

}  // namespace

std::vector<Finding> DrivelineFindings(const Vehicle& vehicle,
                                       const std::vector<ShaftReport>& reports, UnitSystem units) {
  std::vector<Finding> findings;
  for (const ShaftReport& report : reports) {
    const Teller teller{.vehicle = vehicle, .report = report, .units = units, .to = findings};
    TellEnds(teller);
    TellJoints(teller);
    TellAim(teller);
    TellPhase(teller);
    TellLengthRule(teller);
    TellSlip(teller);
    TellSpeed(teller);
    TellTorque(teller);
  }
  return findings;
}

}  // namespace linkwright
