// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <set>

#include "cli/findings.h"
#include "cli/settled.h"
#include "cli/sweep_request.h"
#include "io/write/comparison.h"
#include "io/write/text_table.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

struct CompareOptions {
  CommonOptions common;
  std::string first, second;
  std::vector<std::string> columns;
  SweepRequest request;
};

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
  VehicleFile file;
  std::optional<DataTable> stances;  // absent: geometry only
  std::vector<NamedModes> modes;     // of the stances that have any, by load
  std::optional<DataTable> curves;   // absent: no rest under the load
  std::vector<std::string> notes;    // of its curves
  bool cut_short = false;            // its rows end before what was asked for
  std::vector<Refusal> refusals;
};

State ReadState(const CommonOptions& options, const std::string& path, Streams& streams) {
  State state;
  state.file = ReadFor(options, path, streams);
  return state;
}

void Evaluate(State& state, const SweepRequest& request, UnitSystem units) {
  const VehicleFile& file = state.file;
  if (!IsGeometryOnly(file.vehicle)) {
    const Settled settled = SettleLoads(file, request.load);
    state.stances = SettleTable(file.vehicle, settled.loads, units);
    for (const SettledLoad& each : settled.loads) {
      if (each.report.modes) state.modes.push_back({each.load, *each.report.modes});
    }
    state.refusals = settled.refusals;
  }
  Swept swept = RunSweepRequest(file, request, units);
  state.curves = std::move(swept.table);
  state.cut_short = swept.cut_short;
  state.notes = std::move(swept.notes);
}

// Three columns a value: first, second, change; one line a row key and quantity.
DataTable ToReadable(const std::vector<ComparedValue>& values, const Column& key, UnitSystem units,
                     const std::string& group_by) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {key};
  const Column& like = values.front().column;
  for (const char* head : {"first", "second", "change"}) {
    table.columns.push_back({head, head, like.dimension, group_by, ""});
  }
  for (const ComparedValue& value : values) {
    table.rows.push_back({value.row, value.first, value.second, value.difference});
  }
  return table;
}

// One table a load, quantity by quantity, as `settle` prints them.
std::string PrintStances(const std::vector<ComparedValue>& values, UnitSystem units) {
  std::vector<Cell> loads;
  for (const ComparedValue& value : values) {
    if (std::find(loads.begin(), loads.end(), value.row) == loads.end()) loads.push_back(value.row);
  }
  std::string out;
  for (const Cell& load : loads) {
    DataTable table{.units = units, .columns = {}, .rows = {}};
    table.columns = {{"load", "load: " + std::get<std::string>(load), Dimension::kNumber, "", ""}};
    table.rows = {{"first"}, {"second"}, {"change"}};
    for (const ComparedValue& value : values) {
      if (value.row != load) continue;
      table.columns.push_back(value.column);
      table.rows[0].push_back(value.first);
      table.rows[1].push_back(value.second);
      table.rows[2].push_back(value.difference);
    }
    out += ToTurnedText(table) + "\n";
  }
  return out;
}

// Values of one quantity after another, each as its own small table.
std::string PrintQuantities(const std::vector<ComparedValue>& values, const Column& key,
                            UnitSystem units, const std::function<bool(const Column&)>& picked) {
  std::string out;
  for (size_t from = 0; from < values.size();) {
    size_t to = from;
    while (to < values.size() && values[to].column.name == values[from].column.name) ++to;
    if (picked(values[from].column)) {
      const std::vector<ComparedValue> same(values.begin() + static_cast<long>(from),
                                            values.begin() + static_cast<long>(to));
      const Column& column = values[from].column;
      out +=
          ToTitledText(column.group + ": " + column.head + " (" + NameWithUnit(column, units) + ")",
                       ToReadable(same, key, units, "")) +
          "\n";
    }
    from = to;
  }
  return out;
}

// A coarse step keeps the curves over travel readable; motions by angle have few rows anyway.
void TakeCoarseStep(SweepRequest& request, UnitSystem units) {
  const bool by_travel = request.motion == "bounce" || request.motion == "one-wheel";
  if (request.step.empty() && by_travel) {
    request.step = units == UnitSystem::kMetric ? "20 mm" : "1 in";
  }
}

// errors: UsageError where a column to show is in neither table of curves.
void RequireColumns(const std::vector<std::string>& wanted, const State& first, UnitSystem units) {
  for (const std::string& name : wanted) {
    bool known = !first.curves;
    std::string names;
    for (size_t i = 1; first.curves && i < first.curves->columns.size(); ++i) {
      const Column& column = first.curves->columns[i];
      known = known || name == column.name || name == NameWithUnit(column, units);
      names += (names.empty() ? "" : ", ") + column.name;
    }
    if (!known) {
      throw UsageError(fmt::format("--column: no curve is called '{}'; there are {}", name, names));
    }
  }
}

void Append(DataTable& all, DataTable more) {
  if (all.columns.empty()) all.columns = more.columns;
  for (auto& row : more.rows) all.rows.push_back(std::move(row));
}

// Both states side by side: what is printed, and every value for a CSV.
struct Comparison {
  std::string text;
  DataTable csv;
};

std::string CompareHeading(const State& first, const State& second) {
  return fmt::format(
      "first:  {}\n        {}\nsecond: {}\n        {}\nchange: second less first\n\n",
      first.file.vehicle.title, first.file.path, second.file.vehicle.title, second.file.path);
}

// Where a load's bounce is one end's motion in the first state and the other end's in the second.
std::string NoteOnBounce(const State& first, const State& second) {
  for (const NamedModes& a : first.modes) {
    for (const NamedModes& b : second.modes) {
      if (a.name != b.name) continue;
      const std::string note =
          NoteOnModeNames({{a.name + ", first", a.modes}, {b.name + ", second", b.modes}});
      if (!note.empty()) return note;
    }
  }
  return {};
}

std::vector<std::string> NotesOf(const State& first, const State& second) {
  std::vector<std::string> notes;
  const std::string names = NoteOnBounce(first, second);
  if (!names.empty()) notes.push_back(names);
  for (const std::string& note : first.notes) notes.push_back("first: " + note);
  for (const std::string& note : second.notes) notes.push_back("second: " + note);
  return notes;
}

void AddStances(const State& first, const State& second, UnitSystem units, Comparison& to) {
  if (first.stances.has_value() != second.stances.has_value()) {
    to.text += "stances are left out: one of the two files gives no masses\n\n";
  }
  if (!first.stances || !second.stances) return;
  const auto values = CompareTables(*first.stances, *second.stances);
  to.text += "STANCES\n\n" + PrintStances(values, units);
  Append(to.csv, ToComparisonTable("settle", first.stances->columns.front(), values, units));
}

void AddCurves(const State& first, const State& second, const CompareOptions& options,
               UnitSystem units, Comparison& to) {
  if (!first.curves || !second.curves) return;
  const std::set<std::string> wanted(options.columns.begin(), options.columns.end());
  const auto picked = [&](const Column& column) {
    if (wanted.empty()) return kUsualCurves.contains(column.name);
    return wanted.contains(NameWithUnit(column, units)) || wanted.contains(column.name);
  };
  const auto values = CompareTables(*first.curves, *second.curves);
  const Column& key = first.curves->columns.front();
  to.text +=
      "CURVES in " + options.request.motion + "\n\n" + PrintQuantities(values, key, units, picked);
  Append(to.csv, ToComparisonTable("sweep", key, values, units));
}

void WriteComparison(const CommonOptions& options, const State& first, const State& second,
                     const DataTable& csv) {
  std::vector<std::string> inputs = first.file.inputs;
  inputs.insert(inputs.end(), second.file.inputs.begin(), second.file.inputs.end());
  WriteFiles(options, csv,
             {.command = "compare",
              .file = first.file.path + ", " + second.file.path,
              .title = first.file.vehicle.title,
              .tables = {{"values", csv}},
              .notes = NotesOf(first, second)},
             inputs);
}

int RunCompare(CompareOptions options, Streams& streams) {
  State first = ReadState(options.common, options.first, streams);
  State second = ReadState(options.common, options.second, streams);
  const UnitSystem units = OutputUnits(options.common, first.file);
  options.request.typed_in = first.file.units;
  TakeCoarseStep(options.request, first.file.units);
  Evaluate(first, options.request, units);
  Evaluate(second, options.request, units);
  RequireColumns(options.columns, first, units);

  Comparison comparison{.text = CompareHeading(first, second),
                        .csv = {.units = units, .columns = {}, .rows = {}}};
  AddStances(first, second, units, comparison);
  AddCurves(first, second, options, units, comparison);
  WriteComparison(options.common, first, second, comparison.csv);
  for (const std::string& note : NotesOf(first, second)) comparison.text += note + "\n";
  streams.out << comparison.text << Cautions();
  for (const Refusal& refusal : first.refusals) streams.err << FormatRefusal(first.file, refusal);
  for (const Refusal& refusal : second.refusals) streams.err << FormatRefusal(second.file, refusal);
  const bool warned =
      options.common.strict && (first.cut_short || second.cut_short ||
                                IsAnythingAmiss(first.file) || IsAnythingAmiss(second.file));
  const bool no = !first.refusals.empty() || !second.refusals.empty();
  const int verdict = Verdict(options.common, warned, streams);
  return no ? kAnswerIsNo : verdict;
}

}  // namespace

Command CompareCommand() {
  auto options = std::make_shared<CompareOptions>();
  Command command{.name = "compare", .help = "two states side by side"};
  AddFile(command, "FIRST", options->first, "vehicle file or variant");
  AddFile(command, "SECOND", options->second, "vehicle file or variant");
  AddOption(command, "--column", options->columns,
            "curves to show, by column name; by default the usual ones; a CSV has them all");
  AddSweepRequest(command, options->request);
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunCompare(*options, streams); };
  return command;
}

}  // namespace linkwright
