// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "cli/command.h"
#include "cli/settled.h"
#include "cli/sweep_request.h"
#include "io/write/compare_words.h"
#include "io/write/differences_table.h"
#include "solver/model/error.h"

namespace linkwright {
namespace {

// The curves most questions are about; --column picks others.
const std::set<std::string> kUsualCurves{"wheelbase",
                                         "front_pinion_angle",
                                         "rear_pinion_angle",
                                         "front_caster",
                                         "rear_anti_squat",
                                         "front_anti_dive",
                                         "front_lateral_shift",
                                         "rear_lateral_shift",
                                         "front_roll_center_height",
                                         "rear_roll_center_height",
                                         "rear_roll_steer",
                                         "front_ride_frequency",
                                         "rear_ride_frequency",
                                         "front_opening_ahead",
                                         "rear_opening_ahead",
                                         "driveshaft_length",
                                         "steer",
                                         "front_axle_steer",
                                         "rear_axle_steer",
                                         "front_wheelbase_change",
                                         "rear_wheelbase_change"};

// One state, its stances and its curves, in the units of the comparison.
struct State {
  std::optional<DataTable> stances;  // absent: geometry only
  std::vector<NamedModes> modes;     // of the stances that have any, by load
  std::optional<Swept> curves;       // absent: no rest under the load
  std::string refusals;
};

//   also     rows of its curves beside those asked for
//   errors   InputErrors, UsageError
State Evaluate(const Question& asked, const VehicleFile& file, const std::vector<double>& also) {
  try {
    State state;
    const Load* load = AskedLoad(asked, file, kSweepsAsMeasured);
    std::vector<const Load*> loads;
    if (load != nullptr) loads = PickLoads(file.vehicle, WordOf(asked, "--load"));
    const Settled settled = SettleLoads(file, loads);
    const std::vector<SettledLoad> reports = ReportsOf(settled);
    if (load != nullptr) state.stances = SettleTable(file.vehicle, reports, asked.units);
    state.modes = ModesOf(reports);
    state.refusals = settled.refusals;
    const Stance* stance = load == nullptr ? nullptr : RestUnder(*load, settled);
    if (load == nullptr || stance != nullptr) {
      state.curves = SweepAsked(asked, file, settled.rig, stance, UsualSteps::kCoarse, also);
    }
    return state;
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

// One table a load, quantity by quantity, as `settle` prints them.
std::vector<NamedTable> StanceTables(const std::vector<ComparedValue>& values, UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const std::vector<ComparedValue>& of_load : ByRow(values)) {
    const auto* load = std::get_if<std::string>(&of_load.front().row);
    tables.push_back({(load == nullptr ? std::string() : *load) + " stance",
                      ChangesOfRow("load", of_load, units)});
  }
  return tables;
}

// Values of one quantity after another, each as its own small table.
std::vector<NamedTable> QuantityTables(const std::vector<ComparedValue>& values, const Column& key,
                                       UnitSystem units,
                                       const std::function<bool(const Column&)>& picked) {
  std::vector<NamedTable> tables;
  for (const std::vector<ComparedValue>& same : ByColumn(values)) {
    const Column& column = same.front().column;
    if (!picked(column)) continue;
    tables.push_back({NameWithUnit(column, units), ChangesOfColumn(key, same, units)});
  }
  return tables;
}

// Where a load's bounce is one end's motion in the first state and the other end's in the second.
std::vector<std::string> NotesOnBounce(const State& first, const State& second) {
  for (const NamedModes& a : first.modes) {
    for (const NamedModes& b : second.modes) {
      if (a.name != b.name) continue;
      const std::vector<std::string> notes =
          NotesOnModeNames({{a.name + ", first", a.modes}, {b.name + ", second", b.modes}});
      if (!notes.empty()) return notes;
    }
  }
  return {};
}

// The travels that one state has a row at, for the other to have them too.
std::vector<double> RowsOf(const State& state) {
  std::vector<double> rows;
  if (!state.curves) return rows;
  for (const std::vector<Cell>& row : state.curves->table.rows) {
    if (const auto* at = std::get_if<double>(&row.front())) rows.push_back(*at);
  }
  return rows;
}

bool Differ(const DataTable& first, const DataTable& second) {
  constexpr double kRounding = 1e-9;  // of a value; what is 0 in both is 0
  const std::vector<ComparedValue> values = CompareTables(first, second);
  return first.columns.size() != second.columns.size() || first.rows.size() != second.rows.size() ||
         std::any_of(values.begin(), values.end(), [](const ComparedValue& value) {
           if (value.first.has_value() != value.second.has_value()) return true;
           return value.difference &&
                  std::abs(*value.difference) > kRounding * (1e-3 + std::abs(*value.first));
         });
}

// What is said of one state alone.
void AddState(const std::string& which, const State& state, Answer& to) {
  to.complaint += state.refusals;
  if (!state.refusals.empty()) to.exit = kAnswerIsNo;
  if (!state.curves) return;
  for (const std::string& note : state.curves->notes) to.notes.push_back(which + ": " + note);
  to.amiss = to.amiss || state.curves->cut_short;
}

// What one of the files has no axle for is compared with nothing.
void AddOneAxleOf(const char* which, const Vehicle& it, const Vehicle& other, Answer& to) {
  if (!it.only_axle || it.only_axle == other.only_axle) return;
  to.said.push_back(
      fmt::format("Only what both files have is compared: the {} file has the {} axle only.", which,
                  it.axles[*it.only_axle].name));
}

// Tables for files, side by side; and for --full.
void AddTables(const Question& asked, const State& first, const State& second,
               const DataTable& differs, Answer& to) {
  if (first.curves && second.curves) {
    to.tables.push_back({"curves", SideBySide(first.curves->table, second.curves->table)});
  }
  if (first.stances && second.stances) {
    to.tables.push_back({"stances", SideBySide(*first.stances, *second.stances)});
    to.in_full = StanceTables(CompareTables(*first.stances, *second.stances), asked.units);
  }
  to.tables.push_back({"differs", differs});
  to.in_full.insert(to.in_full.begin(), {"differs", differs});
  if (!first.curves || !second.curves) return;
  const DataTable &a = first.curves->table, &b = second.curves->table;
  std::set<std::string> wanted;
  for (const size_t c : AskedColumns(asked, a)) wanted.insert(a.columns[c].name);
  const auto picked = [&](const Column& column) {
    return (wanted.empty() ? kUsualCurves : wanted).contains(column.name);
  };
  const std::vector<NamedTable> curves =
      QuantityTables(CompareTables(a, b), a.columns.front(), asked.units, picked);
  if (!wanted.empty()) to.glance = curves;
  to.in_full.insert(to.in_full.end(), curves.begin(), curves.end());
}

Compared Compare(const Question& asked, const State& first, const State& second,
                 const Differences& differences) {
  Compared of{.second = &asked.files[1].vehicle,
              .differences = &differences,
              .stances = {},
              .curves = {},
              .ends = EndNames(asked),
              .same = true,
              .units = asked.units};
  if (first.stances && second.stances) {
    of.stances = CompareTables(*first.stances, *second.stances);
    of.same = !Differ(*first.stances, *second.stances);
  }
  if (first.curves && second.curves) {
    of.same = of.same && !Differ(first.curves->table, second.curves->table);
    of.curves = CompareEnds(first.curves->table, second.curves->table);
    if (MotionOf(asked) != "bounce") return of;
    std::erase_if(of.curves,
                  [](const CurveEnds& curve) { return !kUsualCurves.contains(curve.column.name); });
  }
  return of;
}

Answer AnswerCompare(const Question& asked) {
  State first = Evaluate(asked, asked.files[0], {});
  const State second = Evaluate(asked, asked.files[1], RowsOf(first));
  first = Evaluate(asked, asked.files[0], RowsOf(second));
  const Differences differences = DifferencesOf(asked.files[0].vehicle, asked.files[1].vehicle);
  const Compared compared = Compare(asked, first, second, differences);
  Answer answer{.said = CompareSentences(compared), .tables = {}, .first_is_main = true};
  answer.glance = CompareGlance(compared);
  AddTables(asked, first, second, DifferencesTable(differences, asked.units), answer);
  if (first.stances.has_value() != second.stances.has_value()) {
    answer.notes.emplace_back("stances are left out: one of the two files gives no masses");
  }
  AddNotes(NotesOnBounce(first, second), answer);
  const Vehicle &one = asked.files[0].vehicle, &two = asked.files[1].vehicle;
  AddOneAxleOf("first", one, two, answer);
  AddOneAxleOf("second", two, one, answer);
  AddState("first", first, answer);
  AddState("second", second, answer);
  return answer;
}

}  // namespace

Command CompareCommand() {
  Command command{.name = "compare",
                  .help = "two states side by side",
                  .asks = "What differs between two states of a vehicle, and what comes of it?",
                  .example = "harbour_van.yaml harbour_van_as_built.yaml",
                  .options = {FileOption("FIRST"), FileOption("SECOND"), ColumnOption()},
                  .answer = AnswerCompare};
  for (const Option& option : SweepRequestOptions()) command.options.push_back(option);
  return command;
}

}  // namespace linkwright
