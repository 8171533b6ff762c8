// SPDX-License-Identifier: MIT
#include "solver/study/findings/finding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>

namespace linkwright {
namespace {

using enum Harm;
using enum Sense;
using K = FindingKind;

// What else is read off an instrument, or to what its aim is given, as kTapeShows.
constexpr double kScaleShows = 0.5;                         // [kg]
constexpr double kShareShows = 1e-3;                        // 0.1 %
constexpr double kRatioShows = 5e-3;                        // aims have two decimals
constexpr double kFrequencyShows = 1e-2;                    // [Hz]
constexpr double kForceShows = 0.5;                         // [N]
constexpr double kAccelerationShows = 1.0;                  // [rad/s2]
constexpr double kSteerShows = 1e-4 * M_PI / 180.0 / 1e-3;  // [rad/m] 0.0001 deg/mm

// In the order of FindingKind.
constexpr std::array kTraits{
    FindingTrait{K::kAxleFree, "axle-free", kHurts, kNone},
    FindingTrait{K::kAxleNearlyFree, "axle-nearly-free", kHurts, kNone},
    FindingTrait{K::kScalesDisagree, "scales-against-coils", kSlip, kWithin, kShareShows},
    FindingTrait{K::kCoilsDiffer, "weighed-pair", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kArmMisfit, "arm-misfit", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kArmsPitch, "arms-pitch-axle", kWears, kWithin, kFinderShows},
    FindingTrait{K::kTireRadius, "tire-radius", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kHubHeight, "hub-height", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kNotMirrored, "left-against-right", kSlip, kAtMost, kTapeShows},
    FindingTrait{K::kBelowFloor, "below-floor", kSlip, kNone},
    FindingTrait{K::kLongLink, "long-link", kSlip, kNone},
    FindingTrait{K::kShortLink, "short-link", kSlip, kNone},
    FindingTrait{K::kEndsSwapped, "ends-swapped", kSlip, kNone},
    FindingTrait{K::kLooseCoil, "loose-coil", kSlip, kNone},
    FindingTrait{K::kTracksDiffer, "tracks-differ", kSlip, kNone},
    FindingTrait{K::kHeavyUnsprung, "heavy-unsprung", kSlip, kNone},
    FindingTrait{K::kNominalTire, "nominal-tire", kSlip, kAtLeast, kShareShows},
    FindingTrait{K::kStopTakenRigid, "stop-curve-short", kSlip, kAtLeast, kShareShows},
    FindingTrait{K::kNoRest, "no-rest", kHurts, kNone},
    FindingTrait{K::kLeansInward, "leans-inward", kSlip, kAtLeast, kTapeShows},
    FindingTrait{K::kOverRating, "axle-rating", kHurts, kAtMost, kScaleShows},
    FindingTrait{K::kRidesStiff, "rides-stiff", kWears, kAtMost, kFrequencyShows},
    FindingTrait{K::kStopRaisesRate, "rests-on-stop", kWears, kAtMost, kFrequencyShows},
    FindingTrait{K::kSitsAskew, "sits-askew", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kMockUpHeight, "mock-up-height", kLooksWrong, kAtMost, kTapeShows},
    FindingTrait{K::kNarrowTriangle, "narrow-triangle", kWears, kAtLeast, kFinderShows},
    FindingTrait{K::kLinkSlopes, "link-slope", kWears, kWithin, kFinderShows},
    FindingTrait{K::kRollSteers, "roll-steer", kWears, kWithin, kRatioShows},
    FindingTrait{K::kDamperAtRest, "damper-at-rest", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kNoStop, "no-bump-stop", kHits, kNone},
    FindingTrait{K::kConeMissesPad, "cone-misses-pad", kHits, kNone},
    FindingTrait{K::kDamperIsStop, "damper-is-stop", kHits, kNone},
    FindingTrait{K::kEndsBeforeStop, "ends-before-stop", kHits, kNone},
    FindingTrait{K::kShortBump, "short-bump", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kCoilUnseats, "coil-preload", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kCoilNearSolid, "coil-solid", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kDamperNearEnd, "damper-reserve", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kJointNearLimit, "joint-misalignment", kHits, kAtLeast, kFinderShows},
    FindingTrait{K::kSlipBottoms, "slip-bottoms", kHurts, kAtLeast, kTapeShows},
    FindingTrait{K::kSlipParts, "slip-parts", kHurts, kAtLeast, kTapeShows},
    FindingTrait{K::kTireNear, "tire-clearance", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kGapCloses, "gap-closes", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kCenterInsideOut, "instant-center-flips", kWears, kNone},
    FindingTrait{K::kPitches, "housing-pitches", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kLinksFight, "links-bind", kHits, kAtMost, kForceShows},
    FindingTrait{K::kNotFlatRide, "not-flat-ride", kWears, kNone},
    FindingTrait{K::kDampingOff, "damping", kWears, kNone},
    FindingTrait{K::kHopOff, "wheel-hop", kWears, kNone},
    FindingTrait{K::kInTheWay, "in-the-way", kHits, kNone},
    FindingTrait{K::kLinksFollowNot, "links-out-of-reach", kHits, kNone},
    FindingTrait{K::kNoStopSoShort, "no-stop-so-short", kHits, kAtMost},
    FindingTrait{K::kStopHeightNotHad, "no-stop-height", kHits, kAtMost},
    FindingTrait{K::kStopMovesRest, "stop-moves-rest", kLooksWrong, kAtMost},
    FindingTrait{K::kNoSuchDamper, "no-such-damper", kHits, kNone},
    FindingTrait{K::kOrderUnseatsCoil, "order-unseats-coil", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kOrderBindsCoil, "order-binds-coil", kHits, kAtLeast, kTapeShows},
    FindingTrait{K::kWheelOffCenter, "wheel-off-center", kLooksWrong, kAtMost, kTapeShows},
    FindingTrait{K::kSteerFollowsNot, "steering-out-of-reach", kHurts, kNone},
    FindingTrait{K::kNoCentringPlan, "no-centring-plan", kLooksWrong, kNone},
    FindingTrait{K::kJointWorksHard, "joint-angle", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kDoubleJointWorksHard, "double-joint-angle", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kJointIdle, "joint-idle", kWears, kAtLeast, kFinderShows},
    FindingTrait{K::kJointAtSpeed, "joint-angle-at-speed", kHurts, kAtMost, kFinderShows},
    FindingTrait{K::kJointsDiffer, "joints-differ", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kPinionOffAim, "pinion-angle", kWears, kWithin, kFinderShows},
    FindingTrait{K::kUneven, "shaft-uneven", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kTorsional, "torsional-acceleration", kWears, kAtMost, kAccelerationShows},
    FindingTrait{K::kInertial, "inertial-acceleration", kWears, kAtMost, kAccelerationShows},
    FindingTrait{K::kNoBalance, "no-balance-under-torque", kHurts, kNone},
    FindingTrait{K::kBarSlopeDiffers, "bar-slope", kWears, kAtMost, kFinderShows},
    FindingTrait{K::kBarLengthDiffers, "bar-length", kWears, kWithin, kShareShows},
    FindingTrait{K::kBarOpposite, "bar-opposite", kHurts, kNone},
    FindingTrait{K::kBumpSteers, "bump-steer", kWears, kWithin, kSteerShows},
    FindingTrait{K::kDragLinkInLine, "drag-link-in-line", kHurts, kNone},
    FindingTrait{K::kOffCenter, "axle-off-center", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kOldAxleMoved, "old-axle-moved", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kCamberGrew, "camber-grew", kSlip, kNone},
    FindingTrait{K::kEyesDisagree, "eyes-disagree", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kShackleInLine, "shackle-in-line", kSlip, kAtLeast, kFinderShows},
    FindingTrait{K::kOldWheelOff, "old-wheel-off-center", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kWheelbaseDiffers, "wheelbase-disagrees", kSlip, kWithin, kTapeShows},
    FindingTrait{K::kSpacingDiffers, "openings-spacing", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kOpeningOffOld, "opening-off-old-axle", kLooksWrong, kWithin, kTapeShows},
    FindingTrait{K::kLeafReadingDisagrees, "leaf-reading-disagrees", kSlip, kNone},
    FindingTrait{K::kLeafAngleDisagrees, "leaf-angle-disagrees", kSlip, kNone},
    FindingTrait{K::kLeafReadingsDoubted, "leaf-readings-doubted", kSlip, kNone},
    FindingTrait{K::kNoStandInTurn, "no-stand-in-turn", kHurts, kNone},
    FindingTrait{K::kEndInTurn, "end-in-turn", kHits, kNone},
    FindingTrait{K::kLeansOver, "leans-over", kHurts, kAtLeast},
    FindingTrait{K::kEndAtOnce, "end-at-rest", kHits, kAtLeast},
    FindingTrait{K::kWheelCarriesNothing, "wheel-carries-nothing", kHurts, kAtLeast},
    FindingTrait{K::kTipsAtOnce, "tips-at-rest", kSlip, kNone},
    FindingTrait{K::kGoesOver, "goes-over", kHurts, kAtLeast},
    FindingTrait{K::kWheelLifts, "wheel-lifts", kHurts, kAtLeast},
    FindingTrait{K::kAcceptsNothing, "accepts-nothing", kSlip, kNone},
};

constexpr bool InOrder() {
  for (size_t i = 0; i < kTraits.size(); ++i) {
    if (kTraits[i].kind != static_cast<FindingKind>(i)) return false;
  }
  return kTraits.size() == kFindingKinds;
}
static_assert(InOrder());

// How far a value is past its aim; more is worse. 0 for a kind without.
double Past(const Finding& finding) {
  const double aim = finding.aim.value_or(0.0);
  switch (TraitOf(finding.kind).sense) {
    case kAtLeast:
      return aim - finding.value;
    case kAtMost:
      return finding.value - aim;
    case kWithin:
      return std::abs(finding.value) - aim;
    case kNone:
      break;
  }
  return 0.0;
}

bool AreTheSame(const Finding& a, const Finding& b) {
  const std::string& one = a.twins.empty() ? a.member : a.twins;
  const std::string& other = b.twins.empty() ? b.member : b.twins;
  return a.kind == b.kind && a.axle == b.axle && one == other;
}

bool IsOfShaft(K kind) {
  return kind == K::kSlipBottoms || kind == K::kSlipParts ||
         (kind >= K::kJointWorksHard && kind <= K::kNoBalance);
}

template <typename Members>
std::string KeyOf(const Members& members, size_t index) {
  return members[index].name.key;
}

}  // namespace

const FindingTrait& TraitOf(FindingKind kind) { return kTraits[static_cast<size_t>(kind)]; }

Finding Judged(FindingKind kind, std::optional<size_t> axle, double value,
               std::optional<double> aim) {
  Finding finding{.kind = kind, .axle = axle, .value = value, .aim = aim};
  const double past = Past(finding);
  const FindingTrait& trait = TraitOf(kind);
  // Of what can hurt someone nothing is to be less than nothing.
  const bool run_out = trait.harm == kHurts && trait.sense == kAtLeast && value < 0.0;
  finding.past = aim && past > 0.0 && (past >= trait.shows || run_out);
  return finding;
}

std::string NameOf(const Finding& finding, const Vehicle& vehicle) {
  if (IsOfShaft(finding.kind)) return finding.member + " driveshaft";
  if (!finding.axle) return finding.member;
  const std::string axle = vehicle.axles[*finding.axle].name + " ";
  if (finding.kind == K::kTireNear) return axle + finding.detail + " tyre";
  if (finding.member.empty()) return axle + "axle";
  // As a person says it: "left tyre", and of two that differ the pair.
  for (const std::string side : {"left", "right"}) {
    if (finding.member == "tyre " + side) return axle + side + " tyre";
  }
  std::string member = finding.member;
  const std::string both = " left and right";
  const size_t at = member.find(both);
  if (at != std::string::npos) member.erase(at, both.size());
  return axle + member;
}

void AddIfPast(Finding finding, std::vector<Finding>& to) {
  if (finding.past) to.push_back(std::move(finding));
}

void KeepWorst(std::vector<Finding>& findings) {
  constexpr double kSame = 1e-9;  // [SI] the same found in two ways; the first says where
  std::vector<Finding> kept;
  for (Finding& finding : findings) {
    const auto same = std::find_if(
        kept.begin(), kept.end(), [&](const Finding& other) { return AreTheSame(finding, other); });
    if (same == kept.end()) {
      kept.push_back(std::move(finding));
    } else if (Past(finding) > Past(*same) + kSame) {
      *same = std::move(finding);
    }
  }
  findings = std::move(kept);
}

void SortByHarm(std::vector<Finding>& findings) {
  const auto share = [](const Finding& finding) {
    const double aim = std::abs(finding.aim.value_or(0.0));
    return aim > 0.0 ? Past(finding) / aim : 1.0;
  };
  std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
    const Harm one = TraitOf(a.kind).harm, other = TraitOf(b.kind).harm;
    return one != other ? one < other : share(a) > share(b);
  });
}

std::vector<std::string> PartOf(const Vehicle& vehicle, size_t axle, const LimitId& id) {
  const Axle& it = vehicle.axles[axle];
  const auto of = [&](const char* group, const std::string& key) {
    return std::vector<std::string>{"axles", it.name, group, key};
  };
  switch (id.kind) {
    case LimitKind::kDamperClosed:
    case LimitKind::kDamperOpen:
      return of("dampers", KeyOf(it.dampers, id.member));
    case LimitKind::kCoilBound:
    case LimitKind::kCoilUnseated:
      return of("springs", KeyOf(it.springs, id.member));
    case LimitKind::kStopSolid:
    case LimitKind::kConeOffPad:
      return of("bump_stops", KeyOf(it.bump_stops, id.member));
    case LimitKind::kStrapTaut:
      return of("straps", KeyOf(it.straps, id.member));
    case LimitKind::kJointAtLimit:
      return of("links", KeyOf(it.links, id.member));
    case LimitKind::kShaftBottomed:
    case LimitKind::kShaftParted:
      return {"driveshafts", vehicle.driveshafts[id.member].name};
    case LimitKind::kTireOnLip:
    case LimitKind::kTireOnPanel:
      return {"openings", it.name};
    default:
      break;
  }
  return {"axles", it.name};
}

}  // namespace linkwright
