// SPDX-License-Identifier: MIT
#include "cli/sweep_request.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>
#include <numbers>

#include "cli/assumed.h"
#include "io/read/suggest.h"
#include "io/write/amount.h"
#include "io/write/motion_columns.h"
#include "io/write/sweep_columns.h"
#include "solver/model/masses.h"
#include "solver/study/curves/motions.h"
#include "solver/study/curves/sweep.h"
#include "solver/study/findings/standing_findings.h"

namespace linkwright {
namespace {

constexpr double kMostRows = 20000;  // a spreadsheet's patience, and ours
constexpr double kFarthest = 0.6;  // [m, rad] how far an end is looked for where none is asked for
constexpr double kMostAngle = std::numbers::pi / 3.0;  // [rad] nothing is swept beyond
constexpr std::array kWheels{"front-left", "front-right", "rear-left", "rear-right"};

// A motion: its parameter, which --from, --to and --step are of, and what its two ends are called.
struct Motion {
  const char* name;
  std::optional<MotionKind> kind;  // absent: both wheels of both axles
  Dimension dimension;
  double metric_step, inch_step;  // between rows where no step is asked for
  const char *low, *high;
  const char *low_way, *high_way;  // after an amount: "78 mm of bump"
};

constexpr std::array kMotions{
    Motion{"bounce", std::nullopt, Dimension::kLength, 10.0, 0.5, "droop", "bump", "of droop",
           "of bump"},
    Motion{"roll", MotionKind::kRoll, Dimension::kAngle, 1.0, 1.0, "left side down", "left side up",
           "with the left side down", "with the left side up"},
    Motion{"one-wheel", MotionKind::kOneWheel, Dimension::kLength, 10.0, 0.5, "droop", "bump",
           "of droop", "of bump"},
    Motion{"crossed", MotionKind::kCrossed, Dimension::kAngle, 1.0, 1.0, "cross below 0",
           "cross above 0", "with front left and rear right up",
           "with front right and rear left up"},
    Motion{"steer", MotionKind::kSteer, Dimension::kAngle, 5.0, 5.0, "turned right", "turned left",
           "to the right", "to the left"}};

// The command line has checked that it is one of them.
const Motion& FindMotion(const std::string& name) {
  return *std::find_if(kMotions.begin(), kMotions.end(),
                       [&](const Motion& motion) { return motion.name == name; });
}

bool Moves(const Motion& motion, const Axle& axle, const std::string& wheel) {
  if (motion.kind == MotionKind::kOneWheel) return wheel.starts_with(axle.name);
  return motion.kind != MotionKind::kSteer || axle.steering.has_value();
}

// Motions by angle have few rows anyway.
double UsualStep(const Motion& motion, UsualSteps steps, UnitSystem units) {
  const double step = RoundAmount(motion.metric_step, motion.inch_step, motion.dimension, units);
  return steps == UsualSteps::kCoarse && motion.dimension == Dimension::kLength ? 2.0 * step : step;
}

// Refuses an option that names an axle, "--axle front", where the file has the other one only.
void RequireThere(const VehicleFile& file, size_t axle, const std::string& option) {
  if (IsThere(file.vehicle, axle)) return;
  throw UsageError(fmt::format("{}: {} has the {} axle only", option, file.path,
                               file.vehicle.axles[1 - axle].name));
}

GridOptions ParseGrid(const Question& asked, const VehicleFile& file, const Motion& motion,
                      UsualSteps steps) {
  const Dimension d = motion.dimension;
  const UnitSystem units = asked.files.front().units;
  GridOptions grid{.from = AmountOf(asked, "--from", d),
                   .to = AmountOf(asked, "--to", d),
                   .step = AmountOf(asked, "--step", d).value_or(UsualStep(motion, steps, units)),
                   .axle = std::nullopt};
  const std::string alone = WordOf(asked, "--axle");
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = file.vehicle.axles[i];
    if (axle.name != alone) continue;
    RequireThere(file, i, "--axle " + alone);
    if (!Moves(motion, axle, WordOf(asked, "--wheel"))) {
      throw UsageError(
          fmt::format("--axle {0}: this motion leaves the {0} axle where it is", alone));
    }
    grid.axle = i;
  }
  if (grid.from && grid.to && *grid.from > *grid.to) {
    throw UsageError("--from is above --to: give the lower one (droop is negative) as --from");
  }
  const double span = grid.to.value_or(kFarthest) - grid.from.value_or(-kFarthest);
  if (span / grid.step > kMostRows) {
    throw UsageError(fmt::format("--step: that makes more than {} rows; take a longer step",
                                 static_cast<int>(kMostRows)));
  }
  return grid;
}

// Which wheel moves in one-wheel; 0 in other motions.
size_t ParseWheel(const VehicleFile& file, const Motion& motion, const std::string& wheel) {
  const bool one = motion.kind == MotionKind::kOneWheel;
  if (!one && !wheel.empty()) throw UsageError("--wheel goes with --motion one-wheel");
  if (one && wheel.empty()) {
    throw UsageError(
        "--motion one-wheel needs --wheel: front-left, front-right, rear-left or "
        "rear-right");
  }
  const auto found = std::find(kWheels.begin(), kWheels.end(), wheel);
  if (!one) return 0;
  const auto moved = static_cast<size_t>(found - kWheels.begin());
  RequireThere(file, moved / 2, "--wheel " + wheel);
  return moved;
}

using Ends = std::array<std::optional<LimitHit>, 2>;

std::string EndNote(const Axle& axle, const char* side, const std::optional<LimitHit>& end,
                    std::optional<double> wanted, Dimension dimension, UnitSystem units) {
  const auto amount = [&](double si) { return ShowAmount(si, dimension, units); };
  if (end) {
    return fmt::format("{} axle, {}: travel ends at {}: {}", axle.name, side, amount(*end->at),
                       Describe(end->limit));
  }
  if (wanted && *wanted != 0.0) {
    return fmt::format("{} axle, {}: nothing ends travel before {}", axle.name, side,
                       amount(*wanted));
  }
  return fmt::format("{} axle, {}: nothing in the file ends these rows", axle.name, side);
}

// One end of an axle's rows, and what for a person ends its travel before.
RowsEnd EndFor(const Walks& walks, size_t axle, const Motion& motion, size_t wheel,
               const std::optional<LimitHit>& hit, const std::optional<double>& asked, double sign,
               bool for_person) {
  constexpr double kSame = 1e-9;  // [m, rad]
  RowsEnd end{.hit = hit, .asked = asked.has_value(), .sooner = {}};
  if (!for_person) return end;
  const MotionKind kind = motion.kind.value_or(MotionKind::kBounce);
  const AxleWalk& walk = Walked(walks, axle, kind, wheel, sign, Watch::kAll);
  const LimitHit* first = FirstEnd(walk.hits, Watch::kAll, ReachOf(*walks.rig->vehicle, kind).real);
  if (first == nullptr || EndsFor(first->limit, Watch::kRows)) return end;
  const double at = std::abs(*first->at);
  if ((hit && at > std::abs(*hit->at) - kSame) || (asked && at > std::abs(*asked))) return end;
  end.sooner = *first;
  return end;
}

// "Roll-Centre Height": as columns are written.
std::string PlainName(const std::string& word) {
  std::string plain;
  for (const char c : word) {
    plain +=
        c == ' ' || c == '-' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  const size_t centre = plain.find("centre");
  return centre == std::string::npos ? plain : plain.replace(centre, 6, "center");
}

// Called so, with either system's unit or none.
bool IsCalled(const Column& column, const std::string& plain) {
  return plain == PlainName(column.name) ||
         plain == PlainName(NameWithUnit(column, UnitSystem::kMetric)) ||
         plain == PlainName(NameWithUnit(column, UnitSystem::kInch));
}

// The nearest right words for a name that no column has: those that hold it, else the one that
// takes the fewest letters changed, its axle named or not.
std::string NearestColumns(const std::string& plain, const DataTable& rows) {
  constexpr size_t kFew = 4;
  std::vector<std::string> holding;
  std::map<std::string, std::string> known;  // as it may be remembered, and whole
  for (size_t c = 1; c < rows.columns.size(); ++c) {
    const std::string& name = rows.columns[c].name;
    if (name.find(plain) != std::string::npos) holding.push_back("'" + name + "'");
    known.emplace(name, name);
    for (const std::string axle : {"front_", "rear_"}) {
      if (name.starts_with(axle)) known.emplace(name.substr(axle.size()), name);
    }
  }
  if (!holding.empty() && holding.size() <= kFew)
    return fmt::format("{}", fmt::join(holding, ", "));
  std::vector<std::string_view> words;
  for (const auto& [word, name] : known) words.push_back(word);
  const std::string nearest = NearestWord(plain, words);
  return nearest.empty() ? std::string() : "'" + known.at(nearest) + "'";
}

std::string RestNote(const Stance* stance) {
  if (stance != nullptr) {
    return "the row at 0 is the resting position under the load '" + stance->load + "'";
  }
  return "the file gives no masses (ledger, or sprung): the row at 0 is the measured stance, and "
         "the columns that depend on load are left out";
}

Option TravelOrAngle(const char* name, const char* help, Range travel, Range angle) {
  return {.name = name,
          .help = help,
          .amounts = {AmountKey(Dimension::kLength, travel), AmountKey(Dimension::kAngle, angle)}};
}

}  // namespace

std::vector<Option> SweepRequestOptions() {
  constexpr Range kTravel{.low = -kMostTravel, .high = kMostTravel};
  constexpr Range kAngle{.low = -kMostAngle, .high = kMostAngle};
  constexpr Range kAngleBetween{.low = 0.0, .high = kMostAngle, .above_low = true};
  std::vector<std::string> motions;
  for (const Motion& motion : kMotions) motions.emplace_back(motion.name);
  return {LoadOption(),
          {.name = "--motion",
           .help = "bounce (every wheel together), roll (the body on level ground), one-wheel, "
                   "crossed (front and rear rolled opposite ways), or steer (at rest)",
           .choices = motions},
          {.name = "--wheel",
           .help = "which wheel moves in one-wheel",
           .choices = {kWheels.begin(), kWheels.end()}},
          {.name = "--axle",
           .help = "rows and columns of this axle alone",
           .choices = {"front", "rear"}},
          TravelOrAngle("--from", "first travel or angle; by default full droop", kTravel, kAngle),
          TravelOrAngle("--to", "last travel or angle; by default full bump", kTravel, kAngle),
          TravelOrAngle("--step", "between rows; by default 10 mm, 1/2 in or 1 deg", kTravelRange,
                        kAngleBetween)};
}

SweptCurves CurvesOf(const Question& asked, const Vehicle& vehicle, const Swept& swept) {
  const Motion& motion = FindMotion(MotionOf(asked));
  const bool full = !motion.kind || motion.kind == MotionKind::kOneWheel;
  return {.vehicle = &vehicle,
          .rows = &swept.table,
          .axles = swept.axles,
          .low = swept.low,
          .high = swept.high,
          .bounce = !motion.kind,
          .wheel = motion.kind == MotionKind::kOneWheel ? WordOf(asked, "--wheel") : std::string(),
          .low_way = motion.low_way,
          .high_way = motion.high_way,
          .low_end = full ? "full droop" : "",
          .high_end = full ? "full bump" : "",
          .has_mass = swept.has_mass};
}

RowsShown RowsToPrint(const Question& asked) {
  if (IsGiven(asked, "--step")) return {};
  const Motion& motion = FindMotion(MotionOf(asked));
  const UnitSystem units = asked.files.front().units;
  RowsShown shown{.base = AmountOf(asked, "--from", motion.dimension).value_or(0.0), .steps = {}};
  const double step = RoundAmount(motion.metric_step, motion.inch_step, motion.dimension, units);
  for (const double times : {2.0, 5.0, 10.0, 20.0, 50.0}) shown.steps.push_back(times * step);
  return shown;
}

std::array<std::string, 2> EndNames(const Question& asked) {
  const Motion& motion = FindMotion(MotionOf(asked));
  const SweptCurves words = CurvesOf(asked, asked.files.front().vehicle, Swept{});
  const auto name = [&](const char* option, const char* full, const char* way) {
    const std::optional<double> end = AmountOf(asked, option, motion.dimension);
    if (!end) return *full == '\0' ? "at its end " + std::string(way) : "at " + std::string(full);
    return "at " + ShowAmount(std::abs(*end), motion.dimension, asked.units) + " " + way;
  };
  return {name("--from", words.low_end, words.low_way),
          name("--to", words.high_end, words.high_way)};
}

Option ColumnOption() {
  return {.name = "--column",
          .help = "print these curves alone, by column name, the unit and the axle left off or not",
          .wanted = "the name of a column",
          .count = kAnyCount};
}

std::vector<size_t> AskedColumns(const Question& asked, const DataTable& rows) {
  std::vector<size_t> picked;
  for (const std::string& word : WordsOf(asked, "--column")) {
    const std::string plain = PlainName(word);
    std::vector<size_t> found;
    for (const bool whole : {true, false}) {  // "caster" is front_caster where none is called so
      for (size_t c = 0; c < rows.columns.size(); ++c) {
        Column column = rows.columns[c];
        for (const std::string axle : {"front_", "rear_"}) {
          if (!whole && column.name.starts_with(axle)) column.name.erase(0, axle.size());
        }
        if (IsCalled(column, plain)) found.push_back(c);
      }
      if (!found.empty()) break;
    }
    if (found.empty()) {
      const std::string nearest = NearestColumns(plain, rows);
      std::vector<std::string> names;
      for (size_t c = 1; c < rows.columns.size(); ++c) names.push_back(rows.columns[c].name);
      throw UsageError(fmt::format("--column: there is no column '{}'; {}", word,
                                   nearest.empty()
                                       ? fmt::format("there are {}", fmt::join(names, ", "))
                                       : "did you mean " + nearest + "?"));
    }
    for (const size_t c : found) {
      if (c > 0 && std::find(picked.begin(), picked.end(), c) == picked.end()) picked.push_back(c);
    }
  }
  return picked;
}

std::string MotionOf(const Question& asked) { return WordOf(asked, "--motion", "bounce"); }

Swept SweepAsked(const Question& asked, const VehicleFile& file, const Rig& rig,
                 const Stance* stance, UsualSteps steps, const std::vector<double>& also) {
  const Vehicle& vehicle = file.vehicle;
  const Motion& motion = FindMotion(MotionOf(asked));
  GridOptions grid = ParseGrid(asked, file, motion, steps);
  grid.also = also;
  const std::string wheel = WordOf(asked, "--wheel");
  const size_t moved = ParseWheel(file, motion, wheel);
  // For a person an end is where a tyre or a joint ends it too; two files side by side are compared
  // in their rows.
  const bool for_person = steps == UsualSteps::kFine && motion.kind != MotionKind::kSteer;
  const Walks walks(rig, stance, for_person ? Watch::kAll : Watch::kRows);
  Swept swept{.table = {},
              .notes = {},
              .cut_short = false,
              .low = {},
              .high = {},
              .axles = {},
              .findings = {},
              .has_mass = stance != nullptr};
  Ends low, high;
  if (motion.kind) {
    const MotionSweep sweep =
        SweepMotion(walks, {.kind = *motion.kind, .wheel = moved, .grid = grid});
    swept.table = MotionTable(vehicle, sweep, asked.units);
    low = sweep.low, high = sweep.high;
  } else {
    const Sweep sweep = SweepBounce(walks, grid);
    swept.table = SweepTable(vehicle, sweep, asked.units);
    // Judged over the whole travel of both axles alone.
    const bool whole = !grid.from && !grid.to && !grid.axle;
    if (for_person && whole) swept.findings = CurveFindings(walks, sweep);
    KeepWorst(swept.findings);
    low = sweep.droop, high = sweep.bump;
  }
  // Ends are looked for only as far as the rows that were asked for go.
  swept.cut_short = (grid.from && (low[0] || low[1])) || (grid.to && (high[0] || high[1]));
  swept.notes.push_back(RestNote(stance));
  AddOneAxle(vehicle,
             motion.kind == MotionKind::kCrossed ? "travel between diagonals"
             : motion.kind                       ? ""
                                                 : "wheelbase and roll axis",
             swept.notes);
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    if (!Moves(motion, axle, wheel) || grid.axle.value_or(i) != i) continue;
    const Dimension d = motion.dimension;
    swept.axles.push_back(i);
    swept.low[i] = EndFor(walks, i, motion, moved, low[i], grid.from, -1.0, for_person);
    swept.high[i] = EndFor(walks, i, motion, moved, high[i], grid.to, 1.0, for_person);
    swept.notes.push_back(EndNote(axle, motion.low, low[i], grid.from, d, asked.units));
    swept.notes.push_back(EndNote(axle, motion.high, high[i], grid.to, d, asked.units));
  }
  return swept;
}

}  // namespace linkwright
