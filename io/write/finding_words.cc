// SPDX-License-Identifier: MIT
#include "io/write/finding_words.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "io/write/amount.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {
namespace {

using enum Dimension;
using K = FindingKind;

const char* MotionWords(const FindingPlace& place) {
  switch (place.motion) {
    case TireMotion::kRest:
      return "at rest";
    case TireMotion::kBounce:
      return place.parameter > 0.0 ? "in bump" : "in droop";
    case TireMotion::kRoll:
      return "in roll";
    case TireMotion::kCrossed:
      return "crossed";
    case TireMotion::kOneWheel:
      break;
  }
  return "with one wheel moved";
}

// A finding with its amounts as words.
struct Told {
  const Finding& f;
  const Vehicle& vehicle;
  UnitSystem units;

  [[nodiscard]] std::string Show(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Length(double si) const { return Show(si, kLength); }
  [[nodiscard]] std::string Angle(double si) const { return Show(si, kAngle); }
  [[nodiscard]] std::string Value(Dimension dimension) const { return Show(f.value, dimension); }
  // The value without its sign.
  [[nodiscard]] std::string Size(Dimension dimension) const {
    return Show(std::abs(f.value), dimension);
  }
  [[nodiscard]] std::string Aim(Dimension dimension) const {
    return Show(f.aim.value_or(0.0), dimension);
  }
  // "; 3.0 deg is the limit", where there is one.
  [[nodiscard]] std::string Limit(Dimension dimension) const {
    return f.aim && *f.aim != 0.0 ? "; " + Aim(dimension) + " is the limit" : std::string();
  }
  [[nodiscard]] std::string Under() const {
    return f.load.empty() ? std::string() : "under '" + f.load + "' ";
  }
  // "in bump at 80.0 mm", "crossed at 12.0 deg, steered 30.0 deg left".
  [[nodiscard]] std::string Where() const {
    if (!f.place) return {};
    const FindingPlace& place = *f.place;
    const bool angle = place.motion == TireMotion::kRoll || place.motion == TireMotion::kCrossed;
    std::string where = MotionWords(place);
    if (place.motion != TireMotion::kRest) {
      where += " at " + Show(place.parameter, angle ? kAngle : kLength);
    }
    if (place.steer) {
      where += fmt::format(", steered {} {}", Angle(std::abs(*place.steer)),
                           *place.steer >= 0.0 ? "left" : "right");
    }
    return where;
  }
};

std::string Percent(double share) { return ShowNumber(100.0 * share, 1) + " %"; }

// "at 0.83 g", or how little it takes.
std::string AtShare(double share) {
  return AtOnce(share) ? std::string("with hardly any turn") : "at " + ShowNumber(share, 2) + " g";
}

// "25.3 mm back".
std::string Along(const Told& t, double x) {
  return t.Length(std::abs(x)) + (x < 0.0 ? " back" : " forward");
}

constexpr double kNothing = 5e-5;  // [m] shows as nothing on a tape

// What stands before the words: whom they are about.
enum class Of { kAxle, kAxleItself, kShaft, kTurn, kVehicle };

struct KindWords {
  K kind;
  Of about;
  std::string (*words)(const Told&);
};

std::string LeftOrUnder(const Told& t, Dimension dimension, const std::string& before) {
  return t.f.value < 0.0
             ? fmt::format("{} is past that by {} {}", t.f.member, t.Size(dimension), t.Where())
             : fmt::format("{} has {} left before {} {}, less than {}", t.f.member,
                           t.Value(dimension), before, t.Where(), t.Aim(dimension));
}

std::string JointAtRest(const Told& t, const char* side) {
  return fmt::format("the joint at the {} works at {} at rest, {} {}", t.f.detail, t.Value(kAngle),
                     side, t.Aim(kAngle));
}

std::string Acceleration(const Told& t, const char* what) {
  return fmt::format("{} acceleration at rest and {}: {}{}", what, t.Show(t.f.more[0], kShaftSpeed),
                     t.Value(kAcceleration), t.Limit(kAcceleration));
}

std::string SlipLeft(const Told& t, const char* what) {
  if (t.f.axle) return LeftOrUnder(t, kLength, fmt::format("it {}", what));
  if (t.f.value < 0.0) {
    return fmt::format("its slip joint {}: {} too little", what, t.Size(kLength));
  }
  return fmt::format("at worst {} of its slip are left before it {}{}", t.Value(kLength), what,
                     t.Limit(kLength));
}

// In the order of FindingKind.
constexpr std::array kWords{
    KindWords{K::kAxleFree, Of::kAxleItself, [](const Told& t) { return t.f.detail; }},
    KindWords{K::kAxleNearlyFree, Of::kAxleItself,
              [](const Told& t) {
                return fmt::format(
                    "is nearly free: it {} (1 mm of give in a bushing is {:.0f} mm at the axle)",
                    t.f.detail, t.f.value);
              }},
    KindWords{
        K::kScalesDisagree, Of::kAxle,
        [](const Told& t) {
          return fmt::format(
              "its coils and stops at their measured length say {}, the scales say {}: {}{} %{}",
              t.Show(t.f.more[0], kMass), t.Show(t.f.more[1], kMass), t.f.value < 0.0 ? "" : "+",
              ShowNumber(100.0 * t.f.value, 1),
              t.f.past ? fmt::format("; above {:g} % (common practice) look at the rates, free "
                                     "lengths and what was on board; where the scales are right "
                                     "and the coils cannot be measured, give free_length: weighed",
                                     100.0 * *t.f.aim)
                       : std::string());
        }},
    KindWords{K::kHubHeight, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "its wheel centres were measured {} above the floor, but its tyres under that "
                    "weight hold them at {}: was it on stands, or is a tyre's radius or rate "
                    "wrong?",
                    t.Length(t.f.more[0]), t.Length(t.f.more[1]));
              }},
    KindWords{K::kNotMirrored, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{} are no mirror images, {} apart; more than {} (common practice)", t.f.member,
                    t.Value(kLength), t.Aim(kLength));
              }},
    KindWords{K::kBelowFloor, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} reaches {} below the floor; is a height wrong?", t.f.member,
                                   t.Size(kLength));
              }},
    KindWords{K::kLongLink, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{} is {} long, more than half the wheelbase; is a sign or a place wrong?",
                    t.f.member, t.Value(kLength));
              }},
    KindWords{K::kShortLink, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} is {} long; is a sign lost on one end?", t.f.member,
                                   t.Value(kLength));
              }},
    KindWords{K::kEndsSwapped, Of::kAxle,
              [](const Told& t) {
                return t.f.member +
                       " has its axle end farther from the axle than its frame end; are 'frame' "
                       "and 'axle' swapped?";
              }},
    KindWords{K::kLooseCoil, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{} is off its seat by {} as measured: is its free length right?", t.f.member,
                    t.Value(kLength));
              }},
    KindWords{K::kTracksDiffer, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "the track is {}, far wider than the other axle's; y of a wheel centre is half "
                    "the track",
                    t.Value(kLength));
              }},
    KindWords{K::kHeavyUnsprung, Of::kAxle,
              [](const Told& t) {
                return fmt::format("its unsprung mass of {} is all the scales showed, or more",
                                   t.Value(kMass));
              }},
    KindWords{K::kNominalTire, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "its tyre is flattened by {} of its radius as measured, less than {}: is the "
                    "nominal radius taken for the loaded one?",
                    Percent(t.f.value), Percent(*t.f.aim));
              }},
    KindWords{K::kStopTakenRigid, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "the curve of {} ends at {} of its free length, less than {}: a foam stop of "
                    "70 mm crushes to 28; is it taken as rigid?",
                    t.f.member, Percent(t.f.value), Percent(*t.f.aim));
              }},
    KindWords{
        K::kNoRest, Of::kVehicle,
        [](const Told& t) { return t.Under() + "it finds no resting position: " + t.f.detail; }},
    KindWords{K::kLeansInward, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "{}the body's centre of mass lies {} below the roll axis, so that it would "
                    "lean into a turn, as no truck does: look at the heights of the masses and of "
                    "what holds the axles sideways",
                    t.Under(), t.Size(kLength));
              }},
    KindWords{K::kOverRating, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{}it carries {}, above its rating of {}", t.Under(),
                                   t.Value(kMass), t.Aim(kMass));
              }},
    KindWords{K::kRidesStiff, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}its ride frequency is {}, above {}: a donor's springs under a lighter body?",
                    t.Under(), t.Value(kFrequency), t.Aim(kFrequency));
              }},
    KindWords{K::kStopRaisesRate, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}a bump stop touches at rest: with its rate the ride frequency is {}, above "
                    "{}; the coils alone are not to blame",
                    t.Under(), t.Value(kFrequency), t.Aim(kFrequency));
              }},
    KindWords{K::kSitsAskew, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}its {} wheel stands {} farther up than the other, more than {}", t.Under(),
                    t.f.value > 0.0 ? "left" : "right", t.Size(kLength), t.Aim(kLength));
              }},
    KindWords{K::kMockUpHeight, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "even {}its wheel rests {} from where it was measured in its opening, more "
                    "than {}: set wheelbase and opening at loaded height, not at mock-up height",
                    t.Under(), t.Value(kLength), t.Aim(kLength));
              }},
    KindWords{K::kNarrowTriangle, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{} left and right spread {} seen from above, less than {}: nothing else holds "
                    "the axle sideways",
                    t.f.member, t.Value(kAngle), t.Aim(kAngle));
              }},
    KindWords{K::kLinkSlopes, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} slopes {} from the side at rest, more than {}", t.f.member,
                                   t.Size(kAngle), t.Aim(kAngle));
              }},
    KindWords{K::kRollSteers, Of::kAxle,
              [](const Told& t) {
                return fmt::format("it steers {} with roll at rest, more than {} either way",
                                   t.Value(kAngleRatio), t.Aim(kAngleRatio));
              }},
    KindWords{K::kDamperAtRest, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} left at rest before {}, less than {}", t.Value(kLength),
                                   t.f.detail, t.Aim(kLength));
              }},
    KindWords{K::kNoStop, Of::kAxle,
              [](const Told&) {
                return std::string("no bump stop is in the file, so that something else ends bump");
              }},
    KindWords{K::kDamperIsStop, Of::kAxle,
              [](const Told& t) {
                const bool droop = t.f.place && t.f.place->motion == TireMotion::kBounce &&
                                   t.f.place->parameter < 0.0;
                return fmt::format(
                    "the damper is the stop {}: {}; {}", t.Where(), t.f.detail,
                    droop ? "a strap spares it" : "it breaks before a stop or a strap would");
              }},
    KindWords{K::kEndsBeforeStop, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} {}, before a stop or a strap ends it", t.f.detail,
                                   t.Where());
              }},
    KindWords{K::kShortBump, Of::kAxle,
              [](const Told& t) {
                return fmt::format("bump travel is {} at rest, less than {}: {}", t.Value(kLength),
                                   t.Aim(kLength), t.f.detail);
              }},
    KindWords{K::kCoilUnseats, Of::kAxle,
              [](const Told& t) {
                return t.f.value < 0.0
                           ? fmt::format("{} is off its seat by {} {}", t.f.member, t.Size(kLength),
                                         t.Where())
                           : fmt::format(
                                 "{} is squeezed {} {}, less than {}: it may leave its seat",
                                 t.f.member, t.Value(kLength), t.Where(), t.Aim(kLength));
              }},
    KindWords{K::kCoilNearSolid, Of::kAxle,
              [](const Told& t) { return LeftOrUnder(t, kLength, "it is solid"); }},
    KindWords{K::kDamperNearEnd, Of::kAxle,
              [](const Told& t) { return LeftOrUnder(t, kLength, "its end"); }},
    KindWords{K::kJointNearLimit, Of::kAxle,
              [](const Told& t) { return LeftOrUnder(t, kAngle, "its misalignment limit"); }},
    KindWords{K::kSlipBottoms, Of::kShaft, [](const Told& t) { return SlipLeft(t, "bottoms"); }},
    KindWords{K::kSlipParts, Of::kShaft, [](const Told& t) { return SlipLeft(t, "parts"); }},
    KindWords{K::kTireNear, Of::kAxle,
              [](const Told& t) {
                const bool assumed = t.f.member == "lip" && t.vehicle.axles[*t.f.axle].opening &&
                                     !t.vehicle.axles[*t.f.axle].opening->lip_y;
                const std::string text =
                    t.f.value < 0.0
                        ? fmt::format("its {} tyre is {} deep in its {} {}", t.f.detail,
                                      t.Size(kLength), t.f.member, t.Where())
                        : fmt::format("its {} tyre comes as near as {} to its {} {}, less than {}",
                                      t.f.detail, t.Value(kLength), t.f.member, t.Where(),
                                      t.Aim(kLength));
                return text +
                       (assumed ? " (no lip_y: its lip is taken to reach across the tyre)" : "");
              }},
    KindWords{K::kGapCloses, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} comes as near as {} over the travel, less than {}",
                                   t.f.member, t.Value(kLength), t.Aim(kLength));
              }},
    KindWords{K::kCenterInsideOut, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "its instant centre turns inside out near {} of travel: anti-squat, anti-dive "
                    "and pitch change sign in their trend there",
                    t.Value(kLength));
              }},
    KindWords{K::kPitches, Of::kAxle,
              [](const Told& t) {
                return fmt::format("its housing turns {} over the travel, more than {}",
                                   t.Value(kAngle), t.Aim(kAngle));
              }},
    KindWords{K::kLinksFight, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "at crossed extremes {} takes {} from links fighting one another, more than {}",
                    t.f.member, t.Value(kForce), t.Aim(kForce));
              }},
    KindWords{K::kNotFlatRide, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "rear over front {}: flat ride wants {} to {}, the rear quicker than the "
                    "front, so that it catches up after a bump (aims.flat_ride_least, "
                    "flat_ride_most); {}",
                    ShowNumber(t.f.value, 2), ShowNumber(t.f.more[0], 2),
                    ShowNumber(t.f.more[1], 2), t.f.past ? "it is not" : "it is");
              }},
    KindWords{K::kDampingOff, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "{} is damped {} by the whole model; {} to {} is usual (common practice; "
                    "aims.damping_least, damping_most)",
                    t.f.member, ShowNumber(t.f.value, 2), ShowNumber(t.f.more[0], 2),
                    ShowNumber(t.f.more[1], 2));
              }},
    KindWords{K::kHopOff, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "{} is at {} Hz; {} to {} is usual (course notes; aims.hop_least, hop_most)",
                    t.f.member, ShowNumber(t.f.value, 1), ShowNumber(t.f.more[0], 1),
                    ShowNumber(t.f.more[1], 1));
              }},
    KindWords{K::kInTheWay, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{} {}, {} short of the {} of wheel travel that is wanted; no damper, stop or "
                    "strap mends that",
                    t.f.detail, t.Where(), t.Length(t.f.more[1]), t.Length(t.f.more[0]));
              }},
    KindWords{K::kLinksFollowNot, Of::kAxle,
              [](const Told&) {
                return std::string(
                    "the links do not follow everywhere in the travel that is wanted, one wheel up "
                    "and the other down");
              }},
    KindWords{K::kNoStopSoShort, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}: in the wanted bump its pad goes {} past its seat, so that no stop is "
                    "short enough: want less bump, or move the seat",
                    t.f.member, t.Value(kLength));
              }},
    KindWords{K::kStopHeightNotHad, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}: as high as the wanted bump asks it {}, so that the truck then stands "
                    "otherwise, and no heights are found that give this bump from there: want less "
                    "bump, or move the seat",
                    t.f.member,
                    t.f.value > 0.0 ? "is squeezed by " + t.Value(kLength) + " at rest"
                                    : std::string("no longer touches at rest"));
              }},
    KindWords{K::kStopMovesRest, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}: as high as advised it {}, so that the {} then stands {} {} than now; the "
                    "parts here are for that",
                    t.f.member,
                    t.f.value > 0.0 ? "is squeezed by " + t.Value(kLength) + " at rest"
                                    : std::string("no longer touches at rest"),
                    t.vehicle.axles[*t.f.axle].name, t.Length(std::abs(t.f.more[0])),
                    t.f.more[0] > 0.0 ? "higher" : "lower");
              }},
    KindWords{K::kOrderUnseatsCoil, Of::kAxle,
              [](const Told& t) {
                return t.f.value < 0.0
                           ? fmt::format(
                                 "{}: off its seat by {} where it is longest in the wanted "
                                 "travel: keep it in, or shorten the strap",
                                 t.f.member, t.Size(kLength))
                           : fmt::format("{}: {} of preload in the wanted travel, aim {} or more",
                                         t.f.member, t.Value(kLength), t.Aim(kLength));
              }},
    KindWords{K::kOrderBindsCoil, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "{}: {} left before it is solid in the wanted travel, aim {} or more: a taller "
                    "stop",
                    t.f.member, t.Value(kLength), t.Aim(kLength));
              }},
    KindWords{K::kWheelOffCenter, Of::kAxle,
              [](const Told& t) {
                const double ahead = t.f.more[0], up = t.f.more[1];
                return fmt::format(
                    "its wheels stand {} {} and {} {} the centre of their openings at rest, aim {} "
                    "or less",
                    t.Length(std::abs(ahead)), ahead >= 0.0 ? "ahead of" : "behind",
                    t.Length(std::abs(up)), up >= 0.0 ? "above" : "below", t.Aim(kLength));
              }},
    KindWords{K::kSteerFollowsNot, Of::kAxle,
              [](const Told&) {
                return std::string(
                    "the drag link or tie rod does not follow to full lock everywhere; those "
                    "places are left out");
              }},
    KindWords{
        K::kNoCentringPlan, Of::kVehicle,
        [](const Told& t) { return "no plan that centres the wheels was found: " + t.f.detail; }},
    KindWords{K::kJointWorksHard, Of::kShaft,
              [](const Told& t) { return JointAtRest(t, "above"); }},
    KindWords{K::kDoubleJointWorksHard, Of::kShaft,
              [](const Told& t) {
                return fmt::format(
                    "the joint at the {}, a double one, works at {} at rest, above {}", t.f.detail,
                    t.Value(kAngle), t.Aim(kAngle));
              }},
    KindWords{K::kJointIdle, Of::kShaft,
              [](const Told& t) { return JointAtRest(t, "below") + ": its needles do not turn"; }},
    KindWords{K::kJointAtSpeed, Of::kShaft,
              [](const Told& t) {
                return JointAtRest(t, "above the") + " that go with " +
                       t.Show(t.f.more[0], kShaftSpeed);
              }},
    KindWords{K::kJointsDiffer, Of::kShaft,
              [](const Told& t) {
                return fmt::format("its two joints differ by {} at rest{}", t.Value(kAngle),
                                   t.Limit(kAngle));
              }},
    KindWords{K::kPinionOffAim, Of::kShaft,
              [](const Told& t) {
                double low = 0.0;
                for (const Driveshaft& shaft : t.vehicle.driveshafts) {
                  if (shaft.name == t.f.member) low = shaft.pinion_low;
                }
                const std::string stand =
                    low == 0.0 ? " for the least net angle at rest: "
                               : fmt::format(", to stand {} {} of the least net angle: at rest ",
                                             t.Angle(std::abs(low)), low > 0.0 ? "low" : "high");
                return fmt::format("the pinion's yoke end has to come {} {}{}{}, now {}",
                                   t.Size(kAngle), t.f.value > 0.0 ? "up" : "down", stand,
                                   t.Angle(t.f.more[0]), t.Angle(t.f.more[1]));
              }},
    KindWords{K::kUneven, Of::kShaft,
              [](const Told& t) {
                return fmt::format(
                    "{} is the least net angle that a turn of the pinion can leave at rest: it "
                    "comes from the plan view or from the phase of the yokes",
                    t.Value(kAngle));
              }},
    KindWords{K::kTorsional, Of::kShaft,
              [](const Told& t) { return Acceleration(t, "torsional"); }},
    KindWords{K::kInertial, Of::kShaft, [](const Told& t) { return Acceleration(t, "inertial"); }},
    KindWords{K::kNoBalance, Of::kShaft,
              [](const Told& t) {
                return t.f.detail.empty()
                           ? "under " + t.Value(kTorque) +
                                 " at the wheels its axle finds no balance"
                           : std::string("wind-up needs masses: the file gives none");
              }},
    KindWords{K::kBarSlopeDiffers, Of::kAxle,
              [](const Told& t) {
                return fmt::format("from in front, {} and drag link differ in slope by {}{}",
                                   t.f.member, t.Value(kAngle), t.Limit(kAngle));
              }},
    KindWords{K::kBarLengthDiffers, Of::kAxle,
              [](const Told& t) {
                return fmt::format("{} is {} {} than the drag link, {} %{}", t.f.member,
                                   t.Length(std::abs(t.f.more[0])),
                                   t.f.value > 0.0 ? "longer" : "shorter",
                                   ShowNumber(100.0 * std::abs(t.f.value), 1), t.Limit(kPercent));
              }},
    KindWords{K::kBarOpposite, Of::kAxle,
              [](const Told& t) {
                return t.f.member +
                       " and drag link have their frame ends on opposite sides: one pulls the axle "
                       "where the other pushes the wheels";
              }},
    KindWords{K::kBumpSteers, Of::kAxle,
              [](const Told& t) {
                return fmt::format(
                    "with the steering wheel held, bump at rest steers {} to the {}{}",
                    t.Size(kAngleRate), t.f.value > 0.0 ? "left" : "right", t.Limit(kAngleRate));
              }},
    KindWords{K::kDragLinkInLine, Of::kAxle,
              [](const Told&) {
                return std::string(
                    "at rest the drag link stands in line with its kingpin or its knuckle arm, so "
                    "it turns the wheel neither way and holds it by nothing: no steer per travel "
                    "can be told; move one of its ends");
              }},
    KindWords{K::kOffCenter, Of::kAxleItself,
              [](const Told& t) {
                constexpr double kCentred = 1.2e-4;  // [m] shows as 0.00 in
                if (std::abs(t.f.value) < kCentred) return std::string("stands centred");
                return fmt::format("stands {} to the {} of centre{}", t.Size(kLength),
                                   t.f.value > 0.0 ? "left" : "right",
                                   t.f.past ? ", more than " + t.Aim(kLength) : "");
              }},
    KindWords{K::kOldAxleMoved, Of::kVehicle,
              [](const Told& t) {
                const std::string& axle = t.vehicle.axles[*t.f.axle].name;
                if (std::hypot(t.f.value, t.f.more[0]) < kNothing) {
                  return "the old " + axle + " axle sits where it did";
                }
                return fmt::format(
                    "the old {} axle has moved {} and {} {} against the frame since it was new: "
                    "its opening was drawn about where it stood then",
                    axle, Along(t, t.f.value), t.Length(std::abs(t.f.more[0])),
                    t.f.more[0] < 0.0 ? "down" : "up");
              }},
    KindWords{K::kCamberGrew, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "the {} spring has more camber now than when new: a leaf sags, so are the two "
                    "exchanged, or has it been re-arched?",
                    t.vehicle.axles[*t.f.axle].name);
              }},
    KindWords{K::kEyesDisagree, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "the {} spring from eye to eye now: {} worked out, {} measured, {} apart{}",
                    t.vehicle.axles[*t.f.axle].name, t.Length(t.f.more[0]), t.Length(t.f.more[1]),
                    t.Size(kLength), t.f.past ? "; take arcs and camber again" : "");
              }},
    KindWords{K::kShackleInLine, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "the {} shackle lies only {} off the line of the eyes {}: a small error of "
                    "camber swings it far, so trust its axle's place less",
                    t.vehicle.axles[*t.f.axle].name, t.Value(kAngle), t.f.detail);
              }},
    KindWords{
        K::kOldWheelOff, Of::kVehicle,
        [](const Told& t) {
          const std::string& axle = t.vehicle.axles[*t.f.axle].name;
          std::string text =
              std::abs(t.f.value) < kNothing
                  ? fmt::format("the {} wheel when new stood centred in its opening as measured",
                                axle)
                  : fmt::format(
                        "the {} wheel when new stood {} {} the centre of its opening as "
                        "measured on the old body",
                        axle, t.Size(kLength), t.f.value < 0.0 ? "behind" : "ahead of");
          if (!t.f.past) return text;
          return text +
                 (t.f.more.size() > 1
                      ? fmt::format("; a camber of {} when new, not {}, would have centred it",
                                    t.Length(t.f.more[1]), t.Length(t.f.more[0]))
                      : std::string("; no camber when new would have centred it, so take the "
                                    "opening and the eyes again"));
        }},
    KindWords{K::kWheelbaseDiffers, Of::kVehicle,
              [](const Told& t) {
                return fmt::format("the wheelbase now: {} worked out, {} measured, {} apart{}",
                                   t.Length(t.f.more[0]), t.Length(t.f.more[1]), t.Size(kLength),
                                   t.f.past ? "; take eyes, pivots and arcs again" : "");
              }},
    KindWords{K::kSpacingDiffers, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "the file's openings are {} apart, {} {} than the old axles were as designed",
                    t.Length(t.f.more[0]), t.Size(kLength), t.f.value < 0.0 ? "less" : "more");
              }},
    KindWords{K::kOpeningOffOld, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "the {} opening in this file is {} {} where the old axle was designed to be",
                    t.vehicle.axles[*t.f.axle].name, t.Size(kLength),
                    t.f.value < 0.0 ? "behind" : "ahead of");
              }},
    KindWords{
        K::kNoStandInTurn, Of::kVehicle,
        [](const Told& t) { return "at that acceleration it does not stand: " + t.f.detail; }},
    KindWords{K::kEndInTurn, Of::kVehicle,
              [](const Told& t) {
                return fmt::format(
                    "at that acceleration {}; it is taken to hold there, as a strap would",
                    t.f.detail);
              }},
    KindWords{K::kLeansOver, Of::kTurn,
              [](const Told& t) {
                return fmt::format(
                    "the body leans over at once {}, before a wheel lifts: springs and bars no "
                    "longer hold its mass; whether stops catch it is not followed",
                    AtShare(t.f.value));
              }},
    KindWords{K::kEndAtOnce, Of::kTurn,
              [](const Told& t) { return t.f.member + " as it stands, with hardly any turn"; }},
    KindWords{K::kWheelCarriesNothing, Of::kTurn,
              [](const Told& t) {
                return fmt::format("the {} wheel carries next to nothing as it stands",
                                   WheelName(t.vehicle, std::stoul(t.f.member)));
              }},
    KindWords{K::kTipsAtOnce, Of::kTurn,
              [](const Told& t) {
                return std::string(
                    t.f.value > 0.0
                        ? "it would go over as a block without any turn: its centre of mass does "
                          "not stand inside its outer wheels"
                        : "nothing tips it as a block, since its centre of mass stands on the "
                          "floor or below, where no truck's is");
              }},
    KindWords{K::kGoesOver, Of::kTurn,
              [](const Told& t) {
                return fmt::format(
                    "it goes over {}; tyres hold {} g (aims.tire_grip), so it can get there before "
                    "it slides",
                    AtShare(t.f.value), ShowNumber(*t.f.aim, 2));
              }},
    KindWords{K::kWheelLifts, Of::kTurn,
              [](const Told& t) {
                return fmt::format(
                    "a wheel lifts {}; tyres hold {} g (aims.tire_grip), so it can get there "
                    "before it slides",
                    AtShare(t.f.value), ShowNumber(*t.f.aim, 2));
              }},
};

constexpr bool InOrder() {
  for (size_t i = 0; i < kWords.size(); ++i) {
    if (kWords[i].kind != static_cast<K>(i)) return false;
  }
  return kWords.size() == static_cast<size_t>(K::kWheelLifts) + 1;
}
static_assert(InOrder());

std::string Before(const Told& t, Of about) {
  switch (about) {
    case Of::kAxle:
      return "the " + t.vehicle.axles[*t.f.axle].name + " axle: ";
    case Of::kAxleItself:
      return "the " + t.vehicle.axles[*t.f.axle].name + " axle ";
    case Of::kShaft:
      return t.f.axle ? "the " + t.vehicle.axles[*t.f.axle].name + " axle: "
                      : "the " + t.f.member + " shaft: ";
    case Of::kTurn:
      return "turning " + t.f.detail + ", ";
    case Of::kVehicle:
      break;
  }
  return {};
}

}  // namespace

std::string Words(const Finding& finding, const Vehicle& vehicle, UnitSystem units) {
  const KindWords& kind = kWords[static_cast<size_t>(finding.kind)];
  const Told told{.f = finding, .vehicle = vehicle, .units = units};
  return (finding.as_found ? "as found, " : "") + Before(told, kind.about) + kind.words(told);
}

}  // namespace linkwright
