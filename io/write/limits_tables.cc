// SPDX-License-Identifier: MIT
#include "io/write/limits_tables.h"

#include <fmt/format.h>
#include <algorithm>
#include <iterator>
#include <set>

#include "io/write/name_in.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"
#include "solver/model/twins.h"

namespace linkwright {
namespace {

using enum Dimension;

constexpr const char* kAxleAndName = "axle and name";
constexpr const char* kNoEnd = "nothing in the file";

const char* EndWord(LimitKind end) {
  constexpr std::array kWords{
      "closed",   "open",         "bound",       "solid",        "lined up",     "out of reach",
      "taut",     "out of reach", "at its lock", "over centre",  "off its seat", "at its limit",
      "bottomed", "parted",       "at the lip",  "at the panel", "off its pad"};
  return NameIn(kWords, end);
}

// "damper left closed": a member and how it ends.
std::string NameOf(const TravelLimit& limit) {
  const bool links = limit.id.kind == LimitKind::kLinksStraight;
  return (links ? "links (" + limit.name + ")" : limit.name) + " " + EndWord(limit.id.kind);
}

const char* NameOf(LimitMotion motion) {
  constexpr std::array kNames{"bump", "droop", "crossed +", "crossed -"};
  return NameIn(kNames, motion);
}

const LimitHit* EndOf(const AxleLimit& limit) {
  return limit.ended_by ? &limit.hits[*limit.ended_by] : nullptr;
}

// The next thing: a twin on the other side tells nothing new.
const LimitHit* NextAfter(const AxleLimit& limit) {
  if (!limit.ended_by) return nullptr;
  for (size_t i = *limit.ended_by + 1; i < limit.hits.size(); ++i) {
    const LimitHit& next = limit.hits[i];
    if (next.at && next.limit.role != LimitRole::kPassed &&
        !AreTwins(next.limit, EndOf(limit)->limit))
      return &next;
  }
  return nullptr;
}

std::string NameOr(const LimitHit* hit, const char* none) {
  return hit == nullptr ? none : NameOf(hit->limit);
}

// "front bump", of a limit or of what is in the way.
std::string WayOf(const Vehicle& vehicle, const auto& limit) {
  return vehicle.axles[limit.axle].name + " " + NameOf(limit.motion);
}

// What the columns of an axle's own limits have in common.
std::function<Cell(const AxleLimit&)> WayIn(const Vehicle& vehicle) {
  return [&](auto& limit) { return WayOf(vehicle, limit); };
}
Cell Ender(const AxleLimit& limit) { return NameOr(EndOf(limit), kNoEnd); }
Cell Next(const AxleLimit& limit) { return NameOr(NextAfter(limit), "-"); }
Cell NextAt(const AxleLimit& limit) { return Within(NextAfter(limit), &LimitHit::at); }
Cell WhereItEnds(const AxleLimit& limit) {
  return CellIf(limit.ended_by.has_value(), limit.parameter);
}

// + bump.
std::optional<double> WantedOf(const PartsAdvice& advice, const AxleLimit& limit) {
  const WantedTravel& wanted = advice.wanted[limit.axle];
  return limit.motion == LimitMotion::kBump ? wanted.bump : Less(0.0, wanted.droop);
}

//   planned   a travel other than the one found is wanted
TableOf<AxleLimit> TravelColumns(const Vehicle& vehicle, const PartsAdvice& advice, bool planned) {
  TableOf<AxleLimit> columns{
      {"way", "way", kNumber, "bump or droop of which axle", WayIn(vehicle)},
      {"travel", "travel", kLength,
       "where it ends, both wheels together from the stance, + bump; empty where nothing ends it",
       WhereItEnds},
      {"ended_by", "ended by", kNumber, "the first thing that runs out", Ender},
      {"next_at", "next at", kLength,
       "travel at which the next thing, not its twin on the other side, would have ended it",
       NextAt},
      {"next", "the next", kNumber, "which that is", Next},
      {"wanted", "wanted", kLength, "travel the parts below are for, under this load; + bump",
       [&](auto& limit) { return WantedOf(advice, limit); }}};
  LeaveToFull(columns, {"next_at", "next"});
  if (!planned) LeaveToFull(columns, {"wanted"});
  return columns;
}

TableOf<CrossedLimit> CrossedColumns(const Vehicle& vehicle) {
  const auto where_it_ends = [](const CrossedLimit& crossed, double value) {
    return CellIf(crossed.first.has_value(), value);
  };
  return {{"way", "way", kNumber,
           "crossed +: the front housing as in roll at +, front right and rear left wheel up",
           [](auto& crossed) { return NameOf(crossed.axles[0].motion); }},
          {"cross", "cross", kAngle,
           "angle at which the first axle ends; empty where nothing in the file ends it",
           [=](auto& crossed) { return where_it_ends(crossed, crossed.angle); }},
          {"ended_by", "ended by", kNumber, "axle and the thing that runs out first",
           [&](auto& crossed) {
             if (!crossed.first) return std::string(kNoEnd);
             return vehicle.axles[*crossed.first].name + " " +
                    NameOf(EndOf(crossed.axles[*crossed.first])->limit);
           }},
          {"front_wheel_travel", "front wheel", kLength,
           "one front wheel up by this, the other down as far",
           [=](auto& crossed) { return where_it_ends(crossed, crossed.wheel_travel[0]); }},
          {"rear_wheel_travel", "rear wheel", kLength,
           "one rear wheel up by this, the other down as far",
           [=](auto& crossed) { return where_it_ends(crossed, crossed.wheel_travel[1]); }},
          {"diagonal_travel", "between diagonals", kLength,
           "mean travel of the front right and rear left wheel less that of the other two",
           [=](auto& crossed) { return where_it_ends(crossed, crossed.diagonal_travel); }}};
}

TableOf<AxleLimit> CrossedAloneColumns(const Vehicle& vehicle) {
  return {{"way", "axle and way", kNumber, "each axle crossed by itself", WayIn(vehicle)},
          {"cross", "cross", kAngle, "angle at which it ends; empty where nothing in the file does",
           WhereItEnds},
          {"wheel_travel", "wheel", kLength, "one wheel up by this, the other down as far",
           [](auto& limit) { return CellIf(limit.ended_by.has_value(), limit.wheel_travel); }},
          {"ended_by", "ended by", kNumber, "the first thing that runs out", Ender},
          {"next_cross", "next at", kAngle, "angle at which the next thing would have ended it",
           NextAt},
          {"next", "the next", kNumber, "which that is", Next}};
}

TableOf<InTheWay> InTheWayColumns(const Vehicle& vehicle) {
  return {{"what", "in the way", kNumber,
           "axle, way and what ends the travel before the stop and the strap advised below would; "
           "no damper, stop or strap mends it",
           [&](auto& each) { return WayOf(vehicle, each) + ": " + NameOf(each.limit); }},
          {"wanted", "wanted", kLength,
           "wheel travel wanted, + bump; crossed, as far as that stop and strap let a wheel rise",
           &InTheWay::wanted},
          {"at", "comes at", kLength, "wheel travel at which it comes", &InTheWay::at},
          {"short_by", "short by", kLength, "of what is wanted", &InTheWay::short_by}};
}

const char* TabWords(const DamperAdvice& damper) {
  constexpr std::array kWords{"lengths not given", "fits as it is", "move its tab",
                              "stroke too short", "no tab within reach"};
  return NameIn(kWords, damper.fit);
}

// The load that decides, of one or two ends.
std::string UnderWords(const PartsAdvice& advice, const std::string& one,
                       const std::string& other) {
  if (advice.under.size() == 1) {
    return advice.under.front().load.empty() ? "as measured" : advice.under.front().load;
  }
  if (one.empty() && other.empty()) return "any";
  if (one.empty() || one == other) return other;
  return other.empty() ? one : one + ", " + other;
}
std::string UnderWords(const PartsAdvice& advice, const std::string& under) {
  return UnderWords(advice, under, under);
}

constexpr const char* kUnder =
    "the load that decides; 'any' where all loads come to the same, as far as a tape shows";

TableOf<DamperAdvice> DamperColumns(const Vehicle& vehicle, const PartsAdvice& advice) {
  TableOf<DamperAdvice> columns{
      {"damper", "damper", kNumber, "axle and name; both where left and right are ordered alike",
       MemberNameIn(vehicle)},
      {"at_rest", "at rest", kLength, "eye to eye; of both the mean", &DamperAdvice::at_rest},
      {"at_bump", "at bump", kLength,
       "eye to eye at the wanted bump of both wheels; of both the lesser", &DamperAdvice::at_bump},
      {"at_droop", "at droop", kLength,
       "eye to eye at the wanted droop of both wheels; of both the greater",
       &DamperAdvice::at_droop},
      {"least", "least", kLength,
       "wherever the stops and straps below let the axle go under any load, one wheel up and the "
       "other down; of left and right the lesser",
       &DamperAdvice::least},
      {"greatest", "greatest", kLength, "the same, of left and right the greater",
       &DamperAdvice::greatest},
      {"closed", "closed", kLength, "to order: eye to eye, no longer than this",
       &DamperAdvice::closed},
      {"open", "open", kLength, "to order: eye to eye, no shorter than this", &DamperAdvice::open},
      {"stroke", "stroke", kLength, "open less closed",
       [](auto& damper) { return damper.open - damper.closed; }},
      {"under", "load", kNumber, std::string(kUnder) + "; two where closed and open differ",
       [&](auto& damper) { return UnderWords(advice, damper.closed_under, damper.open_under); }},
      {"fit", "in the file", kNumber, "whether the one in the file does it", TabWords}};
  LeaveToFull(columns, {"at_rest", "at_bump", "at_droop", "least", "greatest"});
  return columns;
}

TableOf<DamperAdvice> TabColumns(const Vehicle& vehicle) {
  TableOf<DamperAdvice> columns{
      {"damper", "damper in the file", kNumber,
       "axle and name; both where left and right are ordered alike", MemberNameIn(vehicle)},
      {"fit", "does it fit", kNumber, "whether the damper in the file does it", TabWords},
      {"stroke_short", "stroke short by", kLength, "where no place of its tab helps",
       &DamperAdvice::stroke_short},
      {"tab_move", "tab up by", kLength,
       "its chassis end along the damper, + away from the axle; both ends then have the same spare",
       &DamperAdvice::tab_move}};
  AddPart(columns,
          PointColumns("tab_", "tab ",
                       "where the chassis end goes, chassis axes; of both the left one"),
          &DamperAdvice::p_CP);
  return columns;
}

TableOf<DamperAdvice> ImpossibleColumns(const Vehicle& vehicle) {
  const auto of = [](std::optional<double> ImpossibleOrder::*what) {
    return [what](const DamperAdvice& damper) { return Cell((*damper.impossible).*what); };
  };
  return {{"damper", "impossible order", kNumber, kAxleAndName, MemberNameIn(vehicle)},
          {"short_by", "closed short by", kLength,
           "closed it is shorter than its stroke and aims.damper_dead_length by this, as no damper "
           "is",
           [](auto& damper) { return damper.impossible->short_by; }},
          {"tab_move", "chassis end up by", kLength,
           "along the damper, away from the axle: from there an order can be had; empty where none "
           "within 300 mm",
           of(&ImpossibleOrder::tab_move)},
          {"less_bump", "or bump less by", kLength,
           "both wheels, the chassis end where it is; empty where even no bump is too much",
           of(&ImpossibleOrder::less_bump)}};
}

TableOf<StopAdvice> StopColumns(const Vehicle& vehicle, const PartsAdvice& advice) {
  TableOf<StopAdvice> columns{
      {"stop", "stop", kNumber, "axle and name; both where left and right are ordered alike",
       MemberNameIn(vehicle)},
      {"gap_at_rest", "gap at rest", kLength,
       "before it touches, of both the lesser; below 0: squeezed", &StopAdvice::gap_at_rest},
      {"solid_height", "height solid", kLength,
       "along its cone from seat to pad at the wanted bump, of left and right the lower; below "
       "0: its pad would be past its seat",
       &StopAdvice::solid},
      {"height_now", "height now", kLength, "free, in the file", &StopAdvice::height_now},
      {"height", "new height", kLength,
       "free, so that it is solid at the wanted bump; empty without a curve, past its seat, or "
       "where its cone misses its pad",
       &StopAdvice::height},
      {"spacer", "taller by", kLength, "ordered less now; below 0: cut that off",
       [](auto& stop) { return Less(stop.height, stop.height_now); }},
      {"under", "load", kNumber, kUnder,
       [&](auto& stop) { return UnderWords(advice, stop.under); }}};
  LeaveToFull(columns, {"solid_height"});
  return columns;
}

TableOf<StrapAdvice> StrapColumns(const Vehicle& vehicle, const PartsAdvice& advice) {
  return {{"strap", "strap", kNumber,
           "axle and name, both where left and right are ordered alike; without straps, one "
           "between the damper's own ends",
           [&](auto& strap) {
             return vehicle.axles[strap.axle].name + (strap.beside_damper ? " beside " : " ") +
                    strap.member;
           }},
          {"length_now", "length now", kLength, "in the file", &StrapAdvice::length_now},
          {"length", "new length", kLength,
           "eye to eye, pulled taut, at the wanted droop, of left and right the longer",
           &StrapAdvice::length},
          {"under", "load", kNumber, kUnder,
           [&](auto& strap) { return UnderWords(advice, strap.under); }}};
}

TableOf<CoilAdvice> CoilColumns(const Vehicle& vehicle) {
  return {
      {"coil", "coil", kNumber, kAxleAndName, MemberNameIn(vehicle)},
      {"length_at_droop", "length at droop", kLength, "at the wanted droop, both wheels",
       &CoilAdvice::length_at_droop},
      {"preload", "preload", kLength,
       "squeezed where it is longest, one wheel alone and crossed; below 0: off its seat by that",
       &CoilAdvice::preload},
      {"preload_force", "preload force", kForce, "there", &CoilAdvice::preload_force},
      {"length_at_bump", "length at bump", kLength, "at the wanted bump, both wheels",
       &CoilAdvice::length_at_bump},
      {"gap", "gap", kLength,
       "left before solid where it is shortest: its solid length, or the last point of its curve "
       "where that comes first; empty where neither is given",
       &CoilAdvice::gap}};
}

// Of one that is ordered as left and right alike; the left one's where nothing is said here.
void TakeBoth(DamperAdvice& left, const DamperAdvice& right) {
  left.at_rest = 0.5 * (left.at_rest + right.at_rest);
  left.at_bump = std::min(left.at_bump, right.at_bump);
  left.at_droop = std::max(left.at_droop, right.at_droop);
}
void TakeBoth(StopAdvice& left, const StopAdvice& right) {
  left.gap_at_rest = std::min(left.gap_at_rest, right.gap_at_rest);
}
void TakeBoth(StrapAdvice&, const StrapAdvice&) {}

// Of two that are no pair of the file the key has the side in it.
std::string WithoutSide(std::string key) {
  for (const char* side : {" left", "left "}) {
    if (const size_t at = key.find(side); at != std::string::npos) key.erase(at, 5);
  }
  return key;
}

// One row for left and right that are ordered alike.
//   members   of an axle, that the advice is about
template <typename Advice, typename Members>
std::vector<Advice> OnePerPair(const Vehicle& vehicle, const std::vector<Advice>& all,
                               const Members& members) {
  std::vector<Advice> rows;
  for (const size_t axle : AxlesOf(vehicle)) {
    const auto& its = members(vehicle.axles[axle]);
    const auto find = [&](size_t i) {
      return std::find_if(all.begin(), all.end(), [&](const Advice& each) {
        return each.axle == axle && each.member == DisplayName(its[i].name);
      });
    };
    for (const std::vector<size_t>& pair : Pairs(its, vehicle.aims.mirror)) {
      if (find(pair[0]) == all.end()) continue;
      Advice row = *find(pair[0]);
      if (pair.size() > 1) {
        TakeBoth(row, *find(pair[1]));
        row.member = WithoutSide(its[pair[0]].name.key) + ", both";
      }
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

// Bump, droop, crossed +, crossed -.
std::array<const AxleLimit*, 4> WaysOf(const LimitsReport& limits, size_t axle) {
  return {&limits.bounce[axle][0], &limits.bounce[axle][1], &limits.crossed[0].axles[axle],
          &limits.crossed[1].axles[axle]};
}

bool AreSame(const LimitHit& a, const LimitHit& b) { return a.limit.id == b.limit.id; }

// What the same thing has in one of the ways, where it is there.
std::function<Cell(const LimitHit&)> In(const AxleLimit& way,
                                        std::optional<double> LimitHit::*what) {
  return [&way, what](const LimitHit& wanted) {
    for (const LimitHit& each : way.hits) {
      if (AreSame(each, wanted)) return Cell(each.*what);
    }
    return Cell();
  };
}

std::string MarginName(const LimitHit& hit) {
  return NameOf(hit.limit) + (hit.limit.role == LimitRole::kPassed ? " (ends nothing)" : "");
}

void SayEnd(const NoteWriter& writer, const AxleLimit& limit) {
  if (limit.ended_by) return;
  writer.Say("{}: nothing in the file ends it", WayOf(*writer.vehicle, limit));
}

void SayWish(const NoteWriter& writer, size_t axle, const PartsAdvice& advice) {
  for (const bool bump : {true, false}) {
    if (bump ? advice.wanted[axle].bump : advice.wanted[axle].droop) continue;
    const char* way = bump ? "bump" : "droop";
    writer.Say(
        "{}: nothing in the file ends {}, so no part is ordered for it; say how much with --{}",
        writer.vehicle->axles[axle].name, way, way);
  }
}

template <typename Members, typename F>
void AddMissing(std::set<std::string>& what, const Members& members, const char* text,
                const F& lacks) {
  if (std::any_of(members.begin(), members.end(), lacks)) what.insert(text);
}

void SayUnwatched(const NoteWriter& writer, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  const NoteWriter of_axle = writer.About(it.name + ": ");
  std::set<std::string> what;
  AddMissing(what, it.springs, "coils going solid (solid_length)",
             [](const Spring& s) { return !s.solid_length && s.law.curve.empty(); });
  AddMissing(what, it.dampers, "dampers' ends (shortest, longest)",
             [](const Damper& d) { return !d.shortest || !d.longest; });
  AddMissing(what, it.bump_stops, "stops going solid (curve)",
             [](const Stop& s) { return s.law.curve.empty(); });
  AddMissing(what, it.straps, "straps (length)", [](const Strap& s) { return !s.length; });
  AddMissing(what, it.links, "joints of links (misalignment_limit)",
             [](const Link& l) { return !l.misalignment_limit; });
  for (const Driveshaft& shaft : writer.vehicle->driveshafts) {
    if (static_cast<size_t>(shaft.axle) == axle && !shaft.slip) what.insert("the spline (slip)");
  }
  if (!it.opening || !it.opening->radius) what.insert("tyre at the lip (openings: radius)");
  if (!it.opening || !it.opening->inner_panel_y) {
    what.insert("tyre at the inner panel (openings: inner_panel_y)");
  }
  if (it.opening && it.opening->radius && !it.opening->lip_y) {
    of_axle.Say(
        "assumed: the opening has no lip_y, so its lip is taken to reach across the whole tyre; a "
        "tyre that tucks in behind it goes farther");
  }
  SayLipLegs(of_axle, it);
  if (what.empty()) return;
  writer.Say("{}, not looked at, for the file does not give it: {}", it.name,
             fmt::join(what, "; "));
}

DataTable MarginTable(const LimitsReport& limits, size_t axle, bool joints, UnitSystem units) {
  const Dimension d = joints ? kAngle : kLength;
  const auto [bump, droop, up, down] = WaysOf(limits, axle);
  const auto left = &LimitHit::left;
  const TableOf<LimitHit> columns{
      {"what", "what is left", kNumber,
       "before a member is at its end, along the member; (ends nothing) where travel goes on; "
       "below 0: past it",
       MarginName},
      {"rest", "at rest", d, "both wheels at rest", &LimitHit::at_rest},
      {"bump", "at bump", d, "where bump ends; empty where nothing in the file ends it",
       In(*bump, left)},
      {"droop", "at droop", d, "where droop ends; the same", In(*droop, left)},
      {"crossed_up", "crossed +", d, "where the first axle ends that crossing; the same",
       In(*up, left)},
      {"crossed_down", "crossed -", d, "the same the other way", In(*down, left)}};
  std::vector<LimitHit> all = bump->hits;
  std::erase_if(all, [&](const LimitHit& each) {
    const bool measured = each.at_rest || each.left;
    const bool of_pad = each.limit.id.kind == LimitKind::kConeOffPad;  // its rim is no end
    return !measured || of_pad || IsAngle(each.limit.id.kind) != joints;
  });
  std::stable_sort(all.begin(), all.end(), [](const LimitHit& a, const LimitHit& b) {
    return a.limit.id.kind != b.limit.id.kind ? a.limit.id.kind < b.limit.id.kind
                                              : a.limit.name < b.limit.name;
  });
  return ToTable(columns, all, units);
}

DataTable EndsTable(const LimitsReport& limits, size_t axle, UnitSystem units) {
  const auto [bump, droop, up, down] = WaysOf(limits, axle);
  const auto travel = &LimitHit::wheel_travel;
  const TableOf<LimitHit> columns{
      {"what", "what runs out", kNumber,
       "a member and how it ends, those that bump brings first; (ends nothing) where travel goes "
       "on",
       MarginName},
      {"bump", "bump", kLength,
       "wheel travel at which it would end bump alone; empty where it lasts as far as the links "
       "follow",
       In(*bump, travel)},
      {"droop", "droop", kLength, "the same in droop", In(*droop, travel)},
      {"crossed_up", "crossed +", kLength, "the same crossed, of the wheel that rises",
       In(*up, travel)},
      {"crossed_down", "crossed -", kLength, "the same the other way", In(*down, travel)},
      {"cross_up", "crossed +", kAngle, "the cross angle then", In(*up, &LimitHit::at)},
      {"cross_down", "crossed -", kAngle, "the same the other way", In(*down, &LimitHit::at)}};
  std::vector<LimitHit> all;
  for (const AxleLimit* way : {bump, droop, up, down}) {
    for (const LimitHit& each : way->hits) {
      const bool known =
          std::any_of(all.begin(), all.end(), [&](auto& other) { return AreSame(other, each); });
      if (each.at && !known) all.push_back(each);
    }
  }
  return ToTable(columns, all, units);
}

}  // namespace

std::vector<DamperAdvice> DamperOrders(const Vehicle& vehicle, const PartsAdvice& advice) {
  return OnePerPair(
      vehicle, advice.dampers, [](const Axle& axle) -> auto& { return axle.dampers; });
}

std::vector<StopAdvice> StopOrders(const Vehicle& vehicle, const PartsAdvice& advice) {
  return OnePerPair(
      vehicle, advice.stops, [](const Axle& axle) -> auto& { return axle.bump_stops; });
}

std::vector<StrapAdvice> StrapOrders(const Vehicle& vehicle, const PartsAdvice& advice) {
  std::vector<StrapAdvice> beside, own;
  for (const StrapAdvice& each : advice.straps) (each.beside_damper ? beside : own).push_back(each);
  std::vector<StrapAdvice> rows = OnePerPair(
      vehicle, own, [](const Axle& axle) -> auto& { return axle.straps; });
  for (StrapAdvice& row : OnePerPair(
           vehicle, beside, [](const Axle& axle) -> auto& { return axle.dampers; })) {
    rows.push_back(std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](auto& a, auto& b) { return a.axle < b.axle; });
  return rows;
}

std::vector<NamedTable> LimitsTables(const Vehicle& vehicle, const LimitsReport& limits,
                                     const PartsAdvice& advice, UnitSystem units, bool planned) {
  std::vector<NamedTable> tables;
  const auto add_table = [&](const std::string& name, DataTable table) {
    if (!table.rows.empty()) tables.push_back({name, std::move(table)});
  };
  const auto add = [&](const char* name, const auto& columns, const auto& rows) {
    add_table(name, ToTable(columns, rows, units));
  };
  std::vector<AxleLimit> bounce, crossed;
  for (const size_t axle : AxlesOf(vehicle)) {
    for (const AxleLimit& limit : limits.bounce[axle]) bounce.push_back(limit);
    for (const CrossedLimit& limit : limits.crossed) crossed.push_back(limit.axles[axle]);
  }
  add("travel", TravelColumns(vehicle, advice, planned), bounce);
  if (!vehicle.only_axle) add("crossed", CrossedColumns(vehicle), limits.crossed);
  add("crossed alone", CrossedAloneColumns(vehicle), crossed);
  add("in the way", InTheWayColumns(vehicle), advice.in_the_way);
  for (const size_t axle : AxlesOf(vehicle)) {
    const std::string& name = vehicle.axles[axle].name;
    add_table(name + " margins", MarginTable(limits, axle, false, units));
    add_table(name + " joint margins", MarginTable(limits, axle, true, units));
    add_table(name + " ends", EndsTable(limits, axle, units));
  }
  const std::vector<DamperAdvice> dampers = DamperOrders(vehicle, advice);
  add("dampers", DamperColumns(vehicle, advice), dampers);
  add("tabs", TabColumns(vehicle), dampers);
  std::vector<DamperAdvice> impossible;
  std::copy_if(dampers.begin(), dampers.end(), std::back_inserter(impossible),
               [](const DamperAdvice& damper) { return damper.impossible.has_value(); });
  add("impossible dampers", ImpossibleColumns(vehicle), impossible);
  add("stops", StopColumns(vehicle, advice), StopOrders(vehicle, advice));
  add("straps", StrapColumns(vehicle, advice), StrapOrders(vehicle, advice));
  add("coils", CoilColumns(vehicle), advice.coils);
  return tables;
}

void SayLipLegs(const NoteWriter& writer, const Axle& axle) {
  if (!axle.opening || !axle.opening->radius) return;
  writer.Say(
      "assumed: from the ends of its arc the opening's edge runs straight down without end; below "
      "the real one's lower end a tyre is clear that is said to touch");
}

std::vector<std::string> LimitsNotes(const Vehicle& vehicle, const LimitsReport& limits,
                                     const PartsAdvice& advice, UnitSystem units, bool planned) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  if (planned) {
    writer.Say(
        "what is in the way, stops and coils are judged in the travel wanted; lines that say 'as "
        "found' are of the vehicle as the file has it, without the parts advised");
  }
  for (const size_t axle : AxlesOf(vehicle)) {
    if (vehicle.axles[axle].straps.empty()) {
      writer.Say(vehicle.axles[axle].name +
                 ": the file has no strap, so that something else must end droop");
    }
    for (const AxleLimit& limit : limits.bounce[axle]) SayEnd(writer, limit);
    for (const CrossedLimit& crossed : limits.crossed) {
      if (!crossed.first) SayEnd(writer, crossed.axles[axle]);
    }
    SayWish(writer, axle, advice);
  }
  for (const size_t axle : AxlesOf(vehicle)) SayUnwatched(writer, axle);
  return notes;
}

}  // namespace linkwright
