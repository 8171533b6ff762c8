// SPDX-License-Identifier: MIT
#include "cli/sweep_request.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numbers>

#include "cli/assumed.h"
#include "io/write/amount.h"
#include "io/write/motion_columns.h"
#include "io/write/sweep_columns.h"
#include "solver/model/masses.h"
#include "solver/study/curves/motions.h"
#include "solver/study/curves/sweep.h"

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
};

constexpr std::array kMotions{
    Motion{"bounce", std::nullopt, Dimension::kLength, 10.0, 0.5, "droop", "bump"},
    Motion{"roll", MotionKind::kRoll, Dimension::kAngle, 1.0, 1.0, "left side down",
           "left side up"},
    Motion{"one-wheel", MotionKind::kOneWheel, Dimension::kLength, 10.0, 0.5, "droop", "bump"},
    Motion{"crossed", MotionKind::kCrossed, Dimension::kAngle, 1.0, 1.0, "cross below 0",
           "cross above 0"},
    Motion{"steer", MotionKind::kSteer, Dimension::kAngle, 5.0, 5.0, "turned right",
           "turned left"}};

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

std::string MotionOf(const Question& asked) { return WordOf(asked, "--motion", "bounce"); }

Swept SweepAsked(const Question& asked, const VehicleFile& file, const Rig& rig,
                 const Stance* stance, UsualSteps steps) {
  const Vehicle& vehicle = file.vehicle;
  const Motion& motion = FindMotion(MotionOf(asked));
  const GridOptions grid = ParseGrid(asked, file, motion, steps);
  const std::string wheel = WordOf(asked, "--wheel");
  const size_t moved = ParseWheel(file, motion, wheel);
  Swept swept;
  Ends low, high;
  if (motion.kind) {
    const MotionSweep sweep =
        SweepMotion({rig, stance}, {.kind = *motion.kind, .wheel = moved, .grid = grid});
    swept.table = MotionTable(vehicle, sweep, asked.units);
    low = sweep.low, high = sweep.high;
  } else {
    const Sweep sweep = SweepBounce({rig, stance}, grid);
    swept.table = SweepTable(vehicle, sweep, asked.units);
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
    swept.notes.push_back(EndNote(axle, motion.low, low[i], grid.from, d, asked.units));
    swept.notes.push_back(EndNote(axle, motion.high, high[i], grid.to, d, asked.units));
  }
  return swept;
}

}  // namespace linkwright
