// SPDX-License-Identifier: MIT
#include "solver/study/findings/steering_findings.h"

#include <cmath>

namespace linkwright {
namespace {

void AddSteer(const Axle& axle, const SteeredAxle& steered, std::vector<Finding>& to) {
  const std::vector<std::string> part{"axles", axle.name, "steering", "drag_link"};
  const std::optional<double>& rate = AtRest(steered.travel).axles[steered.axle]->steer_rate;
  to.push_back(
      rate ? Judged(FindingKind::kBumpSteers, steered.axle, *rate, axle.steering->aims.steer_rate)
           : Finding{.kind = FindingKind::kDragLinkInLine, .axle = steered.axle});
  to.back().part = part;
}

void AddMatch(const Axle& axle, size_t index, const BarMatch& match, std::vector<Finding>& to) {
  const SteeringAims& aims = axle.steering->aims;
  const auto add = [&](Finding finding) {
    finding.member = match.bar;
    finding.part = {"axles", axle.name, "links", axle.links[match.link].name.key};
    to.push_back(std::move(finding));
  };
  add(Judged(FindingKind::kBarSlopeDiffers, index, std::abs(match.bar_slope - match.drag_slope),
             aims.slope_differ));
  Finding length = Judged(FindingKind::kBarLengthDiffers, index,
                          match.bar_length / match.drag_length - 1.0, aims.length_differ);
  length.more = {match.bar_length - match.drag_length};
  add(std::move(length));
  if (!match.same_hand) add({.kind = FindingKind::kBarOpposite, .axle = index});
}

}  // namespace

std::vector<Finding> SteeringFindings(const Vehicle& vehicle, const SteeringReport& report) {
  std::vector<Finding> found;
  for (const SteeredAxle& steered : report.axles) {
    const Axle& axle = vehicle.axles[steered.axle];
    AddSteer(axle, steered, found);
    if (steered.match) AddMatch(axle, steered.axle, *steered.match, found);
  }
  for (const SidewaysCure& cure : report.sideways) {
    const Axle& axle = vehicle.axles[cure.axle];
    found.push_back(Judged(FindingKind::kOffCenter, cure.axle, cure.offset, axle.sideways_most));
    found.back().part = {"axles", axle.name};
  }
  return found;
}

}  // namespace linkwright
