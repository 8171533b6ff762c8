// SPDX-License-Identifier: MIT
#include "io/write/page_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/listed.h"
#include "io/write/table_of.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

constexpr size_t kAtDroop = 0, kAtRest = 1, kAtBump = 2;  // of AxleAtEnds
constexpr double kAlike = 3.175e-3;   // [m] wheelbase left and right (common practice)
constexpr size_t kOneSentence = 240;  // [characters] what joins up to here is one

std::string Joined(const std::vector<std::string>& words, const char* between) {
  std::string joined;
  for (const std::string& word : words) joined += (joined.empty() ? "" : between) + word;
  return joined;
}

// Sentences about the vehicle, amounts in the reader's units.
struct PageWriter {
  const Vehicle& vehicle;
  const StartPage& page;
  UnitSystem units;

  [[nodiscard]] std::string Length(double si) const { return ShowAmount(si, kLength, units); }
  [[nodiscard]] std::string Way(double si, const char* plus, const char* minus) const {
    return Length(std::abs(si)) + " " + (si < 0.0 ? minus : plus);
  }
  [[nodiscard]] std::string Rise(double rise, const char* where) const {
    if (ShowsNothing(rise, kLength, units)) return std::string("as high ") + where;
    return Way(rise, "higher ", "lower ") + where;
  }
  [[nodiscard]] std::string Rake(double rake) const {
    if (ShowsNothing(rake, kAngle, units)) return "level";
    return std::string(rake > 0.0 ? "nose up " : "nose down ") +
           ShowAmount(std::abs(rake), kAngle, units);
  }
  [[nodiscard]] std::string Wheelbase(const StanceReport& report) const {
    const double left = report.wheelbase_left, right = report.wheelbase_right;
    if (std::abs(left - right) <= kAlike) return Length(0.5 * (left + right));
    return Length(left) + " left and " + Length(right) + " right";
  }
  // "front wheels 10 mm back and 11 mm low"; empty without an opening.
  [[nodiscard]] std::string InOpening(size_t axle, const std::optional<double>& ahead,
                                      const std::optional<double>& up) const {
    if (!ahead || !up) return {};
    std::vector<std::string> off;
    if (!ShowsNothing(*ahead, kLength, units)) off.push_back(Way(*ahead, "ahead", "back"));
    if (!ShowsNothing(*up, kLength, units)) off.push_back(Way(*up, "high", "low"));
    return vehicle.axles[axle].name + " wheels " + (off.empty() ? "centred" : Listed(off));
  }
  [[nodiscard]] std::string InOpenings(const std::array<std::string, 2>& wheels) const {
    if (wheels[0].empty() && wheels[1].empty()) return {};
    return wheels[0] + (wheels[0].empty() || wheels[1].empty() ? "" : ", ") + wheels[1] +
           " in their openings";
  }

  void AddStance(const SettledLoad& of, std::vector<std::string>& said) const;
  void AddMeasured(std::vector<std::string>& said) const;
  [[nodiscard]] std::string Left(const AxleLimit& limit, const char* way) const;
  [[nodiscard]] std::string Travel(size_t axle) const;
};

// Joins what follows while a reader still takes it in at once.
void AddWith(const std::string& first, const std::string& second, std::vector<std::string>& said) {
  if (second.empty() || first.size() + second.size() + 3 <= kOneSentence) {
    said.push_back(first + (second.empty() ? "" : "; " + second) + ".");
    return;
  }
  said.push_back(first + ".");
  said.push_back("It has its " + second + ".");
}

void PageWriter::AddStance(const SettledLoad& of, std::vector<std::string>& said) const {
  const StanceReport& report = of.report;
  std::array<std::string, 2> wheels;
  for (size_t i = 0; i < 2; ++i) {
    wheels[i] = InOpening(i, report.axles[i].opening_ahead, report.axles[i].opening_up);
  }
  AddWith(fmt::format("Under {} it stands {} and {} than measured, {}, wheelbase {}",
                      Quoted(of.load), Rise(report.axles[0].body_rise, "in front"),
                      Rise(report.axles[1].body_rise, "at the rear"), Rake(report.rake),
                      Wheelbase(report)),
          InOpenings(wheels), said);
}

void PageWriter::AddMeasured(std::vector<std::string>& said) const {
  std::array<std::string, 2> wheels;
  for (const size_t i : AxlesOf(vehicle)) {
    if (const std::optional<AxleRow>& row = page.ends[i].at[kAtRest]) {
      wheels[i] = InOpening(i, row->opening_ahead, row->opening_up);
    }
  }
  std::string first = "The file has no masses, so it stands as measured";
  if (vehicle.only_axle) {
    first = "The file has the " + vehicle.axles[*vehicle.only_axle].name +
            " axle only and no masses, so it stands as measured";
  }
  if (page.wheelbase) first += ", wheelbase " + Length(*page.wheelbase);
  AddWith(first, InOpenings(wheels), said);
}

std::string PageWriter::Left(const AxleLimit& limit, const char* way) const {
  if (!limit.ended_by) return fmt::format("nothing in the file ends its {}", way);
  const std::string end = DescribeShort(limit.hits[*limit.ended_by].limit);
  const double left = std::abs(limit.parameter);
  if (ShowsNothing(left, kLength, units)) return fmt::format("no {} is left: {}", way, end);
  return fmt::format("{} of {}, then {}", Length(left), way, end);
}

std::string PageWriter::Travel(size_t axle) const {
  const std::string& name = vehicle.axles[axle].name;
  const std::string whose = page.loads.size() > 1 && axle == kFront
                                ? fmt::format("Under {} the {} axle has", Quoted(page.load), name)
                                : fmt::format("The {} axle has", name);
  const auto& [bump, droop] = page.limits.bounce[axle];
  const auto is_told = [&](const AxleLimit& limit) {
    return limit.ended_by && !ShowsNothing(limit.parameter, kLength, units);
  };
  // Of both something is left: "has 62 mm of bump, then ..."; else what there is not in its place.
  if (is_told(bump)) return whose + " " + Left(bump, "bump") + "; " + Left(droop, "droop") + ".";
  if (is_told(droop)) return whose + " " + Left(droop, "droop") + "; " + Left(bump, "bump") + ".";
  return fmt::format("{} axle: {}; {}.", axle == kFront ? "Front" : "Rear", Left(bump, "bump"),
                     Left(droop, "droop"));
}

TableOf<SettledLoad> StanceColumns(const Vehicle& vehicle) {
  TableOf<SettledLoad> columns{{"load", "load", kNumber, "name of the load", &SettledLoad::load}};
  TableOf<StanceReport> of_rest{
      {"body_rise_front", "front higher", kLength,
       "of the body over the front axle than measured; - lower",
       [](auto& r) { return r.axles[0].body_rise; }},
      {"body_rise_rear", "rear higher", kLength, "the same over the rear axle",
       [](auto& r) { return r.axles[1].body_rise; }},
      {"rake", "rake", kAngle, "of the body; + nose up", &StanceReport::rake},
      {"roll", "roll", kAngle, "of the body; + left side up", &StanceReport::roll},
      {"wheelbase_left", "wheelbase left", kLength, "along the floor",
       &StanceReport::wheelbase_left},
      {"wheelbase_right", "wheelbase right", kLength, "the same", &StanceReport::wheelbase_right}};
  for (const size_t i : kBothAxles) {
    const std::string& name = vehicle.axles[i].name;
    of_rest.push_back({name + "_opening_ahead", name + " wheels ahead", kLength,
                       "of the centre of their opening; - back",
                       [i](auto& r) { return r.axles[i].opening_ahead; }});
    of_rest.push_back({name + "_opening_up", name + " wheels high", kLength,
                       "above the centre of their opening; - low",
                       [i](auto& r) { return r.axles[i].opening_up; }});
  }
  AddPart(columns, of_rest, &SettledLoad::report);
  return columns;
}

TableOf<AxleLimit> WayColumns(const Vehicle& vehicle) {
  return {AxleColumn<AxleLimit>(vehicle),
          {"way", "way", kNumber, "bump or droop",
           [](auto& limit) { return limit.motion == LimitMotion::kBump ? "bump" : "droop"; }},
          {"travel", "left", kLength, "of the wheel's travel; empty where nothing ends it",
           [](auto& limit) { return CellIf(limit.ended_by.has_value(), limit.parameter); }},
          {"ends_by", "then", kNumber, "what ends it", [](auto& limit) {
             return limit.ended_by ? Cell(DescribeShort(limit.hits[*limit.ended_by].limit))
                                   : Cell("nothing in the file ends it");
           }}};
}

// A column of "curves".
struct PlaceRow {
  size_t axle;
  size_t place;  // kAtDroop, kAtRest, kAtBump
  double travel;
  std::optional<AxleRow> row;
};

std::vector<PlaceRow> PlacesOf(const Vehicle& vehicle, const StartPage& page) {
  std::vector<PlaceRow> places;
  for (const size_t i : AxlesOf(vehicle)) {
    for (const size_t place : {kAtDroop, kAtRest, kAtBump}) {
      places.push_back({i, place, page.ends[i].travel[place], page.ends[i].at[place]});
    }
  }
  return places;
}

TableOf<PlaceRow> CurveColumns(const Vehicle& vehicle) {
  static constexpr std::array kPlaces{"droop", "rest", "bump"};
  TableOf<PlaceRow> columns{
      AxleColumn<PlaceRow>(vehicle),
      {"at", "at", kNumber,
       "full droop, rest and full bump, as in `travel`; 75 mm or 3 in where nothing ends it",
       [](auto& row) { return kPlaces.at(row.place); }},
      {"travel", "travel", kLength, "of the wheel from rest; + bump", &PlaceRow::travel}};
  const TableOf<AxleRow> of_row{
      {"wheelbase_change", "wheelbase", kLength,
       "change that this axle makes of it against rest; + longer", &AxleRow::wheelbase_change},
      {"pinion_angle", "pinion", kAngle, "to the floor; + yoke end up", &AxleRow::pinion_angle},
      {"caster", "caster", kAngle, "to the floor; + the top leans back", &AxleRow::caster}};
  AddPart(columns, of_row, &PlaceRow::row);
  columns.push_back(
      {"anti_squat", "anti-squat", kPercent, "of the rear axle, driven", [](const PlaceRow& row) {
         return row.axle == kRear && row.row ? Cell(row.row->anti_drive) : Cell();
       }});
  const TableOf<AxleRow> more{
      {"roll_center_height", "roll centre", kLength, "above the floor",
       &AxleRow::roll_center_height},
      {"roll_steer", "roll steer", kAngleRatio,
       "axle steer per degree of body roll; + into the turn: at the front oversteer, at the rear "
       "understeer",
       &AxleRow::roll_steer},
      {"ride_frequency", "ride", kFrequency, "ride frequency there", &AxleRow::ride_frequency}};
  AddPart(columns, more, &PlaceRow::row);
  return columns;
}

// Without the columns that no row fills.
DataTable Filled(DataTable table) {
  for (size_t c = table.columns.size(); c-- > 0;) {
    const bool any = std::any_of(table.rows.begin(), table.rows.end(), [c](const auto& row) {
      return !std::holds_alternative<std::monostate>(row[c]);
    });
    if (any) continue;
    const auto at = static_cast<std::ptrdiff_t>(c);
    table.columns.erase(table.columns.begin() + at);
    for (auto& row : table.rows) row.erase(row.begin() + at);
  }
  return table;
}

// "front and rear tyres", "rear tyres": of the axles of which it is so.
void AddOf(const Vehicle& vehicle, const char* what, bool (*is_so)(const Axle&),
           std::vector<std::string>& to) {
  std::vector<std::string> axles;
  for (const size_t i : AxlesOf(vehicle)) {
    if (is_so(vehicle.axles[i])) axles.push_back(vehicle.axles[i].name);
  }
  if (axles.empty()) return;
  const bool all = axles.size() == AxlesOf(vehicle).size();
  to.push_back(all ? what : Listed(axles) + " " + what);
}

bool HasOpenEnds(const Axle& axle) {
  return axle.dampers.empty() ||
         std::any_of(axle.dampers.begin(), axle.dampers.end(),
                     [](const Damper& d) { return !d.shortest || !d.longest; });
}

}  // namespace

std::vector<std::string> PageAnswer(const Vehicle& vehicle, const StartPage& page,
                                    UnitSystem units) {
  const PageWriter writer{vehicle, page, units};
  std::vector<std::string> said;
  if (page.loads.empty()) writer.AddMeasured(said);
  for (const SettledLoad& each : page.loads) {
    if (page.loads.size() > kLoadsInWords && each.load != page.load) continue;
    writer.AddStance(each, said);
  }
  for (const size_t axle : AxlesOf(vehicle)) said.push_back(writer.Travel(axle));
  return said;
}

std::vector<std::string> PageFoot(const Vehicle& vehicle) {
  std::vector<std::string> assumed, missing, foot;
  AddOf(
      vehicle, "tyres are rigid (no rate)", [](auto& a) { return !a.tire.rate; }, assumed);
  AddOf(
      vehicle, "openings' lips reach across the tyre (no lip_y)",
      [](auto& a) { return a.opening && a.opening->radius && !a.opening->lip_y; }, assumed);
  if (!assumed.empty()) foot.push_back("Assumed: " + Listed(assumed) + ".");
  if (IsGeometryOnly(vehicle)) missing.emplace_back("masses");
  AddOf(
      vehicle, "coils", [](auto& a) { return a.springs.empty(); }, missing);
  AddOf(vehicle, "dampers' ends", HasOpenEnds, missing);
  AddOf(
      vehicle, "bump stops", [](auto& a) { return a.bump_stops.empty(); }, missing);
  AddOf(
      vehicle, "straps", [](auto& a) { return a.straps.empty(); }, missing);
  AddOf(
      vehicle, "wheel openings", [](auto& a) { return !a.opening; }, missing);
  if (vehicle.driveshafts.empty()) missing.emplace_back("driveshafts");
  if (IsThere(vehicle, kFront) && !vehicle.axles[kFront].kingpin) missing.emplace_back("kingpin");
  if (IsThere(vehicle, kFront) && !vehicle.axles[kFront].steering) {
    missing.emplace_back("steering");
  }
  if (!missing.empty()) {
    foot.push_back("Not in the file, so not looked at: " + Joined(missing, ", ") + ".");
  }
  return foot;
}

std::vector<NamedTable> PageTables(const Vehicle& vehicle, const StartPage& page,
                                   UnitSystem units) {
  std::vector<NamedTable> tables;
  if (!page.loads.empty()) {
    tables.push_back({"stances", Filled(ToTable(StanceColumns(vehicle), page.loads, units))});
  }
  std::vector<AxleLimit> ways;
  for (const size_t axle : AxlesOf(vehicle)) {
    for (const AxleLimit& limit : page.limits.bounce[axle]) ways.push_back(limit);
  }
  tables.push_back({"travel", ToTable(WayColumns(vehicle), ways, units)});
  tables.push_back(
      {"over the travel", Filled(ToTable(CurveColumns(vehicle), PlacesOf(vehicle, page), units))});
  return tables;
}

std::vector<NamedTable> AllPageTables(const Vehicle& any) {
  return {{"stances", ToTable(StanceColumns(any))},
          {"travel", ToTable(WayColumns(any))},
          {"over the travel", ToTable(CurveColumns(any))}};
}

}  // namespace linkwright
