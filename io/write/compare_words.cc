// SPDX-License-Identifier: MIT
#include "io/write/compare_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>
#include <string_view>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/differences_table.h"
#include "io/write/reading.h"

namespace linkwright {
namespace {

constexpr size_t kMostChanges = 4;  // that are said
constexpr const char* kAtRest = "at rest";

// A quantity that changed by more than is read, somewhere.
struct SeenChange {
  Column column;
  std::string where;     // "under 'empty'", "at rest"
  double first, second;  // SI
  double score;          // how many times what is read
};

double Score(const Column& column, double first, double second) {
  return std::abs(second - first) / ReadsTo(column, first);
}

bool IsSeen(double score) { return score >= 1.0; }

// Changes of one family tell the same: one of each is said.
std::string FamilyOf(const Column& column) {
  const auto has = [&](const char* part) { return column.name.find(part) != std::string::npos; };
  for (const char* part : {"anti_", "caster", "pinion", "roll_steer", "frequency", "wheel_load",
                           "joint", "lateral_shift", "roll_center", "steer", "stiffness"}) {
    if (has(part)) return part;
  }
  if (has("wheelbase") || has("opening_ahead") || has("cg_x")) return "fore and aft";
  if (has("body_rise") || has("height") || has("opening_up") || has("travel_")) return "height";
  if (has("bounce") || has("pitch")) return "frequency";
  return column.name;
}

// What a person reads off the truck, or steers by; the rest comes with --full.
bool IsRead(const Column& column) {
  return !column.name.starts_with("cg_") && !column.name.starts_with("travel_");
}

std::vector<SeenChange> StanceChanges(const Compared& of) {
  std::vector<SeenChange> changes;
  for (const ComparedValue& value : of.stances) {
    const auto* load = std::get_if<std::string>(&value.row);
    if (!value.difference || load == nullptr || !IsRead(value.column)) continue;
    const double score = Score(value.column, *value.first, *value.second);
    if (IsSeen(score)) {
      changes.push_back(
          {value.column, "under '" + Shown(*load) + "'", *value.first, *value.second, score});
    }
  }
  return changes;
}

std::vector<SeenChange> CurveChanges(const Compared& of) {
  const std::array<std::string, 3> where{of.ends[0], kAtRest, of.ends[1]};
  std::vector<SeenChange> changes;
  for (const CurveEnds& curve : of.curves) {
    for (size_t i = 0; i < where.size(); ++i) {
      if (!curve.first[i] || !curve.second[i]) continue;
      const double score = Score(curve.column, *curve.first[i], *curve.second[i]);
      if (IsSeen(score)) {
        changes.push_back({curve.column, where[i], *curve.first[i], *curve.second[i], score});
      }
    }
  }
  return changes;
}

void SortGreatestFirst(std::vector<SeenChange>& changes) {
  std::stable_sort(changes.begin(), changes.end(),
                   [](const SeenChange& a, const SeenChange& b) { return a.score > b.score; });
}

// "rear left wheel load" of "wheel load, rear left".
std::string Spoken(const Column& column) {
  for (const char* end : {"_opening_ahead", "_opening_up"}) {
    if (column.name.ends_with(end)) {
      return column.name.substr(0, column.name.find('_')) + " wheel in its opening";
    }
  }
  if (column.name.starts_with("height ")) return column.head + " height";
  if (column.name == "bounce" || column.name == "pitch") return column.head + " frequency";
  const std::string name = FullName(column);
  const size_t comma = name.find(", ");
  return comma == std::string::npos ? name : name.substr(comma + 2) + " " + name.substr(0, comma);
}

// How far a value is past the aim of its column; absent where no aim says.
std::optional<double> PastAim(const Column& column, const Aims& aims, double value) {
  const auto ends = [&](const char* with) { return column.name.ends_with(with); };
  if (ends("_opening_ahead") || ends("_opening_up")) {
    return std::max(0.0, std::abs(value) - aims.wheel_off_center);
  }
  if (ends("_roll_steer")) return std::max(0.0, std::abs(value) - aims.roll_steer);
  if (ends("_ride_frequency")) return std::max(0.0, value - aims.frequency);
  return std::nullopt;
}

// Aims are of the vehicle at rest.
const char* Verdict(const SeenChange& change, const Aims& aims) {
  if (change.where != kAtRest && !change.where.starts_with("under ")) return "";
  const auto before = PastAim(change.column, aims, change.first);
  const auto after = PastAim(change.column, aims, change.second);
  if (!before || !after || *before == *after) return "";
  return *after < *before ? ", which is better" : ", which is worse";
}

void SayChanges(const Compared& of, std::vector<std::string>& to) {
  std::vector<SeenChange> all = StanceChanges(of);
  const std::vector<SeenChange> curves = CurveChanges(of);
  all.insert(all.end(), curves.begin(), curves.end());
  SortGreatestFirst(all);
  std::set<std::string> told;
  for (const SeenChange& greatest : all) {
    if (greatest.column.name == "total_mass" || told.size() == kMostChanges) continue;
    const std::string family = FamilyOf(greatest.column);
    if (!told.insert(family).second) continue;
    // Of those that tell nearly as much, the first that an aim speaks of.
    constexpr double kNearly = 0.75;
    const auto judged = std::find_if(all.begin(), all.end(), [&](const SeenChange& each) {
      return each.score >= kNearly * greatest.score && FamilyOf(each.column) == family &&
             *Verdict(each, of.second->aims) != '\0';
    });
    const SeenChange& change = judged == all.end() ? greatest : *judged;
    std::string where = change.where;
    where[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(where[0])));
    to.push_back(fmt::format("{} the {} goes from {}{}.", where, Spoken(change.column),
                             ReadFromTo(change.column, change.first, change.second, of.units),
                             Verdict(change, of.second->aims)));
  }
  if (all.empty()) {
    to.emplace_back("No answer differs by what a tape, a finder or a scale shows.");
  }
}

void SayParts(const Compared& of, std::vector<std::string>& to) {
  const std::vector<PartChange> parts = PartChanges(*of.differences, of.units);
  if (parts.empty()) {
    to.emplace_back("No part or place differs: look at masses and loads.");
    return;
  }
  constexpr size_t kTold = 3, kMostSentence = 220;
  std::string text = parts.size() == 1 ? "One part or place differs: "
                                       : fmt::format("{} parts or places differ: ", parts.size());
  size_t told = 0;
  for (; told < std::min(kTold, parts.size()); ++told) {
    const std::string more = (told == 0 ? "" : "; ") + parts[told].what + ", " + parts[told].change;
    if (told > 0 && text.size() + more.size() > kMostSentence) break;
    text += more;
  }
  to.push_back(text + (told < parts.size() ? "; and more." : "."));
}

DataTable PartsTable(const std::vector<PartChange>& parts, UnitSystem units) {
  DataTable table{.units = units,
                  .columns = {{"what", "part or place", Dimension::kNumber, "", ""},
                              {"change", "what differs", Dimension::kNumber, "", ""}},
                  .rows = {}};
  constexpr size_t kMostParts = 12;
  for (const PartChange& part : parts) {
    if (table.rows.size() == kMostParts && parts.size() > kMostParts) {
      table.rows.push_back(
          {Cell(fmt::format("{} more", parts.size() - kMostParts)), Cell(std::string("--full"))});
      break;
    }
    table.rows.push_back({Cell(part.what), Cell(part.change)});
  }
  return table;
}

// One row a quantity, the greatest first, one column a place where it may have changed.
DataTable ChangesTable(const char* what, std::vector<SeenChange> changes,
                       const std::vector<std::string>& places, UnitSystem units) {
  SortGreatestFirst(changes);
  DataTable table{
      .units = units, .columns = {{"quantity", what, Dimension::kNumber, "", ""}}, .rows = {}};
  for (const std::string& place : places) {
    table.columns.push_back({place, place, Dimension::kNumber, "", ""});
  }
  std::vector<std::string> told;
  for (const SeenChange& change : changes) {
    auto row = std::find(told.begin(), told.end(), change.column.name);
    if (row == told.end()) {
      told.push_back(change.column.name), row = std::prev(told.end());
      std::vector<Cell>& cells = table.rows.emplace_back(table.columns.size());
      const std::string_view unit = UnitOf(DimensionRead(change.column), units).name;
      cells[0] =
          Cell(fmt::format("{}{}{}", FullName(change.column), unit.empty() ? "" : ", ", unit));
    }
    const auto place = std::find(places.begin(), places.end(), change.where);
    table.rows[static_cast<size_t>(row - told.begin())]
              [static_cast<size_t>(place - places.begin()) + 1] =
        Cell(ReadChange(change.column, change.second - change.first, units));
  }
  return table;
}

}  // namespace

std::vector<std::string> CompareSentences(const Compared& of) {
  if (of.differences->list.empty() && of.same) {
    return {"The two files say the same: no part, no place and no answer differs."};
  }
  std::vector<std::string> said;
  SayParts(of, said);
  for (const std::string& moved : AxleMovedSentences(*of.second, *of.differences, of.units)) {
    said.push_back(moved);
  }
  SayChanges(of, said);
  return said;
}

std::vector<NamedTable> CompareGlance(const Compared& of) {
  std::vector<NamedTable> tables;
  const std::vector<PartChange> parts = PartChanges(*of.differences, of.units);
  if (!parts.empty()) tables.push_back({"parts and places", PartsTable(parts, of.units)});
  std::vector<std::string> loads;
  for (const std::vector<ComparedValue>& row : ByRow(of.stances)) {
    if (const auto* load = std::get_if<std::string>(&row.front().row)) {
      loads.push_back("under '" + Shown(*load) + "'");
    }
  }
  const std::vector<SeenChange> stances = StanceChanges(of);
  if (!stances.empty()) {
    tables.push_back({"change at rest", ChangesTable("stance", stances, loads, of.units)});
  }
  const std::vector<SeenChange> curves = CurveChanges(of);
  if (!curves.empty()) {
    tables.push_back({"change of curves",
                      ChangesTable("curve", curves, {of.ends[0], kAtRest, of.ends[1]}, of.units)});
  }
  return tables;
}

}  // namespace linkwright
