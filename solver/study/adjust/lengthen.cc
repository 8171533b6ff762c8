// SPDX-License-Identifier: MIT
#include "solver/study/adjust/lengthen.h"

#include <algorithm>
#include <cmath>

#include "solver/numeric/roots.h"
#include "solver/pose/fit_links.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

constexpr double kFirstTrial = 1e-3;    // [m]
constexpr double kLongestTrial = 0.03;  // [m] from one trial to the next

std::optional<LengthAnswer> Try(const Change& change, const Load* load, double by) {
  std::optional<Rig> longer = change(by);
  if (!longer) return std::nullopt;
  std::optional<Standing> standing = Stand(*longer, load);
  if (!standing) return std::nullopt;
  return LengthAnswer{.by = by, .rig = *std::move(longer), .standing = *std::move(standing)};
}

}  // namespace

std::vector<LinkSet> LinkSetsOf(const Axle& axle) {
  std::vector<LinkSet> sets;
  for (size_t i = 0; i < axle.links.size(); ++i) {
    const Link& link = axle.links[i];
    const auto same = std::find_if(sets.begin(), sets.end(), [&](const LinkSet& set) {
      return set.name == link.name.key && link.name.side != Side::kMiddle;
    });
    if (same != sets.end()) {
      same->members.push_back(i);
    } else {
      sets.push_back({.name = link.name.key, .members = {i}, .thread = link.thread});
    }
  }
  return sets;
}

double MostByHand(const Axle& axle, const LinkSet& set) {
  if (set.thread) return kMostByThread;
  return kMostByShare * LengthOf(axle.links[set.members.front()]);
}

std::optional<Rig> Lengthened(const Rig& rig, size_t axle, const std::vector<size_t>& members,
                              double by) {
  Rig longer = rig;
  AxleFrame& frame = longer.axles[axle].frame;
  for (const size_t i : members) {
    frame.links[i].length += by;
    if (!(frame.links[i].length > 0.0)) return std::nullopt;
  }
  const RigAxle& before = rig.axles[axle];
  const FittedPose fitted = FitLinks(before.frame, frame, before.measured.pose);
  if (!fitted.pose) return std::nullopt;
  longer.axles[axle].measured = EvaluateMotion(frame, *fitted.pose);
  return longer;
}

std::optional<Standing> Stand(const Rig& rig, const Load* load) {
  if (load == nullptr) {
    return Standing{.stance = std::nullopt,
                    .level = {rig.axles[0].measured, rig.axles[1].measured}};
  }
  Standing standing{.stance = Settle(rig, *load), .level = {}};
  if (standing.stance->status != StanceStatus::kRests) return std::nullopt;
  standing.level = LevelMotion(rig, *standing.stance);
  return standing;
}

std::optional<LengthAnswer> SolveChange(const Change& change, const Load* load, const Miss& miss,
                                        double tolerance, double most) {
  std::optional<LengthAnswer> tried;
  const auto missed = [&](double by) -> std::optional<double> {
    tried = Try(change, load, by);
    const std::optional<double> value = tried ? miss(tried->rig, tried->standing) : std::nullopt;
    return value && std::isfinite(*value) ? value : std::nullopt;
  };
  const std::optional<double> found = SecantRoot(missed, {.first = kFirstTrial,
                                                          .second = 0.0,
                                                          .met = tolerance,
                                                          .longest = kLongestTrial,
                                                          .most = most});
  return found ? std::move(tried) : std::nullopt;
}

std::optional<LengthAnswer> SolveLength(const Rig& rig, const Load* load, size_t axle,
                                        const std::vector<size_t>& members, const Miss& miss,
                                        double tolerance, double most) {
  return SolveChange([&](double by) { return Lengthened(rig, axle, members, by); }, load, miss,
                     tolerance, most);
}

}  // namespace linkwright
