// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/amount.h"
#include "io/write/steering_tables.h"

namespace linkwright {
namespace {

void TellMatch(const Axle& axle, const BarMatch& match, UnitSystem units,
               std::vector<Finding>& to) {
  const SteeringAims& aims = axle.steering->aims;
  const double differ = std::abs(match.bar_slope - match.drag_slope);
  const auto limit = [&](const std::optional<double>& value, Dimension dimension) {
    return value ? "; " + ShowAmount(*value, dimension, units) + " is the limit" : std::string();
  };
  to.push_back({aims.slope_differ && differ > *aims.slope_differ,
                fmt::format("the {} axle: from in front, {} and drag link differ in slope by {}{}",
                            axle.name, match.bar, ShowAmount(differ, Dimension::kAngle, units),
                            limit(aims.slope_differ, Dimension::kAngle))});
  const double share = match.bar_length / match.drag_length - 1.0;
  to.push_back(
      {aims.length_differ && std::abs(share) > *aims.length_differ,
       fmt::format(
           "the {} axle: {} is {} {} than the drag link, {} %{}", axle.name, match.bar,
           ShowAmount(std::abs(match.bar_length - match.drag_length), Dimension::kLength, units),
           share > 0.0 ? "longer" : "shorter", ShowNumber(100.0 * std::abs(share), 1),
           limit(aims.length_differ, Dimension::kPercent))});
  if (match.same_hand) return;
  to.push_back({true, fmt::format("the {} axle: {} and drag link have their frame ends on opposite "
                                  "sides: one pulls the axle where the other pushes the wheels",
                                  axle.name, match.bar)});
}

void TellSteer(const Axle& axle, const SteeredAxle& steered, UnitSystem units,
               std::vector<Finding>& to) {
  const std::optional<double>& rate =
      steered.travel.rows[steered.rest].axles[steered.axle].steer_rate;
  if (rate) {
    const std::optional<double>& most = axle.steering->aims.steer_rate;
    to.push_back(
        {most && std::abs(*rate) > *most,
         fmt::format(
             "the {} axle: with the steering wheel held, bump at rest steers {} to the {}{}",
             axle.name, ShowAmount(std::abs(*rate), Dimension::kAngleRate, units),
             *rate > 0.0 ? "left" : "right",
             most ? "; " + ShowAmount(*most, Dimension::kAngleRate, units) + " is the limit"
                  : "")});
  } else {
    to.push_back(
        {true, fmt::format("the {} axle: at rest the drag link stands in line with its kingpin "
                           "or its knuckle arm, so it turns the wheel neither way and holds it "
                           "by nothing: no steer per travel can be told; move one of its ends",
                           axle.name)});
  }
  if (!steered.match) {
    to.push_back(
        {false, fmt::format("the {} axle: no link lies across, so there is no track bar to "
                            "hold against the drag link",
                            axle.name)});
  }
  if (!steered.tie_rod) {
    to.push_back({false, fmt::format("assumed: the {} axle has no tie_rod in the file, so both "
                                     "wheels are taken to steer alike and toe does not change",
                                     axle.name)});
  }
}

void TellSideways(const Axle& axle, const SidewaysCure& cure, UnitSystem units,
                  std::vector<Finding>& to) {
  const std::optional<double>& most = axle.sideways_most;
  const bool off = most && std::abs(cure.offset) > *most;
  constexpr double kCentred = 1.2e-4;  // [m] shows as 0.00 in, and as nothing on a tape
  if (std::abs(cure.offset) < kCentred) {
    to.push_back({false, fmt::format("the {} axle stands centred", axle.name)});
    return;
  }
  std::string text = fmt::format("the {} axle stands {} to the {} of centre", axle.name,
                                 ShowAmount(std::abs(cure.offset), Dimension::kLength, units),
                                 cure.offset > 0.0 ? "left" : "right");
  if (off) text += fmt::format(", more than {}", ShowAmount(*most, Dimension::kLength, units));
  if (!cure.bar) {
    text += "; no link lies across, so no one link centres it";
  } else if (!cure.by) {
    text += fmt::format(
        "; no length of {} within {} of the present one centres it: more is not "
        "for a shop to turn (common practice)",
        cure.bar->name, ShowAmount(*cure.most, Dimension::kLength, units));
  } else {
    text += fmt::format("; {} {} by {} centres it", cure.bar->name,
                        *cure.by > 0.0 ? "longer" : "shorter",
                        ShowAmount(std::abs(*cure.by), Dimension::kLength, units));
    if (cure.bar->thread) {
      text += fmt::format(", {} turns", ShowNumber(std::abs(*cure.by / *cure.bar->thread), 2));
    }
    if (cure.drag_link_by) {
      text += fmt::format(", and the drag link {} by {} keeps the wheels where they point",
                          *cure.drag_link_by > 0.0 ? "longer" : "shorter",
                          ShowAmount(std::abs(*cure.drag_link_by), Dimension::kLength, units));
    }
  }
  to.push_back({off, text});
}

}  // namespace

std::vector<Finding> SteeringFindings(const Vehicle& vehicle, const SteeringReport& report,
                                      UnitSystem units) {
  std::vector<Finding> findings;
  for (const SteeredAxle& steered : report.axles) {
    const Axle& axle = vehicle.axles[steered.axle];
    TellSteer(axle, steered, units, findings);
    if (steered.match) TellMatch(axle, *steered.match, units, findings);
  }
  for (const SidewaysCure& cure : report.sideways) {
    TellSideways(vehicle.axles[cure.axle], cure, units, findings);
  }
  return findings;
}

}  // namespace linkwright
