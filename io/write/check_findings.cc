// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/amount.h"
#include "io/write/check_tables.h"

namespace linkwright {
namespace {

void AddFreedom(const Axle& axle, const Freedom& freedom, UnitSystem units,
                std::vector<Finding>& to) {
  for (const FreeMotion& motion : freedom.free) {
    to.push_back({true, "the " + axle.name + " axle " + motion.words});
  }
  for (const FreeMotion& motion : freedom.weak) {
    to.push_back({true, fmt::format("the {} axle is nearly free: it {} (1 mm of give in a bushing "
                                    "is {:.0f} mm at the axle)",
                                    axle.name, motion.words, 1.0 / motion.held)});
  }
  if (!freedom.free.empty()) return;
  if (!freedom.fight) {
    to.push_back({false, fmt::format("the {} axle: four links hold its four motions, none too many",
                                     axle.name)});
    return;
  }
  const LinkFight& fight = *freedom.fight;
  to.push_back(
      {false,
       fmt::format(
           "the {} axle: {} links where four would do, so it lives on bushing give: near "
           "the measured stance {} takes {} a degree of roll, and {} takes {} a {} of bounce",
           axle.name, 4 + fight.too_many, fight.roll_name,
           ShowAmount(fight.roll_link_force * M_PI / 180.0, Dimension::kForce, units),
           fight.bounce_name,
           ShowAmount(fight.bounce_link_force * (units == UnitSystem::kMetric ? 0.01 : 0.0254),
                      Dimension::kForce, units),
           units == UnitSystem::kMetric ? "10 mm" : "1 in")});
}

void AddWeight(const Axle& axle, const WeightCheck& weight, double most, UnitSystem units,
               std::vector<Finding>& to) {
  if (!weight.by_scales) return;
  const double off = weight.by_coils / *weight.by_scales - 1.0;
  const bool bad = std::abs(off) > most;
  to.push_back(
      {bad,
       fmt::format(
           "the {} axle: its coils and stops at their measured length say {}, "
           "the scales say {}: {}{} %{}",
           axle.name, ShowAmount(weight.by_coils, Dimension::kMass, units),
           ShowAmount(*weight.by_scales, Dimension::kMass, units), off < 0.0 ? "" : "+",
           ShowNumber(100.0 * off, 1),
           bad ? fmt::format("; above {:g} % (common practice) look at the rates, free lengths "
                             "and what was on board; where the scales are right and the coils "
                             "cannot be measured, give free_length: weighed",
                             100.0 * most)
               : "")});
}

// A wheel measured well above where its tyre would hold it was measured at mock-up height or on
// stands.
void AddMeasuredHeight(const Axle& axle, const WeightCheck& weight, double most, UnitSystem units,
                       std::vector<Finding>& to) {
  if (!weight.tire_height) return;
  const double off = weight.measured_height - *weight.tire_height;
  if (std::abs(off) <= most) return;
  to.push_back(
      {true, fmt::format("the {} axle: its wheel centres were measured {} above the floor, "
                         "but its tyres under that weight hold them at {}: was it on stands, "
                         "or is a tyre's radius or rate wrong?",
                         axle.name, ShowAmount(weight.measured_height, Dimension::kLength, units),
                         ShowAmount(*weight.tire_height, Dimension::kLength, units))});
}

// What was found and what most likely happened.
std::string Describe(const Oddity& oddity, UnitSystem units) {
  const std::string length = ShowAmount(oddity.value, Dimension::kLength, units);
  switch (oddity.kind) {
    case OddityKind::kBelowFloor:
      return fmt::format("{} reaches {} below the floor; is a height wrong?", oddity.member,
                         ShowAmount(-oddity.value, Dimension::kLength, units));
    case OddityKind::kLongLink:
      return fmt::format("{} is {} long, more than half the wheelbase; is a sign or a place wrong?",
                         oddity.member, length);
    case OddityKind::kShortLink:
      return fmt::format("{} is {} long; is a sign lost on one end?", oddity.member, length);
    case OddityKind::kEndsSwapped:
      return fmt::format(
          "{} has its axle end farther from the axle than its frame end; are 'frame' "
          "and 'axle' swapped?",
          oddity.member);
    case OddityKind::kLooseCoil:
      return fmt::format("{} is off its seat by {} as measured: is its free length right?",
                         oddity.member, length);
    case OddityKind::kTracksDiffer:
      return fmt::format(
          "the track is {}, far wider than the other axle's; y of a wheel centre is "
          "half the track",
          length);
    case OddityKind::kHeavyUnsprung:
      break;
  }
  return fmt::format("its unsprung mass of {} is all the scales showed, or more",
                     ShowAmount(oddity.value, Dimension::kMass, units));
}

}  // namespace

std::vector<Finding> CheckFindings(const Vehicle& vehicle, const CheckReport& report,
                                   UnitSystem units) {
  std::vector<Finding> findings;
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    AddFreedom(axle, report.axles[i].freedom, units, findings);
    if (!report.axles[i].weight) continue;
    AddWeight(axle, *report.axles[i].weight, vehicle.aims.scales, units, findings);
    AddMeasuredHeight(axle, *report.axles[i].weight, vehicle.aims.hub_height, units, findings);
  }
  for (const Oddity& oddity : report.oddities) {
    findings.push_back({true, fmt::format("the {} axle: {}", vehicle.axles[oddity.axle].name,
                                          Describe(oddity, units))});
  }
  for (const Mismatch& mismatch : report.mismatches) {
    findings.push_back(
        {true, fmt::format("the {} axle: {} are no mirror images, {} apart; more than {} "
                           "(common practice)",
                           vehicle.axles[mismatch.axle].name, mismatch.what,
                           ShowAmount(mismatch.distance, Dimension::kLength, units),
                           ShowAmount(vehicle.aims.mirror, Dimension::kLength, units))});
  }
  return findings;
}

}  // namespace linkwright
