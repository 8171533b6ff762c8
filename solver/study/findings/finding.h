// SPDX-License-Identifier: MIT
// What a person should look at in a vehicle, as data: judged here once, worded in io/write.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/study/openings/openings.h"

namespace linkwright {

// What it can do, the worst first.
enum class Harm {
  kHurts,       // can hurt someone
  kHits,        // parts hit or run out
  kWears,       // wears or drives badly
  kLooksWrong,  // stands or looks wrong
  kSlip,        // maybe a slip of the tape or of the file
};

// Beside each: what its value is, then what stands in `more`, in order. [SI]
enum class FindingKind {
  // The file itself.
  kAxleFree,        // detail: what the axle can do
  kAxleNearlyFree,  // detail: the same; at the axle for each of a bushing's [m/m]
  kScalesDisagree,  // what the coils carry over what the scales showed, less 1; both [kg]
  kCoilsDiffer,     // free length of a weighed pair, left less right [m]; member: the longer one,
                    // detail: the other
  kArmMisfit,       // the axle's worst, longer than its holes are apart [m]; the most that links
                    // fighting one another then pull, where they do [N]; detail: what mends it
  kArmsPitch,       // the housing, nose up + [rad]; detail: its yoke end "up", "down"
  kTireRadius,      // as given, over what stands as measured under its scale [m]; both [m]
  kHubHeight,       // measured hub height over what the tyre holds [m]; both [m]
  kNotMirrored,     // apart from the other's mirror image [m]
  kBelowFloor,      // height of a point above the floor, below 0 [m]
  kLongLink,        // its length, more than half the wheelbase [m]
  kShortLink,       // its length, less than 100 mm [m]
  kEndsSwapped,     // its axle end is farther from the axle than its frame end [m]
  kLooseCoil,       // as measured longer than its free length by [m]
  kTracksDiffer,    // the wider track, by more than a quarter [m]
  kHeavyUnsprung,   // its mass, all that the scales showed or more [kg]
  kNominalTire,     // flattened, of the radius [-]
  kStopTakenRigid,  // how far its curve reaches, of its free length [-]
  // At rest.
  kNoRest,          // detail: what is in the way
  kLeansInward,     // sprung centre of mass above the roll axis, below 0 [m]
  kOverRating,      // axle load [kg]
  kRidesStiff,      // ride frequency [Hz]
  kStopRaisesRate,  // the same where a stop touches at rest
  kSitsAskew,       // left travel less right [m]
  kMockUpHeight,    // moved in its opening [m]
  kNarrowTriangle,  // angle from above [rad]
  kLinkSlopes,      // [rad]
  kRollSteers,      // [rad/rad]
  kDamperAtRest,    // left in it [m]
  // Over the travel.
  kNoStop,
  kConeMissesPad,    // wheel travel where a cone that would touch is beside its pad [m]
  kDamperIsStop,     // wheel travel where it ends it [m]
  kEndsBeforeStop,   // the same of something that is no stop, strap or damper
  kShortBump,        // bump left at rest [m]; detail: what ends it
  kCoilUnseats,      // squeeze left at the end of droop [m]; below 0: off its seat
  kCoilNearSolid,    // left before it is solid at the end of bump [m]
  kDamperNearEnd,    // left in it at an end of travel that is not its own [m]
  kJointNearLimit,   // misalignment left [rad]; below 0: past its limit
  kSlipBottoms,      // left of a spline before it bottoms [m]
  kSlipParts,        // left of it in engagement [m]
  kTireNear,         // gap to lip or panel [m]; below 0: so deep in; detail: the side
  kGapCloses,        // least distance [m]
  kCenterInsideOut,  // travel at which the instant centre passes through infinity [m]
  kPitches,          // turn over the travel [rad]
  kLinksFight,       // force at a crossed extreme [N]
  // Ride; aim: the nearer of the two ends that are usual, which stand in `more`.
  kNotFlatRide,  // rear ride frequency over front [-]
  kDampingOff,   // damping ratio of the member, a motion of the body [-]
  kHopOff,       // wheel hop of the member [Hz]
  // Of parts that are advised.
  kInTheWay,          // wheel travel at which it comes first [m]; wanted, short by [m]
  kLinksFollowNot,    // not everywhere in the travel wanted
  kNoStopSoShort,     // its pad past its seat in the bump wanted [m]
  kStopHeightNotHad,  // squeeze at rest that no height is found for [m]
  kStopMovesRest,     // squeeze at rest with the height advised [m]; how far the truck rises [m]
  kNoSuchDamper,      // its order is short by, closed [m]; what makes it possible, each alone, 0:
                      // nothing does: chassis end moved away, less bump [m]; aim: its dead length
  kOrderUnseatsCoil,  // as kCoilUnseats, in the travel wanted
  kOrderBindsCoil,    // as kCoilNearSolid, in the travel wanted
  // Openings.
  kWheelOffCenter,   // the greater of both [m]; ahead, up [m]
  kSteerFollowsNot,  // drag link or tie rod, to full lock
  kNoCentringPlan,   // detail: why
  // Shafts; the member is the shaft, detail the joint.
  kJointWorksHard,        // angle at rest [rad]
  kDoubleJointWorksHard,  // the same
  kJointIdle,             // the same, too little for its needles
  kJointAtSpeed,          // the same; aim: what goes with the speed; the speed [rad/s]
  kJointsDiffer,          // [rad]
  kPinionOffAim,  // turn by which its yoke end must come up [rad]; net angle then, now [rad]
  kUneven,        // least net angle that any turn of the pinion leaves [rad]
  kTorsional,     // [rad/s2]; speed [rad/s]
  kInertial,      // the same
  kNoBalance,     // torque at the wheels [N m]
  // Steering.
  kBarSlopeDiffers,   // bar and drag link from in front [rad]
  kBarLengthDiffers,  // bar over drag link, less 1; longer by [m]
  kBarOpposite,       // their frame ends on opposite sides
  kBumpSteers,        // [rad/m]
  kDragLinkInLine,    // holds the wheels by nothing
  kOffCenter,         // housing centre at rest, left + [m]
  // Leaf springs of the original.
  kOldAxleMoved,      // forward, since new [m]; up [m]
  kCamberGrew,        // now less when new [m]
  kEyesDisagree,      // worked out less measured [m]; both [m]
  kShackleInLine,     // off the line of the eyes [rad]; detail: "now", "when new"
  kOldWheelOff,       // when new ahead of its opening's centre as measured [m]; camber then, and
                      // camber that would centre it, where one does [m]
  kWheelbaseDiffers,  // now, worked out less measured [m]; both [m]
  kSpacingDiffers,    // the file's openings over the old axles as designed [m]; their spacing [m]
  kOpeningOffOld,     // the file's opening ahead of where the old axle was designed to be [m]
  // A reading, or with a detail an assumption: less what the rest says [m]; what that is, as read.
  kLeafReadingDisagrees,
  kLeafAngleDisagrees,   // the same of an angle [rad]
  kLeafReadingsDoubted,  // how many times too far apart [-]; detail: those of which one is off
  // In a turn; detail: "left", "right"; shares of g.
  kNoStandInTurn,  // detail: why
  kEndInTurn,      // detail: what is at its end; it is taken to hold
  kLeansOver,      // share at which the body leans over before a wheel lifts [-]
  kEndAtOnce,      // detail: the member
  kWheelCarriesNothing,
  kTipsAtOnce,  // height of the centre of mass above the floor [m]
  kGoesOver,    // share at which it goes over [-]
  kWheelLifts,  // share at which a wheel lifts [-]
  // What the file accepts; member: as written there.
  kAcceptsNothing,
};
constexpr size_t kFindingKinds = static_cast<size_t>(FindingKind::kAcceptsNothing) + 1;

// Where in the travel.
struct FindingPlace {
  TireMotion motion;
  double parameter;             // of the motion [m] or [rad]
  double wheel_travel;          // [m]
  std::optional<double> steer;  // of the wheel inside the bend, left + [rad]
};

//   past     to be looked at; else judged and well, told as a fact
//   as_found   of the vehicle without the parts that are advised for another travel
//   axle     absent where it concerns the vehicle or a shaft
//   member   display name; empty where it concerns the axle itself
//   twins    what findings share that are one: the member and how it ends, without its side; empty:
//            the member
//   load     name of the load that it is worst under; empty: of none in particular
//   part     path of what is to blame in the words of the vehicle file, as in ModelError; empty: no
//            one line is
//   detail, more   what else its words tell, by kind
struct Finding {
  FindingKind kind;
  bool past = true;
  bool as_found = false;
  std::optional<size_t> axle = {};
  std::string member = {}, twins = {}, load = {};
  std::optional<FindingPlace> place = {};
  std::vector<std::string> part = {};
  double value = 0.0;
  std::optional<double> aim = {};
  std::string detail = {};
  std::vector<double> more = {};
};

// Whom it is about, as findings name them: "rear coil left", "rear left tyre", "rear axle", "rear
// driveshaft"; empty: the vehicle.
[[nodiscard]] std::string NameOf(const Finding& finding, const Vehicle& vehicle);

// Which side of its aim a value is to be on.
enum class Sense { kNone, kAtLeast, kAtMost, kWithin };

struct FindingTrait {
  FindingKind kind;
  const char* slug;  // as in `explain SLUG`
  Harm harm;
  Sense sense;         // kWithin: at most either way
  double shows = 0.0;  // past its aim by less than an instrument shows it is not told [SI]
};
[[nodiscard]] const FindingTrait& TraitOf(FindingKind kind);

// Held against its aim by the sense of its kind; without an aim, or past it by less than an
// instrument shows, it is not past (what can hurt someone is, once there is less than nothing
// left).
[[nodiscard]] Finding Judged(FindingKind kind, std::optional<size_t> axle, double value,
                             std::optional<double> aim);

// Adds what is past its aim alone.
void AddIfPast(Finding finding, std::vector<Finding>& to);

// The same kind of the same member, or of the two of a pair, under several loads and in several
// motions becomes one finding with its worst case, the first where the kind has no aim; the order
// is that of the first of each.
void KeepWorst(std::vector<Finding>& findings);

// The worst harm first, then by how far each is past its aim, as a share of it; one without an aim
// counts as past by all of it.
void SortByHarm(std::vector<Finding>& findings);

// The path of what a limit belongs to: {"axles", "rear", "dampers", "damper"}.
[[nodiscard]] std::vector<std::string> PartOf(const Vehicle& vehicle, size_t axle,
                                              const LimitId& id);

}  // namespace linkwright
