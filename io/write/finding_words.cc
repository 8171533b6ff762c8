// SPDX-License-Identifier: MIT
#include "io/write/finding_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string_view>

#include "io/write/amount.h"
#include "io/write/name_in.h"
#include "io/write/table_of.h"
#include "solver/model/masses.h"
#include "solver/study/ride/cornering.h"

namespace linkwright {
namespace {

using enum Dimension;
using K = FindingKind;

// What stands before line and words: whom they are about (NameOf), the turn, or nothing.
enum class Of { kNamed, kTurn, kBare };

// Line and words with places for what one finding has:
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
  Dimension dimension;                 // of its value and its aim
  std::string_view line;               // what, value, aim, where
  std::string_view words;              // the same in full, and what mends it
  std::optional<Dimension> more = {};  // of what else it holds; absent: the same
  std::string_view what = {};          // for line and words that several kinds share
};

// A finding with its amounts as words.
struct Told {
  const Finding& f;
  const Vehicle& vehicle;
  UnitSystem units;
  const KindWords& kind;

  [[nodiscard]] const std::string& Axle() const { return vehicle.axles[*f.axle].name; }
  [[nodiscard]] std::string Show(double si, Dimension dimension) const;
  [[nodiscard]] std::string Show(double si) const { return Show(si, kind.dimension); }
};

// Shorter than a tape reads to the nearest mark: it would be shown as 0.
bool IsNone(double length, UnitSystem units) {
  return std::abs(length) < 0.5 * (units == UnitSystem::kInch ? 0.0254 / 16.0 : 1e-3);
}

// Value and aim are shown finer where they would read the same.
bool ReadAlike(const Told& t) {
  return t.f.aim && t.f.past && t.f.value != *t.f.aim &&
         ShowAmount(t.f.value, kLength, t.units) == ShowAmount(*t.f.aim, kLength, t.units);
}

std::string Told::Show(double si, Dimension dimension) const {
  if (dimension == kMass) return ShowOnScale(si * kStandardGravity, units);
  if (dimension != kLength) return ShowAmount(si, dimension, units);
  if (IsNone(si, units)) return "none";
  const bool fine = kind.dimension == kLength && ReadAlike(*this);
  return fine ? ShowFine(si, units) : ShowAmount(si, kLength, units);
}

// Of the way that a wheel or the body goes.
std::string Travel(const Told& t, double travel) {
  return ShowAmount(std::abs(travel), kLength, t.units);
}
std::string Turn(const Told& t, double angle) {
  return ShowAmount(std::abs(angle), kAngle, t.units);
}

bool IsBounce(const FindingPlace& place) { return place.motion == TireMotion::kBounce; }

std::string UpOrDown(double travel) { return travel > 0.0 ? "up" : "down"; }

// The side that the body leans to, its other side up.
std::string LeansTo(const FindingPlace& place) { return place.parameter > 0.0 ? "right" : "left"; }

std::string SteeredTo(const FindingPlace& place) {
  return *place.steer >= 0.0 ? std::string("left") : std::string("right");
}

// "at 53 mm of bump", "crossed 10.9 deg, steered 30.0 deg left"; a short one says the most of it:
// "crossed", "steered left".
std::string Spot(const Told& t, bool is_short) {
  if (!t.f.place) return {};
  const FindingPlace& place = *t.f.place;
  std::string spot = "at rest";
  if (IsBounce(place)) {
    spot = "at " + Travel(t, place.parameter) + (place.parameter > 0.0 ? " of bump" : " of droop");
  } else if (place.motion == TireMotion::kRoll) {
    spot = is_short ? "leaning " + LeansTo(place)
                    : "with the body leaning " + Turn(t, place.parameter) + " " + LeansTo(place);
  } else if (place.motion == TireMotion::kCrossed) {
    spot = is_short ? "crossed" : "crossed " + Turn(t, place.parameter);
  } else if (place.motion == TireMotion::kOneWheel) {
    const std::string way = UpOrDown(place.parameter);
    spot = is_short ? "wheel " + way
                    : "with that wheel alone " + Travel(t, place.parameter) + " " + way;
  }
  if (!place.steer) return spot;
  if (is_short) return "steered " + SteeredTo(place);
  return spot + ", steered " + Turn(t, *place.steer) + " " + SteeredTo(place);
}

// Of what is judged where the travel ends: "at full droop"; of a shaft anywhere: "at worst".
std::string End(const Told& t) {
  if (!t.f.place) return "at worst";
  const FindingPlace& place = *t.f.place;
  if (IsBounce(place)) return place.parameter > 0.0 ? "at full bump" : "at full droop";
  return place.motion == TireMotion::kCrossed ? "fully crossed" : Spot(t, true);
}

// "at full droop, 113 mm down".
std::string EndAt(const Told& t) {
  const std::string end = End(t);
  if (!t.f.place || t.f.place->motion == TireMotion::kRest) return end;
  const FindingPlace& place = *t.f.place;
  if (IsBounce(place))
    return end + ", " + Travel(t, place.parameter) + " " + UpOrDown(place.parameter);
  return end + " at " + Turn(t, place.parameter);
}

// "in bump", "in droop", "crossed".
std::string Way(const Told& t) {
  if (!t.f.place) return {};
  if (!IsBounce(*t.f.place)) return Spot(t, true);
  return t.f.place->parameter > 0.0 ? "in bump" : "in droop";
}

// "53 mm up", else as short as it goes.
std::string Rise(const Told& t) {
  if (!t.f.place || !IsBounce(*t.f.place)) return Spot(t, true);
  const double travel = t.f.place->parameter;
  return Travel(t, travel) + " " + UpOrDown(travel);
}

// Its aim by the sense of its kind: ", wants 6 mm", ", limit 3.0 deg".
std::string Wants(const Told& t) {
  if (!t.f.aim || *t.f.aim == 0.0) return {};
  const bool least = TraitOf(t.f.kind).sense == Sense::kAtLeast;
  return (least ? ", wants " : ", limit ") + t.Show(*t.f.aim);
}

// In a line that says "as found" before all there is no room for it.
std::string WantsShort(const Told& t) { return t.f.as_found ? std::string() : Wants(t); }

// "left tyre" for "tyre left".
std::string TyresSaid(std::string text) {
  for (const std::string side : {"left", "right"}) {
    const std::string named = "tyre " + side;
    const size_t at = text.find(named);
    if (at != std::string::npos) text.replace(at, named.size(), side + " tyre");
  }
  return text;
}

// What a thing does without its name: of "damper left is fully open" "is fully open".
std::string Doing(const Told& t) {
  const std::string& all = t.f.detail;
  return all.starts_with(t.f.member + " ") ? all.substr(t.f.member.size() + 1) : all;
}

std::string DoingShort(const Told& t) {
  const std::string doing = Doing(t);
  return doing.substr(0, std::min(doing.find(" and "), doing.find(" (")));
}

// "fully open".
std::string Ended(const Told& t) {
  const std::string doing = Doing(t);
  return doing.starts_with("is ") ? doing.substr(3) : doing;
}

// "8 mm ahead of and 8 mm below", what a tape does not show left out.
std::string OffCenter(const Told& t) {
  const double ahead = t.f.more[0], up = t.f.more[1];
  std::string off;
  if (!IsNone(ahead, t.units)) {
    off = t.Show(std::abs(ahead)) + (ahead < 0.0 ? " behind" : " ahead of");
  }
  if (!IsNone(up, t.units)) {
    off += (off.empty() ? "" : " and ") + t.Show(std::abs(up)) + (up < 0.0 ? " below" : " above");
  }
  return off.empty() ? "at" : off;
}

// Which way an axle steers with roll.
std::string RollSteerWay(const Told& t) {
  const bool rear = t.f.axle == static_cast<size_t>(kRear);
  return (t.f.value > 0.0) == rear ? "understeer" : "oversteer";
}

// "at 0.83 g", or how little it takes.
std::string AtShare(double share) {
  return AtOnce(share) ? std::string("with hardly any turn") : "at " + ShowNumber(share, 2) + " g";
}

std::string Under(const Told& t) {
  return t.f.load.empty() ? std::string() : "under '" + t.f.load + "'";
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
    {"detail", [](auto& t) { return TyresSaid(t.f.detail); }},
    {"detail_head", [](auto& t) { return t.f.detail.substr(0, t.f.detail.find(": ")); }},
    {"doing", Doing},
    {"doing_short", DoingShort},
    {"ended", Ended},
    {"what", [](auto& t) { return std::string(t.kind.what); }},
    {"name", [](auto& t) { return NameOf(t.f, t.vehicle); }},
    {"axle", [](auto& t) { return t.Axle(); }},
    {"wheel", [](auto& t) { return WheelName(t.vehicle, std::stoul(t.f.member)); }},
    {"where", [](auto& t) { return Spot(t, false); }},
    {"spot", [](auto& t) { return Spot(t, true); }},
    {"end", End},
    {"end_at", EndAt},
    {"way", Way},
    {"rise", Rise},
    {"under", [](auto& t) { return t.f.load.empty() ? Under(t) : Under(t) + " "; }},
    {"in_load", [](auto& t) { return t.f.load.empty() ? Under(t) : " " + Under(t); }},
    {"wants", Wants},
    {"wants_short", WantsShort},
    {"off_center", OffCenter},
    {"roll_way", RollSteerWay},
    {"at_share", [](auto& t) { return AtShare(t.f.value); }}};

constexpr NamedPlace<double> kNumbers[]{{"value", [](auto& t) { return t.f.value; }},
                                        {"aim", [](auto& t) { return t.f.aim.value_or(0.0); }},
                                        {"low", PinionLow}};

// Of Finding::more.
constexpr NamedPlace<double> kMoreNumbers[]{{"first", [](auto& t) { return t.f.more[0]; }},
                                            {"second", [](auto& t) { return t.f.more[1]; }}};

constexpr NamedPlace<bool> kConditions[]{
    {"past", [](auto& t) { return t.f.past; }},
    {"has_detail", [](auto& t) { return !t.f.detail.empty(); }},
    {"has_first", [](auto& t) { return !t.f.more.empty(); }},
    {"has_second", [](auto& t) { return t.f.more.size() > 1; }},
    {"in_droop", IsInDroop},
    {"lip_assumed", IsLipAssumed},
    {"centred", [](auto& t) { return IsNone(t.f.value, t.units); }},
    {"shows", [](auto& t) { return !IsNone(t.f.value, t.units); }},
    {"moved", [](auto& t) { return !IsNone(std::hypot(t.f.value, t.f.more[0]), t.units); }}};

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

constexpr std::string_view kSlipLine =
    "{shows:{value:<{value:abs} past where|{value} before} it {what}|{what}} {end}{wants_short}";
constexpr std::string_view kSlipWords =
    "{value:<its slip joint {what} {end_at}: {value:abs} too little|{value} of its slip is left "
    "before it {what} {end_at}{wants}}{past:; a shaft of another length, or one with more slip, "
    "mends it}";

constexpr std::string_view kReadingLine =
    "{has_detail:{member}: assumed; the rest says {first:abs} {first:<behind|ahead}|{member}: "
    "reads {second}, the rest says {first}}";
constexpr std::string_view kReadingWords =
    "{has_detail:{member}: so it was assumed, but the rest says it was {first:abs} "
    "{first:<behind|ahead}; left out of the answer|{member} reads {second}, {value:abs} "
    "{value:<less|more} than the {first} that the rest says: left out of the answer; take it "
    "again, or look for a slip in the file}";

// In the order of FindingKind.
constexpr KindWords kFindingWords[]{
    {K::kAxleFree, Of::kNamed, kNumber, "{detail_head}; no link holds it", "{detail}"},
    {K::kAxleNearlyFree, Of::kNamed, kNumber, "{detail_head}, bushing give {value:.0}-fold",
     "is nearly free: it {detail}. Whatever a bushing gives comes out {value:.0} times as large at "
     "the axle"},
    {K::kScalesDisagree, Of::kNamed, kPercent,
     "coils say {first}, scales {second}: {value:abs} {value:<less|more}{wants}",
     "at their measured length its coils and stops carry {first}, the scales show {second}: "
     "{value:abs} {value:<less|more}{past:, where {aim:g} may be (common practice). Look at rates, "
     "free lengths and what was on board; where the scales are right and a coil cannot be "
     "measured, give free_length: weighed}",
     kMass},
    {K::kCoilsDiffer, Of::kNamed, kLength, "{value:abs} longer unloaded than {detail}{wants}",
     "by the scales it is {value:abs} longer than {detail} with nothing on it, more than {aim}. "
     "Either {detail} has sagged and the body hangs to that side, or scales or tape are off: a "
     "wheel's scale, a seat's height, a floor that is not level"},
    {K::kArmMisfit, Of::kNamed, kLength,
     "{value:abs} {value:>longer|shorter} than its holes are apart{wants}",
     "it is {value:abs} {value:>longer|shorter} than its two holes are apart, more than {aim}, and "
     "the axle stands off its measured place for it{has_first:; the arms then pull up to {first} "
     "on "
     "one another, which hangs on their rates}: turn or make it to fit{has_detail: ({detail})}, or "
     "move a hole",
     kForce},
    {K::kArmsPitch, Of::kNamed, kAngle,
     "its arms pitch it {value:abs} nose {value:>up|down}{wants}",
     "arms that do not fit their holes pitch its housing {value:abs} nose "
     "{value:>up|down}{has_detail:, its yoke end {detail},} off its measured stance, more than "
     "{aim}: pinion angle and caster go with it"},
    {K::kTireRadius, Of::kNamed, kLength, "radius {first}, scales say {second}{wants}",
     "it is given a radius of {first}, {value:abs} {value:<less|more} than the {second} with which "
     "it stands at its measured height under its scale, more than {aim}. Leave radius out and the "
     "scales tell it, or look at its rate and the hub's height: was it on stands{value:<, is it "
     "the loaded radius|}?"},
    {K::kHubHeight, Of::kNamed, kLength, "hubs {first} above the floor, tyres hold {second}",
     "its wheel centres were measured {first} above the floor, but its tyres under that weight "
     "hold them at {second}: was it on stands, or is a tyre's radius or rate wrong?"},
    {K::kNotMirrored, Of::kNamed, kLength, "{value} off mirror image{wants}",
     "left and right are no mirror images, {value} apart, more than {aim} (common practice): "
     "measure both again"},
    {K::kBelowFloor, Of::kNamed, kLength, "reaches {value:abs} below the floor",
     "it reaches {value:abs} below the floor: is a height wrong?"},
    {K::kLongLink, Of::kNamed, kLength, "{value} long, more than half the wheelbase",
     "it is {value} long, more than half the wheelbase: is a sign or a place wrong?"},
    {K::kShortLink, Of::kNamed, kLength, "only {value} long",
     "it is only {value} long: is a sign lost on one end?"},
    {K::kEndsSwapped, Of::kNamed, kLength, "axle end farther from the axle than frame end",
     "its axle end is farther from the axle than its frame end: are 'frame' and 'axle' swapped?"},
    {K::kLooseCoil, Of::kNamed, kLength, "{value} off its seat as measured",
     "it is {value} off its seat as measured: is its free length right?"},
    {K::kTracksDiffer, Of::kNamed, kLength, "track {value}, far wider than the other axle's",
     "its track is {value}, far wider than the other axle's: y of a wheel centre is half the "
     "track"},
    {K::kHeavyUnsprung, Of::kNamed, kMass, "unsprung {value}, all its scales showed or more",
     "its unsprung mass of {value} is all that its scales showed, or more"},
    {K::kNominalTire, Of::kNamed, kPercent, "tyre flattened {value} of its radius{wants}",
     "its tyre is flattened by {value} of its radius as measured, less than {aim}: is the nominal "
     "radius taken for the loaded one?"},
    {K::kStopTakenRigid, Of::kNamed, kPercent, "curve ends at {value} of its height{wants}",
     "its curve ends at {value} of its free length, less than {aim}: a foam stop crushes to less "
     "than half its height, so is it taken as rigid?"},
    {K::kNoRest, Of::kBare, kNumber, "{under}it finds no resting position",
     "{under}it finds no resting position: {detail}"},
    {K::kLeansInward, Of::kBare, kLength, "{under}centre of mass {value:abs} below the roll axis",
     "{under}the body's centre of mass lies {value:abs} below the roll axis, so it would lean into "
     "a turn, as no truck does: look at the heights of the masses and of what holds the axles "
     "sideways"},
    {K::kOverRating, Of::kNamed, kMass, "carries {value}{in_load}, rating {aim}",
     "{under}it carries {value}, above its rating of {aim}"},
    {K::kRidesStiff, Of::kNamed, kFrequency, "rides at {value}{in_load}{wants}",
     "{under}its ride frequency is {value}, above {aim}: a donor's coils under a lighter body? "
     "Softer coils bring it down"},
    {K::kStopRaisesRate, Of::kNamed, kFrequency, "rests on a stop{in_load}: {value}{wants}",
     "{under}a bump stop touches at rest: with its rate the ride frequency is {value}, above "
     "{aim}. The coils alone are not to blame: a shorter stop, or more ride height"},
    {K::kSitsAskew, Of::kNamed, kLength, "{value:>left|right} side {value:abs} low{in_load}{wants}",
     "{under}the body sits {value:abs} lower on the {value:>left|right}, more than {aim}: move "
     "weight across, or set a spacer under the coil of that side"},
    {K::kMockUpHeight, Of::kNamed, kLength, "wheels rest {value} from where measured{wants}",
     "even {under}its wheels rest {value} from where they were measured in their openings, more "
     "than {aim}: set wheelbase and openings at loaded height, not at mock-up height"},
    {K::kNarrowTriangle, Of::kNamed, kAngle, "left and right spread {value} from above{wants}",
     "left and right spread {value} seen from above, less than {aim}, and nothing else holds the "
     "axle sideways: spread them, or add a track bar"},
    {K::kLinkSlopes, Of::kNamed, kAngle, "slopes {value:abs} {value:>up|down} to the axle{wants}",
     "seen from the side it slopes {value:abs} {value:>up|down} toward the axle at rest, more than "
     "{aim}: move a bracket so that it lies more nearly level"},
    {K::kRollSteers, Of::kNamed, kAngleRatio, "{value:abs} of roll {roll_way}{wants}",
     "at rest it steers {value:abs} with body roll, {roll_way}, more than {aim} either way: arms "
     "more nearly level seen from the side steer it less"},
    {K::kDamperAtRest, Of::kNamed, kLength,
     "at rest {shows:{value:<{value:abs} past|{value} short of} }{ended}{wants_short}",
     "at rest it is {shows:{value:<{value:abs} past|{value} short of} }{ended}, less than {aim}: "
     "another damper, or its tab moved"},
    {K::kNoStop, Of::kNamed, kNumber, "no bump stop in the file, something else ends bump",
     "the file has no bump stop here, so that something else ends bump: fit one, and give it under "
     "bump_stops"},
    {K::kConeMissesPad, Of::kNamed, kLength, "misses its pad {spot}",
     "it misses its pad {where}: there it carries nothing and ends no travel. Move one of its "
     "ends, or make the pad wider"},
    {K::kDamperIsStop, Of::kNamed, kLength,
     "stops the axle {rise}, wants a {in_droop:strap|stop or strap}",
     "it is {ended} and stops the axle {end_at}: {in_droop:a strap that comes taut before spares "
     "it|it breaks before a stop or a strap would, so fit one that comes before}"},
    {K::kEndsBeforeStop, Of::kNamed, kLength, "{doing_short} {rise}, before any stop",
     "{doing} {end_at}, before a stop or a strap ends the travel"},
    {K::kShortBump, Of::kNamed, kLength, "{shows:{value} of|no} bump left at rest{wants}",
     "at rest {shows:{value} of|no} bump is left, less than {aim}: then {detail}"},
    {K::kCoilUnseats, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} off its seat {end}|{value} squeeze left {end}{wants_short}}|no "
     "squeeze left {end}{wants_short}}",
     "{shows:{value:<it comes {value:abs} off its seat {end_at}|it is squeezed {value} {end_at}, "
     "less than {aim}, and may leave its seat}|it is squeezed no longer {end_at}}: a strap that "
     "ends droop sooner, or a longer coil, keeps it seated"},
    {K::kCoilNearSolid, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} past|{value} from} }solid {end}{wants_short}",
     "{shows:{value:<it would go {value:abs} past solid {end_at}|{value} is left before it is "
     "solid {end_at}, less than {aim}}|it is solid {end_at}}: a taller stop that ends bump sooner, "
     "or another coil"},
    {K::kDamperNearEnd, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} past|{value} from}|at} its end {end}{wants_short}",
     "{shows:{value:<it is past its end by {value:abs} {end_at}|{value} is left in it {end_at}, "
     "less than {aim}}|it is at its end {end_at}}: another damper, or its tab moved"},
    {K::kJointNearLimit, Of::kNamed, kAngle,
     "{value:<{value:abs} past its limit {end}|{value} spare {end}{wants_short}}",
     "{value:<its joint is past its misalignment limit by {value:abs} {end_at}|its joint has "
     "{value} of misalignment left {end_at}, less than {aim}}: a joint that turns farther, or "
     "less travel"},
    {K::kSlipBottoms, Of::kNamed, kLength, kSlipLine, kSlipWords, {}, "bottoms"},
    {K::kSlipParts, Of::kNamed, kLength, kSlipLine, kSlipWords, {}, "parts"},
    {K::kTireNear, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} into its {member}, {rise}|{value} from its {member}, "
     "{rise}{wants_short}}|touches its {member}, {rise}{wants_short}}",
     "{shows:{value:<it goes {value:abs} into its {member} {where}|it comes as near as {value} to "
     "its {member} {where}, less than {aim}}|it touches its {member} {where}}{lip_assumed: (the "
     "file has no lip_y, so the lip is taken to reach across the tyre)}"},
    {K::kGapCloses, Of::kNamed, kLength, "{shows:closes to {value}|closes up} {spot}{wants}",
     "it {shows:closes to {value}|closes up} {where}, less than {aim}"},
    {K::kCenterInsideOut, Of::kNamed, kLength,
     "instant centre changes ends near {value:abs} of {value:>bump|droop}",
     "near {value:abs} of {value:>bump|droop} its instant centre runs away at one end and comes "
     "back from the other: anti-squat, anti-dive and pitch turn round in their trend there"},
    {K::kPitches, Of::kNamed, kAngle, "turns {value} over its travel{wants}",
     "its housing turns {value} over the travel, more than {aim}, and pinion and caster with it: "
     "longer arms, or arms more nearly alike, turn it less"},
    {K::kLinksFight, Of::kNamed, kForce, "{value} of link bind fully crossed{wants}",
     "fully crossed it carries {value} of link bind, more than {aim}: there are more links than "
     "the axle needs, and they pull against one another"},
    {K::kNotFlatRide, Of::kBare, kNumber,
     "ride: rear over front {value:.2}, wants {first:.2} to {second:.2}",
     "the rear ride frequency over the front one is {value:.2}; a flat ride wants {first:.2} to "
     "{second:.2}, the rear quicker, so that it catches up after a bump (aims.flat_ride_least, "
     "flat_ride_most)"},
    {K::kDampingOff, Of::kBare, kNumber,
     "{member}: damping ratio {value:.2}, wants {first:.2} to {second:.2}",
     "{member} has a damping ratio of {value:.2} by the whole model; {first:.2} to {second:.2} is "
     "usual (common practice; aims.damping_least, damping_most)"},
    {K::kHopOff, Of::kBare, kFrequency,
     "{member}: {value:.1} Hz, wants {first:.1} to {second:.1} Hz",
     "{member} is at {value:.1} Hz; {first:.1} to {second:.1} is usual (course notes; "
     "aims.hop_least, hop_most)"},
    {K::kInTheWay, Of::kNamed, kLength, "{doing_short}, {second:abs} too soon {way}",
     "{under}{doing} {where}, {second:abs} short of the {first:abs} of wheel travel asked for; no "
     "damper, stop or strap mends that"},
    {K::kLinksFollowNot, Of::kNamed, kNumber, "its links do not reach the travel asked for",
     "its links do not reach everywhere in the travel asked for, one wheel up and the other down: "
     "ask for less"},
    {K::kNoStopSoShort, Of::kNamed, kLength, "no stop is short enough, by {value}",
     "in the bump asked for its pad goes {value} past its seat, so no stop is short enough: ask "
     "for less bump, or move the seat"},
    {K::kStopHeightNotHad, Of::kNamed, kLength, "no height of it gives the bump asked for",
     "{under}as tall as the bump asked for needs it, it {value:>is squeezed {value}|no longer "
     "touches} at "
     "rest, so the truck then stands otherwise, and no height is found that gives this bump from "
     "there: ask for less bump, or move the seat"},
    {K::kStopMovesRest, Of::kNamed, kLength,
     "{value:>squeezed {value}|off} at rest as advised, {axle} {first:abs} {first:>up|down}",
     "{under}as tall as advised it {value:>is squeezed {value}|no longer touches} at rest, so the "
     "{axle} "
     "then stands {first:abs} {first:>higher|lower} than now; the parts here are for that"},
    {K::kNoSuchDamper, Of::kNamed, kLength, "none is made so, {value} too short when closed",
     "no damper is made so: closed it would be {value} too short for its stroke and {aim} of body "
     "and eyes (aims.damper_dead_length); {first:>move its chassis end {first} farther from the "
     "axle, along the damper|no place of its chassis end within reach mends that}{second:>, or ask "
     "for {second} less bump}"},
    {K::kOrderUnseatsCoil, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} off its seat|{value} squeeze left}|no squeeze left} in the travel "
     "asked for{value:<|{wants}}",
     "{shows:{value:<it comes {value:abs} off its seat|it is squeezed {value}, less than "
     "{aim},}|it "
     "is squeezed no longer} where it is longest in the travel asked for: keep it in, or shorten "
     "the strap"},
    {K::kOrderBindsCoil, Of::kNamed, kLength,
     "{shows:{value:<{value:abs} past|{value} from} }solid in the travel asked for{wants}",
     "{shows:{value:<it would go {value:abs} past solid in the travel asked for|{value} is left "
     "before it is solid in the travel asked for, less than {aim}}|it is solid in the travel asked "
     "for}: a taller stop, or ask for less bump"},
    {K::kWheelOffCenter, Of::kNamed, kLength, "wheels {off_center} centre{wants}",
     "at rest its wheels stand {off_center} the centre of their openings, more than {aim}; "
     "linkwright openings says what centres them"},
    {K::kSteerFollowsNot, Of::kNamed, kNumber, "drag link or tie rod does not reach full lock",
     "the drag link or tie rod does not reach full lock everywhere in the travel; those places are "
     "left out"},
    {K::kNoCentringPlan, Of::kBare, kNumber, "no plan found that centres the wheels",
     "no plan that centres the wheels was found: {detail}"},
    {K::kJointWorksHard, Of::kNamed, kAngle, "{detail} joint works at {value} at rest{wants}",
     "the joint at the {detail} works at {value} at rest, more than {aim}"},
    {K::kDoubleJointWorksHard, Of::kNamed, kAngle,
     "{detail} double joint at {value} at rest{wants}",
     "the joint at the {detail}, a double one, works at {value} at rest, more than {aim}"},
    {K::kJointIdle, Of::kNamed, kAngle, "{detail} joint works at {value} at rest{wants}",
     "the joint at the {detail} works at {value} at rest, less than {aim}: its needles do not "
     "turn and wear where they stand"},
    {K::kJointAtSpeed, Of::kNamed, kAngle, "{detail} joint at {value}, {first} allows {aim}",
     "the joint at the {detail} works at {value} at rest, above the {aim} that go with {first}",
     kShaftSpeed},
    {K::kJointsDiffer, Of::kNamed, kAngle, "joints differ by {value} at rest{wants}",
     "its two joints differ by {value} at rest{wants}"},
    {K::kPinionOffAim, Of::kNamed, kAngle, "pinion yoke {value:abs} too {value:>low|high} at rest",
     "the pinion's yoke end has to come {value:abs} {value:>up|down}{low:= for the least "
     "equivalent joint angle at rest: |, to stand {low:abs} {low:>low|high} of the least "
     "equivalent joint angle: at rest }{first}, now {second}"},
    {K::kUneven, Of::kNamed, kAngle, "the pinion alone leaves {value}{wants}",
     "{value} is the least equivalent joint angle that turning the pinion can leave at rest: it "
     "comes from the plan view or from the phase of the yokes"},
    {K::kTorsional, Of::kNamed, kAcceleration, "torsional {value} at {first}{wants}",
     "torsional acceleration at rest and {first} is {value}{wants}", kShaftSpeed},
    {K::kInertial, Of::kNamed, kAcceleration, "inertial {value} at {first}{wants}",
     "inertial acceleration at rest and {first} is {value}{wants}", kShaftSpeed},
    {K::kNoBalance, Of::kNamed, kTorque,
     "{has_detail:wind-up needs masses|no balance under {value} at the wheels}",
     "{has_detail:wind-up needs masses, and the file gives none|under {value} at the wheels its "
     "axle finds no balance}"},
    {K::kBarSlopeDiffers, Of::kNamed, kAngle, "slopes {value} off the drag link{wants}",
     "seen from in front it slopes {value} off the drag link{wants}"},
    {K::kBarLengthDiffers, Of::kNamed, kPercent,
     "{first:abs} {value:>longer|shorter} than drag link, {value:abs}{wants}",
     "it is {first:abs} {value:>longer|shorter} than the drag link, {value:abs}{wants}", kLength},
    {K::kBarOpposite, Of::kNamed, kNumber, "frame end on the other side from the drag link's",
     "its frame end is on the other side from the drag link's: one pulls the axle where the other "
     "pushes the wheels"},
    {K::kBumpSteers, Of::kNamed, kAngleRate,
     "bump steers {value:abs} {value:>left|right} at rest{wants}",
     "with the steering wheel held, bump at rest steers {value:abs} to the "
     "{value:>left|right}{wants}"},
    {K::kDragLinkInLine, Of::kNamed, kNumber, "drag link in line with its kingpin or arm at rest",
     "at rest the drag link stands in line with its kingpin or its knuckle arm, so it turns the "
     "wheel neither way and holds it by nothing: move one of its ends"},
    {K::kOffCenter, Of::kNamed, kLength,
     "stands {centred:centred|{value:abs} to the {value:>left|right} of centre}{wants}",
     "it stands {centred:centred|{value:abs} to the {value:>left|right} of centre}{past:, more "
     "than {aim}}"},
    {K::kOldAxleMoved, Of::kBare, kLength,
     "old {axle} axle: {moved:{value:abs} {value:<back|forward}, {first:abs} {first:<down|up} "
     "since new|where it was}",
     "the old {axle} axle {moved:has moved {value:abs} {value:<back|forward} and {first:abs} "
     "{first:<down|up} against the frame since it was new: its opening was drawn about where it "
     "stood then|sits where it did}"},
    {K::kCamberGrew, Of::kBare, kLength, "{axle} spring: {value} more camber now than when new",
     "the {axle} spring has {value} more camber now than when new: a leaf sags, so are the two "
     "exchanged, or has it been re-arched?"},
    {K::kEyesDisagree, Of::kBare, kLength,
     "{axle} spring: eye to eye {first} worked out, {second} measured",
     "the {axle} spring from eye to eye now: {first} worked out, {second} measured{shows:, "
     "{value:abs} "
     "apart}{past:; take arcs and camber again}"},
    {K::kShackleInLine, Of::kBare, kAngle,
     "{axle} shackle {detail}: {value} off the line of the eyes{wants}",
     "the {axle} shackle lies only {value} off the line of the eyes {detail}: a small error of "
     "camber swings it far, so trust its axle's place less"},
    {K::kOldWheelOff, Of::kBare, kLength,
     "old {axle} wheel: {shows:{value:abs} {value:<behind|ahead of} its opening's "
     "centre|centred}{wants}",
     "the {axle} wheel when new stood {shows:{value:abs} {value:<behind|ahead of} the centre of "
     "its opening as measured on the old body|centred in its opening as "
     "measured}{past:{has_second:; a camber of {second} when new, not {first}, would have centred "
     "it|; no camber when new would have centred it, so take the opening and the eyes again}}"},
    {K::kWheelbaseDiffers, Of::kBare, kLength,
     "old wheelbase: {first} worked out, {second} measured{wants}",
     "the wheelbase now: {first} worked out, {second} measured{shows:, {value:abs} apart}{past:; "
     "take "
     "eyes, pivots and arcs again}"},
    {K::kSpacingDiffers, Of::kBare, kLength,
     "openings: {shows:{value:abs} {value:<less|more} apart than|as far apart as} the old "
     "axles{wants}",
     "the file's openings are {first} apart, {shows:{value:abs} {value:<less|more} than|as} the "
     "old axles were as designed"},
    {K::kOpeningOffOld, Of::kBare, kLength,
     "{axle} opening: {shows:{value:abs} {value:<behind|ahead of}|at} the old axle{wants}",
     "the {axle} opening in this file is {shows:{value:abs} {value:<behind|ahead of} }where the "
     "old axle was designed to be"},
    {K::kLeafReadingDisagrees, Of::kBare, kLength, kReadingLine, kReadingWords},
    {K::kLeafAngleDisagrees, Of::kBare, kAngle, kReadingLine, kReadingWords},
    {K::kLeafReadingsDoubted, Of::kBare, kNumber,
     "old springs: readings {value:.1} times as far apart as usual",
     "readings of the old springs disagree, {value:.1} times what is usual, and nothing tells "
     "which is off: one of {detail}; take them again"},
    {K::kNoStandInTurn, Of::kBare, kNumber, "at that acceleration it does not stand",
     "at that acceleration it does not stand: {detail}"},
    {K::kEndInTurn, Of::kBare, kNumber, "at that acceleration {detail}",
     "at that acceleration {detail}; it is taken to hold there, as a strap would"},
    {K::kLeansOver, Of::kTurn, kNumber, "the body leans over {at_share}, before a wheel lifts",
     "the body leans over at once {at_share}, before a wheel lifts: springs and bars no longer "
     "hold its mass; whether stops catch it is not followed"},
    {K::kEndAtOnce, Of::kTurn, kNumber, "{member} with hardly any turn",
     "{member} as it stands, with hardly any turn"},
    {K::kWheelCarriesNothing, Of::kTurn, kNumber, "the {wheel} wheel carries next to nothing",
     "the {wheel} wheel carries next to nothing as it stands"},
    {K::kTipsAtOnce, Of::kTurn, kLength,
     "{value:>rolls over without any turn|centre of mass on the floor or below}",
     "{value:>it would roll over without any turn, held rigid: its centre of mass does not stand "
     "inside its outer wheels|nothing rolls it over, held rigid, since its centre of mass stands "
     "on the floor or below, where no truck's is}"},
    {K::kGoesOver, Of::kTurn, kNumber, "rolls over {at_share}, tyres hold {aim:.2} g",
     "it rolls over {at_share}; tyres hold {aim:.2} g (aims.tire_grip), so it can get there before "
     "it slides"},
    {K::kWheelLifts, Of::kTurn, kNumber, "a wheel lifts {at_share}, tyres hold {aim:.2} g",
     "a wheel lifts {at_share}; tyres hold {aim:.2} g (aims.tire_grip), so it can get there before "
     "it slides"},
    {K::kAcceptsNothing, Of::kBare, kNumber, "accept: '{member}' silences nothing",
     "accept: '{member}' silences nothing that check finds: take it out, or look at the name"}};

constexpr bool InOrder() {
  for (size_t i = 0; i < std::size(kFindingWords); ++i) {
    const KindWords& each = kFindingWords[i];
    if (each.kind != static_cast<K>(i) || !IsSound(each.line) || !IsSound(each.words)) return false;
  }
  return std::size(kFindingWords) == kFindingKinds;
}
static_assert(InOrder());

// In the order of Of.
constexpr std::string_view kBefore[]{"{name}: ", "turning {detail}: ", ""};

std::string Fill(const Finding& finding, const Vehicle& vehicle, UnitSystem units,
                 std::string_view KindWords::*which) {
  const KindWords& kind = kFindingWords[static_cast<size_t>(finding.kind)];
  const Told told{.f = finding, .vehicle = vehicle, .units = units, .kind = kind};
  return (finding.as_found ? "as found, " : "") +
         Fill(told, kBefore[static_cast<size_t>(kind.about)]) + Fill(told, kind.*which);
}

}  // namespace

std::string Line(const Finding& finding, const Vehicle& vehicle, UnitSystem units) {
  return Fill(finding, vehicle, units, &KindWords::line);
}

std::string Words(const Finding& finding, const Vehicle& vehicle, UnitSystem units) {
  return Fill(finding, vehicle, units, &KindWords::words);
}

const char* HarmWords(Harm harm) {
  constexpr std::array kWords{"Can hurt someone", "Parts hit or run out", "Wears or drives badly",
                              "Looks wrong", "Maybe a slip of the tape or of the file"};
  return NameIn(kWords, harm);
}

NamedTable FindingsTable(const std::vector<Finding>& findings, const Vehicle& vehicle,
                         UnitSystem units,
                         const std::function<std::string(const Finding&)>& place_of) {
  const auto words = [](auto& f) -> const KindWords& {
    return kFindingWords[static_cast<size_t>(f.kind)];
  };
  const TableOf<Finding> columns{
      {"finding", "finding", kNumber, "its slug, as in linkwright explain SLUG",
       [](auto& f) { return TraitOf(f.kind).slug; }},
      {"harm", "harm", kNumber, "what it can do",
       [](auto& f) { return HarmWords(TraitOf(f.kind).harm); }},
      {"past", "past its aim", kNumber, "yes: to be looked at; no: judged and well",
       [](auto& f) { return f.past ? "yes" : "no"; }},
      {"axle", "axle", kNumber, "front or rear; empty where it is of the vehicle",
       [&](auto& f) { return f.axle ? Cell(vehicle.axles[*f.axle].name) : Cell(); }},
      {"member", "member", kNumber, "which part; empty where it is of the axle itself",
       [](auto& f) { return f.member.empty() ? Cell() : Cell(f.member); }},
      {"load", "load", kNumber, "the load it is worst under; empty: of none in particular",
       [](auto& f) { return f.load.empty() ? Cell() : Cell(f.load); }},
      {"place", "place in the file", kNumber, "file:line:column of what is to blame",
       [&](auto& f) {
         const std::string place = place_of(f);
         return place.empty() ? Cell() : Cell(place);
       }},
      {"value", "value", kNumber, "in its unit",
       [&](auto& f) { return InUnits(f.value, words(f).dimension, units); }},
      {"aim", "aim", kNumber, "in the same unit; empty where it has none",
       [&](auto& f) { return InUnits(f.aim, words(f).dimension, units); }},
      {"unit", "unit", kNumber, "of value and aim",
       [&](auto& f) { return std::string(UnitOf(words(f).dimension, units).name); }},
      {"line", "in a line", kNumber, "whom it is about, what, how much and where",
       [&](auto& f) { return Line(f, vehicle, units); }},
      {"words", "in words", kNumber, "the same in full, and what mends it",
       [&](auto& f) { return Words(f, vehicle, units); }}};
  return {"findings", ToTable(columns, findings, units)};
}

NamedTable AcceptedTable(const std::vector<AcceptedFinding>& accepted, const Vehicle& vehicle,
                         UnitSystem units) {
  const TableOf<AcceptedFinding> columns{
      {"accepted", "accepted", kNumber, "as the file's accept names it",
       [](auto& each) { return each.by.of; }},
      {"why", "why", kNumber, "as the file says", [](auto& each) { return each.by.why; }},
      {"finding", "finding", kNumber, "its slug",
       [](auto& each) { return TraitOf(each.finding.kind).slug; }},
      {"harm", "harm", kNumber, "what it can do",
       [](auto& each) { return HarmWords(TraitOf(each.finding.kind).harm); }},
      {"line", "in a line", kNumber, "whom it is about, what, how much and where",
       [&](auto& each) { return Line(each.finding, vehicle, units); }}};
  return {"accepted", ToTable(columns, accepted, units)};
}

}  // namespace linkwright
