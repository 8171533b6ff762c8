// SPDX-License-Identifier: MIT
#include "io/write/finding_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string_view>

#include "io/write/amount.h"
#include "io/write/name_in.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {
namespace {

using enum Dimension;
using K = FindingKind;

// What stands before the words: whom they are about.
enum class Of { kAxle, kAxleItself, kShaft, kTurn, kVehicle };

// Words with places for what one finding has:
//   {member}         a text of it: kTexts
//   {value}          a number of it, with its unit: kNumbers, kMoreNumbers. {value:abs} without its
//                    sign; {value:.2} without its unit, to two decimals; {value:g} with it, no
//                    trailing zeros
//   {value:<A|B}     A where that number is below 0, else B; `>` above 0, `=` at 0
//   {past:A|B}       A where that is so, else B: kConditions
// A and B may have places of their own; no B: nothing.
struct KindWords {
  K kind;
  Of about;
  Dimension dimension;  // of its value and its aim
  std::string_view words;
  std::optional<Dimension> more = {};  // of what else it holds; absent: the same
  std::string_view what = {};          // for words that several kinds share
};

// A finding with its amounts as words.
struct Told {
  const Finding& f;
  const Vehicle& vehicle;
  UnitSystem units;
  const KindWords& kind;

  [[nodiscard]] const std::string& Axle() const { return vehicle.axles[*f.axle].name; }
  [[nodiscard]] std::string Show(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Show(double si) const { return Show(si, kind.dimension); }
};

const char* MotionWords(const FindingPlace& place) {
  if (place.motion == TireMotion::kBounce) return place.parameter > 0.0 ? "in bump" : "in droop";
  constexpr std::array kMotions{"at rest", "", "in roll", "crossed", "with one wheel moved"};
  return NameIn(kMotions, place.motion);
}

// "in bump at 80.0 mm", "crossed at 12.0 deg, steered 30.0 deg left".
std::string Where(const Told& t) {
  if (!t.f.place) return {};
  const FindingPlace& place = *t.f.place;
  std::string where = MotionWords(place);
  if (place.motion != TireMotion::kRest) {
    where += " at " + t.Show(place.parameter, IsAngular(place.motion) ? kAngle : kLength);
  }
  if (place.steer) {
    where += ", steered " + t.Show(std::abs(*place.steer), kAngle);
    where += *place.steer >= 0.0 ? " left" : " right";
  }
  return where;
}

// "; 3.0 deg is the limit", where there is one.
std::string Limit(const Told& t) {
  return t.f.aim && *t.f.aim != 0.0 ? "; " + t.Show(*t.f.aim) + " is the limit" : std::string();
}

// "at 0.83 g", or how little it takes.
std::string AtShare(double share) {
  return AtOnce(share) ? std::string("with hardly any turn") : "at " + ShowNumber(share, 2) + " g";
}

// How far below the least net angle the pinion is wanted.
double PinionLow(const Told& t) {
  for (const Driveshaft& shaft : t.vehicle.driveshafts) {
    if (shaft.name == t.f.member) return shaft.pinion_low;
  }
  return 0.0;
}

bool IsInDroop(const Told& t) {
  return t.f.place && t.f.place->motion == TireMotion::kBounce && t.f.place->parameter < 0.0;
}

bool IsLipAssumed(const Told& t) {
  const std::optional<Opening>& opening = t.vehicle.axles[*t.f.axle].opening;
  return t.f.member == "lip" && opening && !opening->lip_y;
}

template <typename Value>
struct NamedPlace {
  std::string_view name;
  Value (*of)(const Told&);
};

constexpr NamedPlace<std::string> kTexts[]{
    {"member", [](auto& t) { return t.f.member; }},
    {"detail", [](auto& t) { return t.f.detail; }},
    {"what", [](auto& t) { return std::string(t.kind.what); }},
    {"axle", [](auto& t) { return t.Axle(); }},
    {"wheel", [](auto& t) { return WheelName(t.vehicle, std::stoul(t.f.member)); }},
    {"where", Where},
    {"under", [](auto& t) { return t.f.load.empty() ? t.f.load : "under '" + t.f.load + "' "; }},
    {"limit", Limit},
    {"at_share", [](auto& t) { return AtShare(t.f.value); }}};

constexpr NamedPlace<double> kNumbers[]{{"value", [](auto& t) { return t.f.value; }},
                                        {"aim", [](auto& t) { return t.f.aim.value_or(0.0); }},
                                        {"low", PinionLow}};

// Of Finding::more.
constexpr NamedPlace<double> kMoreNumbers[]{{"first", [](auto& t) { return t.f.more[0]; }},
                                            {"second", [](auto& t) { return t.f.more[1]; }}};

constexpr NamedPlace<bool> kConditions[]{
    {"past", [](auto& t) { return t.f.past; }},
    {"on_axle", [](auto& t) { return t.f.axle.has_value(); }},
    {"has_detail", [](auto& t) { return !t.f.detail.empty(); }},
    {"has_first", [](auto& t) { return !t.f.more.empty(); }},
    {"has_second", [](auto& t) { return t.f.more.size() > 1; }},
    {"in_droop", IsInDroop},
    {"lip_assumed", IsLipAssumed},
    {"centred", [](auto& t) { return std::abs(t.f.value) < kCentred; }},
    {"shows", [](auto& t) { return std::abs(t.f.value) >= kNothing; }},
    {"moved", [](auto& t) { return std::hypot(t.f.value, t.f.more[0]) >= kNothing; }}};

template <typename Places>
constexpr auto Find(const Places& places, std::string_view name) {
  for (const auto& place : places) {
    if (place.name == name) return &place;
  }
  return static_cast<decltype(&places[0])>(nullptr);
}

// Where a character stands outside of inner places.
constexpr size_t FindOutside(std::string_view text, char wanted) {
  int depth = 0;
  for (size_t i = 0; i < text.size(); ++i) {
    if (depth == 0 && text[i] == wanted) return i;
    if (text[i] == '{') ++depth;
    if (text[i] == '}') --depth;
  }
  return std::string_view::npos;
}

// One of "A|B".
std::string_view Either(std::string_view both, bool first) {
  const size_t bar = FindOutside(both, '|');
  if (first) return both.substr(0, bar);
  return bar == std::string_view::npos ? std::string_view() : both.substr(bar + 1);
}

std::string Fill(const Told& t, std::string_view words);

std::string FillNumber(const Told& t, double number, Dimension dimension, std::string_view how) {
  if (how.empty()) return t.Show(number, dimension);
  if (how[0] == '.') return ShowNumber(number, how[1] - '0');
  if (how == "abs") return t.Show(std::abs(number), dimension);
  if (how == "g") return FormatValue(number, dimension, t.units);
  const bool holds = how[0] == '<' ? number < 0.0 : how[0] == '>' ? number > 0.0 : number == 0.0;
  return Fill(t, Either(how.substr(1), holds));
}

std::string FillPlace(const Told& t, std::string_view place) {
  const size_t colon = std::min(place.find(':'), place.size());
  const std::string_view name = place.substr(0, colon);
  const std::string_view how = place.substr(std::min(colon + 1, place.size()));
  if (const auto* text = Find(kTexts, name)) return text->of(t);
  if (const auto* is = Find(kConditions, name)) return Fill(t, Either(how, is->of(t)));
  if (const auto* number = Find(kNumbers, name)) {
    return FillNumber(t, number->of(t), t.kind.dimension, how);
  }
  return FillNumber(t, Find(kMoreNumbers, name)->of(t), t.kind.more.value_or(t.kind.dimension),
                    how);
}

std::string Fill(const Told& t, std::string_view words) {
  std::string filled;
  for (;;) {
    const size_t open = words.find('{');
    filled += words.substr(0, open);
    if (open == std::string_view::npos) return filled;
    words.remove_prefix(open + 1);
    const size_t close = FindOutside(words, '}');
    filled += FillPlace(t, words.substr(0, close));
    words.remove_prefix(close + 1);
  }
}

// Whether each place has a name that is known, and is closed.
constexpr bool IsSound(std::string_view words) {
  for (size_t open = words.find('{'); open != words.npos; open = words.find('{')) {
    words.remove_prefix(open + 1);
    const std::string_view name = words.substr(0, words.find_first_of(":}"));
    if (!Find(kTexts, name) && !Find(kNumbers, name) && !Find(kMoreNumbers, name) &&
        !Find(kConditions, name)) {
      return false;
    }
    if (FindOutside(words, '}') == words.npos) return false;
  }
  return true;
}

constexpr std::string_view kLeftBefore =
    "{value:<{member} is past that by {value:abs} {where}|{member} has {value} left before {what} "
    "{where}, less than {aim}}";
constexpr std::string_view kSlipLeft =
    "{on_axle:{value:<{member} is past that by {value:abs} {where}|{member} has {value} left "
    "before it {what} {where}, less than {aim}}|{value:<its slip joint {what}: {value:abs} too "
    "little|at worst {value} of its slip are left before it {what}{limit}}}";

constexpr std::string_view kReadingDisagrees =
    "{has_detail:the {member}: so it was assumed, but the rest says it was {first:abs} "
    "{first:<behind|ahead}; left out of the answer|the {member} reads {second}, {value:abs} "
    "{value:<less|more} than the {first} that the rest says: left out of the answer; take it "
    "again, "
    "or look for a slip in the file}";

// In the order of FindingKind.
constexpr KindWords kFindingWords[]{
    {K::kAxleFree, Of::kAxleItself, kNumber, "{detail}"},
    {K::kAxleNearlyFree, Of::kAxleItself, kNumber,
     "is nearly free: it {detail} (1 mm of give in a bushing is {value:.0} mm at the axle)"},
    {K::kScalesDisagree, Of::kAxle, kPercent,
     "its coils and stops at their measured length say {first}, the scales say {second}: "
     "{value:<|+}{value}{past:; above {aim:g} (common practice) look at the rates, free lengths "
     "and what was on board; where the scales are right and the coils cannot be measured, give "
     "free_length: weighed}",
     kMass},
    {K::kCoilsDiffer, Of::kAxle, kLength,
     "by the scales {member} is {value:abs} longer than {detail} with nothing on it, more than "
     "{aim}: either {detail} has sagged and the body hangs to that side, or scales or tape are "
     "off: a wheel's scale, a seat's height, a floor that is not level"},
    {K::kArmMisfit, Of::kAxle, kLength,
     "{member} is {value:abs} {value:>longer|shorter} than its two holes are apart, more than "
     "{aim}, and the axle stands off its measured place for it{has_first:; the arms then pull up "
     "to {first} on one another, which hangs on their rates}: turn or make it to "
     "fit{has_detail: ({detail})}, or move a hole",
     kForce},
    {K::kArmsPitch, Of::kAxle, kAngle,
     "arms that do not fit their holes pitch its housing {value:abs} nose "
     "{value:>up|down}{has_detail:, its yoke end {detail},} off its measured stance, more than "
     "{aim}: pinion angle and caster go with it"},
    {K::kTireRadius, Of::kAxle, kLength,
     "its tyres are given a radius of {first}, {value:abs} {value:<less|more} than the {second} "
     "with which the {member} stands at its measured height under its scale; more than {aim}: "
     "leave radius out and the scales tell it, or look at their rate and the hub's height: was "
     "it on stands{value:<, is it the loaded radius|}?"},
    {K::kHubHeight, Of::kAxle, kLength,
     "its wheel centres were measured {first} above the floor, but its tyres under that weight "
     "hold them at {second}: was it on stands, or is a tyre's radius or rate wrong?"},
    {K::kNotMirrored, Of::kAxle, kLength,
     "{member} are no mirror images, {value} apart; more than {aim} (common practice)"},
    {K::kBelowFloor, Of::kAxle, kLength,
     "{member} reaches {value:abs} below the floor; is a height wrong?"},
    {K::kLongLink, Of::kAxle, kLength,
     "{member} is {value} long, more than half the wheelbase; is a sign or a place wrong?"},
    {K::kShortLink, Of::kAxle, kLength, "{member} is {value} long; is a sign lost on one end?"},
    {K::kEndsSwapped, Of::kAxle, kLength,
     "{member} has its axle end farther from the axle than its frame end; are 'frame' and 'axle' "
     "swapped?"},
    {K::kLooseCoil, Of::kAxle, kLength,
     "{member} is off its seat by {value} as measured: is its free length right?"},
    {K::kTracksDiffer, Of::kAxle, kLength,
     "the track is {value}, far wider than the other axle's; y of a wheel centre is half the "
     "track"},
    {K::kHeavyUnsprung, Of::kAxle, kMass,
     "its unsprung mass of {value} is all the scales showed, or more"},
    {K::kNominalTire, Of::kAxle, kPercent,
     "its tyre is flattened by {value} of its radius as measured, less than {aim}: is the nominal "
     "radius taken for the loaded one?"},
    {K::kStopTakenRigid, Of::kAxle, kPercent,
     "the curve of {member} ends at {value} of its free length, less than {aim}: a foam stop of 70 "
     "mm crushes to 28; is it taken as rigid?"},
    {K::kNoRest, Of::kVehicle, kNumber, "{under}it finds no resting position: {detail}"},
    {K::kLeansInward, Of::kVehicle, kLength,
     "{under}the body's centre of mass lies {value:abs} below the roll axis, so that it would lean "
     "into a turn, as no truck does: look at the heights of the masses and of what holds the axles "
     "sideways"},
    {K::kOverRating, Of::kAxle, kMass, "{under}it carries {value}, above its rating of {aim}"},
    {K::kRidesStiff, Of::kAxle, kFrequency,
     "{under}its ride frequency is {value}, above {aim}: a donor's springs under a lighter body?"},
    {K::kStopRaisesRate, Of::kAxle, kFrequency,
     "{under}a bump stop touches at rest: with its rate the ride frequency is {value}, above "
     "{aim}; the coils alone are not to blame"},
    {K::kSitsAskew, Of::kAxle, kLength,
     "{under}its {value:>left|right} wheel stands {value:abs} farther up than the other, more than "
     "{aim}"},
    {K::kMockUpHeight, Of::kAxle, kLength,
     "even {under}its wheel rests {value} from where it was measured in its opening, more than "
     "{aim}: set wheelbase and opening at loaded height, not at mock-up height"},
    {K::kNarrowTriangle, Of::kAxle, kAngle,
     "{member} left and right spread {value} seen from above, less than {aim}: nothing else holds "
     "the axle sideways"},
    {K::kLinkSlopes, Of::kAxle, kAngle,
     "{member} slopes {value:abs} from the side at rest, more than {aim}"},
    {K::kRollSteers, Of::kAxle, kAngleRatio,
     "it steers {value} with roll at rest, more than {aim} either way"},
    {K::kDamperAtRest, Of::kAxle, kLength, "{value} left at rest before {detail}, less than {aim}"},
    {K::kNoStop, Of::kAxle, kNumber,
     "no bump stop is in the file, so that something else ends bump"},
    {K::kConeMissesPad, Of::kAxle, kLength,
     "{member} misses its pad {where}: there it carries nothing and ends no travel; move one of "
     "its "
     "ends, or make the pad wider"},
    {K::kDamperIsStop, Of::kAxle, kLength,
     "the damper is the stop {where}: {detail}; {in_droop:a strap spares it|it breaks before a "
     "stop or a strap would}"},
    {K::kEndsBeforeStop, Of::kAxle, kLength, "{detail} {where}, before a stop or a strap ends it"},
    {K::kShortBump, Of::kAxle, kLength,
     "bump travel is {value} at rest, less than {aim}: {detail}"},
    {K::kCoilUnseats, Of::kAxle, kLength,
     "{value:<{member} is off its seat by {value:abs} {where}|{member} is squeezed {value} "
     "{where}, less than {aim}: it may leave its seat}"},
    {K::kCoilNearSolid, Of::kAxle, kLength, kLeftBefore, {}, "it is solid"},
    {K::kDamperNearEnd, Of::kAxle, kLength, kLeftBefore, {}, "its end"},
    {K::kJointNearLimit, Of::kAxle, kAngle, kLeftBefore, {}, "its misalignment limit"},
    {K::kSlipBottoms, Of::kShaft, kLength, kSlipLeft, {}, "bottoms"},
    {K::kSlipParts, Of::kShaft, kLength, kSlipLeft, {}, "parts"},
    {K::kTireNear, Of::kAxle, kLength,
     "its {detail} tyre {value:<is {value:abs} deep in its {member} {where}|comes as near as "
     "{value} to its {member} {where}, less than {aim}}{lip_assumed: (no lip_y: its lip is taken "
     "to reach across the tyre)}"},
    {K::kGapCloses, Of::kAxle, kLength,
     "{member} comes as near as {value} over the travel, less than {aim}"},
    {K::kCenterInsideOut, Of::kAxle, kLength,
     "its instant centre turns inside out near {value} of travel: anti-squat, anti-dive and pitch "
     "change sign in their trend there"},
    {K::kPitches, Of::kAxle, kAngle, "its housing turns {value} over the travel, more than {aim}"},
    {K::kLinksFight, Of::kAxle, kForce,
     "at crossed extremes {member} takes {value} from links fighting one another, more than {aim}"},
    {K::kNotFlatRide, Of::kVehicle, kNumber,
     "rear over front {value:.2}: flat ride wants {first:.2} to {second:.2}, the rear quicker than "
     "the front, so that it catches up after a bump (aims.flat_ride_least, flat_ride_most); "
     "{past:it is not|it is}"},
    {K::kDampingOff, Of::kVehicle, kNumber,
     "{member} is damped {value:.2} by the whole model; {first:.2} to {second:.2} is usual (common "
     "practice; aims.damping_least, damping_most)"},
    {K::kHopOff, Of::kVehicle, kFrequency,
     "{member} is at {value:.1} Hz; {first:.1} to {second:.1} is usual (course notes; "
     "aims.hop_least, hop_most)"},
    {K::kInTheWay, Of::kAxle, kLength,
     "{detail} {where}, {second} short of the {first} of wheel travel that is wanted; no damper, "
     "stop or strap mends that"},
    {K::kLinksFollowNot, Of::kAxle, kNumber,
     "the links do not follow everywhere in the travel that is wanted, one wheel up and the other "
     "down"},
    {K::kNoStopSoShort, Of::kAxle, kLength,
     "{member}: in the wanted bump its pad goes {value} past its seat, so that no stop is short "
     "enough: want less bump, or move the seat"},
    {K::kStopHeightNotHad, Of::kAxle, kLength,
     "{member}: as high as the wanted bump asks it {value:>is squeezed by {value}|no longer "
     "touches} at rest, so that the truck then stands otherwise, and no heights are found that "
     "give this bump from there: want less bump, or move the seat"},
    {K::kStopMovesRest, Of::kAxle, kLength,
     "{member}: as high as advised it {value:>is squeezed by {value}|no longer touches} at rest, "
     "so that the {axle} then stands {first:abs} {first:>higher|lower} than now; the parts here "
     "are for that"},
    {K::kNoSuchDamper, Of::kAxle, kLength,
     "the order for {member} is impossible: closed it would be {value} too short for its stroke "
     "and "
     "{aim} of body and eyes (aims.damper_dead_length); {first:>move its chassis end {first} "
     "farther "
     "from the axle, along the damper|no place of its chassis end within reach mends "
     "that}{second:>, or want {second} less bump}"},
    {K::kOrderUnseatsCoil, Of::kAxle, kLength,
     "{member}: {value:<off its seat by {value:abs} where it is longest in the wanted travel: keep "
     "it in, or shorten the strap|{value} of preload in the wanted travel, aim {aim} or more}"},
    {K::kOrderBindsCoil, Of::kAxle, kLength,
     "{member}: {value} left before it is solid in the wanted travel, aim {aim} or more: a taller "
     "stop"},
    {K::kWheelOffCenter, Of::kAxle, kLength,
     "its wheels stand {first:abs} {first:<behind|ahead of} and {second:abs} {second:<below|above} "
     "the centre of their openings at rest, aim {aim} or less"},
    {K::kSteerFollowsNot, Of::kAxle, kNumber,
     "the drag link or tie rod does not follow to full lock everywhere; those places are left out"},
    {K::kNoCentringPlan, Of::kVehicle, kNumber,
     "no plan that centres the wheels was found: {detail}"},
    {K::kJointWorksHard, Of::kShaft, kAngle,
     "the joint at the {detail} works at {value} at rest, above {aim}"},
    {K::kDoubleJointWorksHard, Of::kShaft, kAngle,
     "the joint at the {detail}, a double one, works at {value} at rest, above {aim}"},
    {K::kJointIdle, Of::kShaft, kAngle,
     "the joint at the {detail} works at {value} at rest, below {aim}: its needles do not turn"},
    {K::kJointAtSpeed, Of::kShaft, kAngle,
     "the joint at the {detail} works at {value} at rest, above the {aim} that go with {first}",
     kShaftSpeed},
    {K::kJointsDiffer, Of::kShaft, kAngle, "its two joints differ by {value} at rest{limit}"},
    {K::kPinionOffAim, Of::kShaft, kAngle,
     "the pinion's yoke end has to come {value:abs} {value:>up|down}{low:= for the least net angle "
     "at rest: |, to stand {low:abs} {low:>low|high} of the least net angle: at rest }{first}, now "
     "{second}"},
    {K::kUneven, Of::kShaft, kAngle,
     "{value} is the least net angle that a turn of the pinion can leave at rest: it comes from "
     "the plan view or from the phase of the yokes"},
    {K::kTorsional, Of::kShaft, kAcceleration,
     "torsional acceleration at rest and {first}: {value}{limit}", kShaftSpeed},
    {K::kInertial, Of::kShaft, kAcceleration,
     "inertial acceleration at rest and {first}: {value}{limit}", kShaftSpeed},
    {K::kNoBalance, Of::kShaft, kTorque,
     "{has_detail:wind-up needs masses: the file gives none|under {value} at the wheels its axle "
     "finds no balance}"},
    {K::kBarSlopeDiffers, Of::kAxle, kAngle,
     "from in front, {member} and drag link differ in slope by {value}{limit}"},
    {K::kBarLengthDiffers, Of::kAxle, kPercent,
     "{member} is {first:abs} {value:>longer|shorter} than the drag link, {value:abs}{limit}",
     kLength},
    {K::kBarOpposite, Of::kAxle, kNumber,
     "{member} and drag link have their frame ends on opposite sides: one pulls the axle where the "
     "other pushes the wheels"},
    {K::kBumpSteers, Of::kAxle, kAngleRate,
     "with the steering wheel held, bump at rest steers {value:abs} to the "
     "{value:>left|right}{limit}"},
    {K::kDragLinkInLine, Of::kAxle, kNumber,
     "at rest the drag link stands in line with its kingpin or its knuckle arm, so it turns the "
     "wheel neither way and holds it by nothing: no steer per travel can be told; move one of its "
     "ends"},
    {K::kOffCenter, Of::kAxleItself, kLength,
     "stands {centred:centred|{value:abs} to the {value:>left|right} of centre{past:, more than "
     "{aim}}}"},
    {K::kOldAxleMoved, Of::kVehicle, kLength,
     "the old {axle} axle {moved:has moved {value:abs} {value:<back|forward} and {first:abs} "
     "{first:<down|up} against the frame since it was new: its opening was drawn about where it "
     "stood then|sits where it did}"},
    {K::kCamberGrew, Of::kVehicle, kLength,
     "the {axle} spring has more camber now than when new: a leaf sags, so are the two exchanged, "
     "or has it been re-arched?"},
    {K::kEyesDisagree, Of::kVehicle, kLength,
     "the {axle} spring from eye to eye now: {first} worked out, {second} measured, {value:abs} "
     "apart{past:; take arcs and camber again}"},
    {K::kShackleInLine, Of::kVehicle, kAngle,
     "the {axle} shackle lies only {value} off the line of the eyes {detail}: a small error of "
     "camber swings it far, so trust its axle's place less"},
    {K::kOldWheelOff, Of::kVehicle, kLength,
     "the {axle} wheel when new stood {shows:{value:abs} {value:<behind|ahead of} the centre of "
     "its opening as measured on the old body|centred in its opening as "
     "measured}{past:{has_second:; a camber of {second} when new, not {first}, would have centred "
     "it|; no camber when new would have centred it, so take the opening and the eyes again}}"},
    {K::kWheelbaseDiffers, Of::kVehicle, kLength,
     "the wheelbase now: {first} worked out, {second} measured, {value:abs} apart{past:; take "
     "eyes, pivots and arcs again}"},
    {K::kSpacingDiffers, Of::kVehicle, kLength,
     "the file's openings are {first} apart, {value:abs} {value:<less|more} than the old axles "
     "were as designed"},
    {K::kOpeningOffOld, Of::kVehicle, kLength,
     "the {axle} opening in this file is {value:abs} {value:<behind|ahead of} where the old axle "
     "was designed to be"},
    {K::kLeafReadingDisagrees, Of::kVehicle, kLength, kReadingDisagrees},
    {K::kLeafAngleDisagrees, Of::kVehicle, kAngle, kReadingDisagrees},
    {K::kLeafReadingsDoubted, Of::kVehicle, kNumber,
     "readings of the old springs disagree, {value:.1} times what is usual, and nothing tells "
     "which "
     "is off: one of {detail}; take them again"},
    {K::kNoStandInTurn, Of::kVehicle, kNumber, "at that acceleration it does not stand: {detail}"},
    {K::kEndInTurn, Of::kVehicle, kNumber,
     "at that acceleration {detail}; it is taken to hold there, as a strap would"},
    {K::kLeansOver, Of::kTurn, kNumber,
     "the body leans over at once {at_share}, before a wheel lifts: springs and bars no longer "
     "hold its mass; whether stops catch it is not followed"},
    {K::kEndAtOnce, Of::kTurn, kNumber, "{member} as it stands, with hardly any turn"},
    {K::kWheelCarriesNothing, Of::kTurn, kNumber,
     "the {wheel} wheel carries next to nothing as it stands"},
    {K::kTipsAtOnce, Of::kTurn, kLength,
     "{value:>it would go over as a block without any turn: its centre of mass does not stand "
     "inside its outer wheels|nothing tips it as a block, since its centre of mass stands on the "
     "floor or below, where no truck's is}"},
    {K::kGoesOver, Of::kTurn, kNumber,
     "it goes over {at_share}; tyres hold {aim:.2} g (aims.tire_grip), so it can get there before "
     "it slides"},
    {K::kWheelLifts, Of::kTurn, kNumber,
     "a wheel lifts {at_share}; tyres hold {aim:.2} g (aims.tire_grip), so it can get there before "
     "it slides"}};

constexpr bool InOrder() {
  for (size_t i = 0; i < std::size(kFindingWords); ++i) {
    if (kFindingWords[i].kind != static_cast<K>(i) || !IsSound(kFindingWords[i].words))
      return false;
  }
  return std::size(kFindingWords) == static_cast<size_t>(K::kWheelLifts) + 1;
}
static_assert(InOrder());

// In the order of Of.
constexpr std::string_view kBefore[]{
    "the {axle} axle: ", "the {axle} axle ",
    "the {on_axle:{axle} axle|{member} shaft}: ", "turning {detail}, ", ""};

}  // namespace

std::string Words(const Finding& finding, const Vehicle& vehicle, UnitSystem units) {
  const KindWords& kind = kFindingWords[static_cast<size_t>(finding.kind)];
  const Told told{.f = finding, .vehicle = vehicle, .units = units, .kind = kind};
  return (finding.as_found ? "as found, " : "") +
         Fill(told, kBefore[static_cast<size_t>(kind.about)]) + Fill(told, kind.words);
}

}  // namespace linkwright
