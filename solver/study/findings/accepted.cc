// SPDX-License-Identifier: MIT
#include "solver/study/findings/accepted.h"

#include <algorithm>
#include <array>

namespace linkwright {
namespace {

using K = FindingKind;

// Kinds that `check` does not judge, from the first of each run to its last.
constexpr std::array<std::array<K, 2>, 5> kOfOthers{{{K::kInTheWay, K::kOrderBindsCoil},
                                                     {K::kNoCentringPlan, K::kNoCentringPlan},
                                                     {K::kNoBalance, K::kNoBalance},
                                                     {K::kOldAxleMoved, K::kWheelLifts},
                                                     {K::kAcceptsNothing, K::kAcceptsNothing}}};

bool IsOfCheck(K kind) {
  return std::none_of(kOfOthers.begin(), kOfOthers.end(),
                      [&](const auto& run) { return kind >= run[0] && kind <= run[1]; });
}

// Both sides are one: "rear coil left" is "rear coil".
std::string WithoutSides(std::string name) {
  name = " " + name;
  for (const std::string side : {" left and right", " left", " right"}) {
    for (size_t at = name.find(side); at != std::string::npos; at = name.find(side)) {
      name.erase(at, side.size());
    }
  }
  return name;
}

}  // namespace

std::optional<FindingKind> KindOf(std::string_view slug) {
  for (size_t i = 0; i < kFindingKinds; ++i) {
    const auto kind = static_cast<K>(i);
    if (TraitOf(kind).slug == slug) return kind;
  }
  return std::nullopt;
}

AcceptedName SplitName(std::string_view of) {
  const size_t blank = of.find(' ');
  if (blank == std::string_view::npos) return {of, {}};
  const size_t member = std::min(of.find_first_not_of(' ', blank), of.size());
  return {of.substr(0, blank), of.substr(member)};
}

bool Accepts(const Acceptance& acceptance, const Finding& finding, const Vehicle& vehicle) {
  const AcceptedName name = SplitName(acceptance.of);
  if (name.slug != TraitOf(finding.kind).slug) return false;
  if (name.member.empty()) return true;
  const std::string wanted = WithoutSides(std::string(name.member));
  std::vector<std::string> names{NameOf(finding, vehicle), finding.member};
  if (finding.axle) {
    const std::string& axle = vehicle.axles[*finding.axle].name;
    if (name.member == axle) return true;
    if (names[0].starts_with(axle + " ")) names.push_back(names[0].substr(axle.size() + 1));
  }
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& each) { return WithoutSides(each) == wanted; });
}

std::vector<AcceptedFinding> TakeAccepted(const Vehicle& vehicle, std::vector<Finding>& findings) {
  std::vector<AcceptedFinding> accepted;
  std::erase_if(findings, [&](const Finding& finding) {
    if (!finding.past) return false;
    const auto by = std::find_if(
        vehicle.accept.begin(), vehicle.accept.end(),
        [&](const Acceptance& acceptance) { return Accepts(acceptance, finding, vehicle); });
    if (by == vehicle.accept.end()) return false;
    accepted.push_back({finding, *by});
    return true;
  });
  return accepted;
}

std::vector<Finding> IdleAcceptances(const Vehicle& vehicle,
                                     const std::vector<AcceptedFinding>& accepted) {
  std::vector<Finding> idle;
  for (const Acceptance& acceptance : vehicle.accept) {
    const std::optional<K> kind = KindOf(SplitName(acceptance.of).slug);
    if (kind && !IsOfCheck(*kind)) continue;
    const bool used = std::any_of(
        accepted.begin(), accepted.end(),
        [&](const AcceptedFinding& each) { return Accepts(acceptance, each.finding, vehicle); });
    if (used) continue;
    idle.push_back(
        {.kind = K::kAcceptsNothing, .member = acceptance.of, .part = {"accept", acceptance.of}});
  }
  return idle;
}

}  // namespace linkwright
