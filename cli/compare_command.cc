// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>

#include "cli/command.h"
#include "cli/settled.h"
#include "cli/sweep_request.h"
#include "io/write/comparison.h"
#include "io/write/differences_table.h"
#include "io/write/text_table.h"
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

// errors: InputErrors, UsageError
State Evaluate(const Question& asked, const VehicleFile& file) {
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
      state.curves = SweepAsked(asked, file, settled.rig, stance, UsualSteps::kCoarse);
    }
    return state;
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

// One table a load, quantity by quantity, as `settle` prints them.
std::string PrintStances(const std::vector<ComparedValue>& values, UnitSystem units) {
  std::string out;
  for (const std::vector<ComparedValue>& of_load : ByRow(values)) {
    out += ToTurnedText(ChangesOfRow("load", of_load, units)) + "\n";
  }
  return out;
}

// Values of one quantity after another, each as its own small table.
std::string PrintQuantities(const std::vector<ComparedValue>& values, const Column& key,
                            UnitSystem units, const std::function<bool(const Column&)>& picked) {
  std::string out;
  for (const std::vector<ComparedValue>& same : ByColumn(values)) {
    const Column& column = same.front().column;
    if (!picked(column)) continue;
    out +=
        ToTitledText(column.group + ": " + column.head + " (" + NameWithUnit(column, units) + ")",
                     ChangesOfColumn(key, same, units)) +
        "\n";
  }
  return out;
}

bool IsCalled(const std::string& name, const Column& column, UnitSystem units) {
  return name == column.name || name == NameWithUnit(column, units);
}

// errors: UsageError where a column to show is not in the curves.
void RequireColumns(const std::vector<std::string>& wanted, const DataTable& curves) {
  for (const std::string& name : wanted) {
    bool known = false;
    std::string names;
    for (size_t i = 1; i < curves.columns.size(); ++i) {
      const Column& column = curves.columns[i];
      known = known || IsCalled(name, column, curves.units);
      names += (names.empty() ? "" : ", ") + column.name;
    }
    if (!known) {
      throw UsageError(fmt::format("--column: no curve is called '{}'; there are {}", name, names));
    }
  }
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

// Every value is for the CSV.
void Append(const std::string& part, const Column& key, const std::vector<ComparedValue>& values,
            DataTable& all) {
  const DataTable more = ToComparisonTable(part, key, values, all.units);
  all.columns = more.columns;
  all.rows.insert(all.rows.end(), more.rows.begin(), more.rows.end());
}

std::string AddStances(const State& first, const State& second, DataTable& all) {
  if (first.stances.has_value() != second.stances.has_value()) {
    return "stances are left out: one of the two files gives no masses\n\n";
  }
  if (!first.stances) return {};
  const auto values = CompareTables(*first.stances, *second.stances);
  Append("settle", first.stances->columns.front(), values, all);
  return "STANCES\n\n" + PrintStances(values, all.units);
}

std::string AddCurves(const Question& asked, const State& first, const State& second,
                      DataTable& all) {
  if (!first.curves || !second.curves) return {};
  const std::vector<std::string> wanted = WordsOf(asked, "--column");
  const auto picked = [&](const Column& column) {
    if (wanted.empty()) return kUsualCurves.contains(column.name);
    return std::any_of(wanted.begin(), wanted.end(), [&](const std::string& name) {
      return IsCalled(name, column, asked.units);
    });
  };
  const auto values = CompareTables(first.curves->table, second.curves->table);
  const Column& key = first.curves->table.columns.front();
  Append("sweep", key, values, all);
  return "CURVES in " + MotionOf(asked) + "\n\n" +
         PrintQuantities(values, key, asked.units, picked);
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
  to.notes.push_back(
      fmt::format("only what both files have is compared: the {} has the {} axle only", which,
                  it.axles[*it.only_axle].name));
}

Answer AnswerCompare(const Question& asked) {
  const State first = Evaluate(asked, asked.files[0]);
  const State second = Evaluate(asked, asked.files[1]);
  if (first.curves) RequireColumns(WordsOf(asked, "--column"), first.curves->table);
  DataTable all{.units = asked.units, .columns = {}, .rows = {}};
  const std::string stances = AddStances(first, second, all);
  const std::string curves = AddCurves(asked, first, second, all);
  const Differences differences = DifferencesOf(asked.files[0].vehicle, asked.files[1].vehicle);
  const DataTable differs = DifferencesTable(differences, asked.units);
  const std::string parts =
      differs.rows.empty() ? "" : ToTitledText("PARTS AND PLACES that differ", differs) + "\n";
  Answer answer{.tables = {{"values", all}, {"differs", differs}},
                .text = parts + stances + curves,
                .csv_is_long = false,
                .notes = AxleMovedNotes(asked.files[1].vehicle, differences, asked.units)};
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
  Command command{
      .name = "compare",
      .help = "two states side by side",
      .options = {FileOption("FIRST"),
                  FileOption("SECOND"),
                  {.name = "--column",
                   .help =
                       "curves to show, by column name; by default the usual ones; a CSV has them "
                       "all",
                   .wanted = "the name of a column",
                   .count = kAnyCount}},
      .answer = AnswerCompare};
  for (const Option& option : SweepRequestOptions()) command.options.push_back(option);
  return command;
}

}  // namespace linkwright
