// SPDX-License-Identifier: MIT
#include "solver/study/findings/finding.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace linkwright {
namespace {

using enum Harm;
using enum Sense;
using K = FindingKind;

// In the order of FindingKind.
constexpr std::array kTraits{
    FindingTrait{K::kAxleFree, "axle-free", kHurts, kNone},
    FindingTrait{K::kAxleNearlyFree, "axle-nearly-free", kHurts, kNone},
    FindingTrait{K::kScalesDisagree, "scales-against-coils", kSlip, kWithin},
    FindingTrait{K::kCoilsDiffer, "weighed-pair", kSlip, kWithin},
    FindingTrait{K::kArmMisfit, "arm-misfit", kLooksWrong, kWithin},
    FindingTrait{K::kArmsPitch, "arms-pitch-axle", kWears, kWithin},
    FindingTrait{K::kTireRadius, "tire-radius", kSlip, kWithin},
    FindingTrait{K::kHubHeight, "hub-height", kSlip, kWithin},
    FindingTrait{K::kNotMirrored, "left-against-right", kSlip, kAtMost},
    FindingTrait{K::kBelowFloor, "below-floor", kSlip, kNone},
    FindingTrait{K::kLongLink, "long-link", kSlip, kNone},
    FindingTrait{K::kShortLink, "short-link", kSlip, kNone},
    FindingTrait{K::kEndsSwapped, "ends-swapped", kSlip, kNone},
    FindingTrait{K::kLooseCoil, "loose-coil", kSlip, kNone},
    FindingTrait{K::kTracksDiffer, "tracks-differ", kSlip, kNone},
    FindingTrait{K::kHeavyUnsprung, "heavy-unsprung", kSlip, kNone},
    FindingTrait{K::kNominalTire, "nominal-tire", kSlip, kAtLeast},
    FindingTrait{K::kStopTakenRigid, "stop-curve-short", kSlip, kAtLeast},
    FindingTrait{K::kNoRest, "no-rest", kHurts, kNone},
    FindingTrait{K::kLeansInward, "leans-inward", kSlip, kAtLeast},
    FindingTrait{K::kOverRating, "axle-rating", kHurts, kAtMost},
    FindingTrait{K::kRidesStiff, "rides-stiff", kWears, kAtMost},
    FindingTrait{K::kStopRaisesRate, "rests-on-stop", kWears, kAtMost},
    FindingTrait{K::kSitsAskew, "sits-askew", kLooksWrong, kWithin},
    FindingTrait{K::kMockUpHeight, "mock-up-height", kLooksWrong, kAtMost},
    FindingTrait{K::kNarrowTriangle, "narrow-triangle", kWears, kAtLeast},
    FindingTrait{K::kLinkSlopes, "link-slope", kWears, kWithin},
    FindingTrait{K::kRollSteers, "roll-steer", kWears, kWithin},
    FindingTrait{K::kDamperAtRest, "damper-at-rest", kHits, kAtLeast},
    FindingTrait{K::kNoStop, "no-bump-stop", kHits, kNone},
    FindingTrait{K::kConeMissesPad, "cone-misses-pad", kHits, kNone},
    FindingTrait{K::kDamperIsStop, "damper-is-stop", kHits, kNone},
    FindingTrait{K::kEndsBeforeStop, "ends-before-stop", kHits, kNone},
    FindingTrait{K::kShortBump, "short-bump", kHits, kAtLeast},
    FindingTrait{K::kCoilUnseats, "coil-preload", kHits, kAtLeast},
    FindingTrait{K::kCoilNearSolid, "coil-solid", kHits, kAtLeast},
    FindingTrait{K::kDamperNearEnd, "damper-reserve", kHits, kAtLeast},
    FindingTrait{K::kJointNearLimit, "joint-misalignment", kHits, kAtLeast},
    FindingTrait{K::kSlipBottoms, "slip-bottoms", kHurts, kAtLeast},
    FindingTrait{K::kSlipParts, "slip-parts", kHurts, kAtLeast},
    FindingTrait{K::kTireNear, "tire-clearance", kHits, kAtLeast},
    FindingTrait{K::kGapCloses, "gap-closes", kHits, kAtLeast},
    FindingTrait{K::kCenterInsideOut, "instant-center-flips", kWears, kNone},
    FindingTrait{K::kPitches, "housing-pitches", kWears, kAtMost},
    FindingTrait{K::kLinksFight, "links-bind", kHits, kAtMost},
    FindingTrait{K::kNotFlatRide, "not-flat-ride", kWears, kNone},
    FindingTrait{K::kDampingOff, "damping", kWears, kNone},
    FindingTrait{K::kHopOff, "wheel-hop", kWears, kNone},
    FindingTrait{K::kInTheWay, "in-the-way", kHits, kNone},
    FindingTrait{K::kLinksFollowNot, "links-out-of-reach", kHits, kNone},
    FindingTrait{K::kNoStopSoShort, "no-stop-so-short", kHits, kNone},
    FindingTrait{K::kStopHeightNotHad, "no-stop-height", kHits, kNone},
    FindingTrait{K::kStopMovesRest, "stop-moves-rest", kLooksWrong, kNone},
    FindingTrait{K::kNoSuchDamper, "no-such-damper", kHits, kNone},
    FindingTrait{K::kOrderUnseatsCoil, "order-unseats-coil", kHits, kAtLeast},
    FindingTrait{K::kOrderBindsCoil, "order-binds-coil", kHits, kAtLeast},
    FindingTrait{K::kWheelOffCenter, "wheel-off-center", kLooksWrong, kAtMost},
    FindingTrait{K::kSteerFollowsNot, "steering-out-of-reach", kHurts, kNone},
    FindingTrait{K::kNoCentringPlan, "no-centring-plan", kLooksWrong, kNone},
    FindingTrait{K::kJointWorksHard, "joint-angle", kWears, kAtMost},
    FindingTrait{K::kDoubleJointWorksHard, "double-joint-angle", kWears, kAtMost},
    FindingTrait{K::kJointIdle, "joint-idle", kWears, kAtLeast},
    FindingTrait{K::kJointAtSpeed, "joint-angle-at-speed", kHurts, kAtMost},
    FindingTrait{K::kJointsDiffer, "joints-differ", kWears, kAtMost},
    FindingTrait{K::kPinionOffAim, "pinion-angle", kWears, kWithin},
    FindingTrait{K::kUneven, "shaft-uneven", kWears, kAtMost},
    FindingTrait{K::kTorsional, "torsional-acceleration", kWears, kAtMost},
    FindingTrait{K::kInertial, "inertial-acceleration", kWears, kAtMost},
    FindingTrait{K::kNoBalance, "no-balance-under-torque", kHurts, kNone},
    FindingTrait{K::kBarSlopeDiffers, "bar-slope", kWears, kAtMost},
    FindingTrait{K::kBarLengthDiffers, "bar-length", kWears, kWithin},
    FindingTrait{K::kBarOpposite, "bar-opposite", kHurts, kNone},
    FindingTrait{K::kBumpSteers, "bump-steer", kWears, kWithin},
    FindingTrait{K::kDragLinkInLine, "drag-link-in-line", kHurts, kNone},
    FindingTrait{K::kOffCenter, "axle-off-center", kLooksWrong, kWithin},
    FindingTrait{K::kOldAxleMoved, "old-axle-moved", kLooksWrong, kWithin},
    FindingTrait{K::kCamberGrew, "camber-grew", kSlip, kNone},
    FindingTrait{K::kEyesDisagree, "eyes-disagree", kSlip, kWithin},
    FindingTrait{K::kShackleInLine, "shackle-in-line", kSlip, kAtLeast},
    FindingTrait{K::kOldWheelOff, "old-wheel-off-center", kSlip, kWithin},
    FindingTrait{K::kWheelbaseDiffers, "wheelbase-disagrees", kSlip, kWithin},
    FindingTrait{K::kSpacingDiffers, "openings-spacing", kLooksWrong, kWithin},
    FindingTrait{K::kOpeningOffOld, "opening-off-old-axle", kLooksWrong, kWithin},
    FindingTrait{K::kLeafReadingDisagrees, "leaf-reading-disagrees", kSlip, kNone},
    FindingTrait{K::kLeafAngleDisagrees, "leaf-angle-disagrees", kSlip, kNone},
    FindingTrait{K::kLeafReadingsDoubted, "leaf-readings-doubted", kSlip, kNone},
    FindingTrait{K::kNoStandInTurn, "no-stand-in-turn", kHurts, kNone},
    FindingTrait{K::kEndInTurn, "end-in-turn", kHits, kNone},
    FindingTrait{K::kLeansOver, "leans-over", kHurts, kNone},
    FindingTrait{K::kEndAtOnce, "end-at-rest", kHits, kNone},
    FindingTrait{K::kWheelCarriesNothing, "wheel-carries-nothing", kHurts, kNone},
    FindingTrait{K::kTipsAtOnce, "tips-at-rest", kSlip, kNone},
    FindingTrait{K::kGoesOver, "goes-over", kHurts, kNone},
    FindingTrait{K::kWheelLifts, "wheel-lifts", kHurts, kNone},
};

constexpr bool InOrder() {
  for (size_t i = 0; i < kTraits.size(); ++i) {
    if (kTraits[i].kind != static_cast<FindingKind>(i)) return false;
  }
  return kTraits.size() == static_cast<size_t>(FindingKind::kWheelLifts) + 1;
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

template <typename Members>
std::string KeyOf(const Members& members, size_t index) {
  return members[index].name.key;
}

}  // namespace

const FindingTrait& TraitOf(FindingKind kind) { return kTraits[static_cast<size_t>(kind)]; }

Finding Judged(FindingKind kind, std::optional<size_t> axle, double value,
               std::optional<double> aim) {
  Finding finding{.kind = kind, .axle = axle, .value = value, .aim = aim};
  finding.past = aim && Past(finding) > 0.0;
  return finding;
}

void AddIfPast(Finding finding, std::vector<Finding>& to) {
  if (finding.past) to.push_back(std::move(finding));
}

void KeepWorst(std::vector<Finding>& findings) {
  std::vector<Finding> kept;
  for (Finding& finding : findings) {
    const auto same = std::find_if(
        kept.begin(), kept.end(), [&](const Finding& other) { return AreTheSame(finding, other); });
    if (same == kept.end()) {
      kept.push_back(std::move(finding));
    } else if (Past(finding) > Past(*same)) {
      *same = std::move(finding);
    }
  }
  findings = std::move(kept);
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
