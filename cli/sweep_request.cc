// SPDX-License-Identifier: MIT
#include "cli/sweep_request.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "io/write/amount.h"
#include "io/write/motion_columns.h"
#include "io/write/sweep_columns.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/study/curves/sweep.h"

namespace linkwright {
namespace {

constexpr double kMostRows = 20000;  // a spreadsheet's patience, and ours
constexpr double kFarthest = 0.6;  // [m, rad] how far an end is looked for where none is asked for
constexpr std::array kWheels{"front-left", "front-right", "rear-left", "rear-right"};

// What a motion's parameter is, for reading --from, --to and --step and for saying where travel
// ends.
struct Parameter {
  Dimension dimension;
  double metric_step, inch_step;          // between rows where no step is asked for
  const char *low, *high;                 // what its two ends are called
  std::array<bool, 2> moves{true, true};  // which axles it moves
};

Parameter ParameterOf(const Vehicle& vehicle, const SweepRequest& request) {
  const Parameter travel{Dimension::kLength, 0.01, 0.0127, "droop", "bump"};
  Parameter angle{Dimension::kAngle, kOneDegree, kOneDegree, "left side down", "left side up"};
  if (request.motion == "bounce") return travel;
  if (request.motion == "one-wheel") {
    Parameter one = travel;
    one.moves = {request.wheel.starts_with("front"), request.wheel.starts_with("rear")};
    return one;
  }
  if (request.motion == "steer") {
    angle.metric_step = angle.inch_step = 5.0 * kOneDegree;
    angle.low = "turned right", angle.high = "turned left";
    for (size_t i = 0; i < 2; ++i) angle.moves[i] = vehicle.axles[i].steering.has_value();
  }
  if (request.motion == "crossed") angle.low = "cross below 0", angle.high = "cross above 0";
  return angle;
}

// Plain numbers are in the file's own units, whatever --units shows.
//   vehicle   whose axles are named
GridOptions ParseGrid(const Vehicle& vehicle, const SweepRequest& request,
                      const Parameter& parameter, UnitSystem units) {
  const Dimension d = parameter.dimension;
  GridOptions grid{
      .from = ParseOption("--from", request.from, d, units),
      .to = ParseOption("--to", request.to, d, units),
      .step = units == UnitSystem::kMetric ? parameter.metric_step : parameter.inch_step,
      .axle = {}};
  for (size_t i = 0; i < 2; ++i) {
    if (request.axle == vehicle.axles[i].name) grid.axle = i;
  }
  if (const auto step = ParseOption("--step", request.step, d, units)) grid.step = *step;
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

MotionRequest ParseMotion(const SweepRequest& request, const GridOptions& grid) {
  if (request.motion != "one-wheel" && !request.wheel.empty()) {
    throw UsageError("--wheel goes with --motion one-wheel");
  }
  MotionRequest motion{.kind = MotionKind::kRoll, .wheel = 0, .grid = grid};
  if (request.motion == "crossed") motion.kind = MotionKind::kCrossed;
  if (request.motion == "steer") motion.kind = MotionKind::kSteer;
  if (request.motion == "one-wheel") {
    motion.kind = MotionKind::kOneWheel;
    if (request.wheel.empty()) {
      throw UsageError(
          "--motion one-wheel needs --wheel: front-left, front-right, rear-left or "
          "rear-right");
    }
    while (request.wheel != kWheels[motion.wheel])
      ++motion.wheel;  // the command line has checked it is one
  }
  return motion;
}

using Ends = std::array<std::optional<LimitHit>, 2>;

std::string EndNote(const Axle& axle, const char* side, const std::optional<LimitHit>& end,
                    std::optional<double> asked, Dimension dimension, UnitSystem units) {
  const auto amount = [&](double si) { return ShowAmount(si, dimension, units); };
  if (end) {
    return fmt::format("{} axle, {}: travel ends at {}: {}", axle.name, side, amount(*end->at),
                       Describe(end->limit));
  }
  if (asked && *asked != 0.0) {
    return fmt::format("{} axle, {}: nothing ends travel before {}", axle.name, side,
                       amount(*asked));
  }
  return fmt::format("{} axle, {}: nothing in the file ends these rows", axle.name, side);
}

std::vector<std::string> Notes(const Vehicle& vehicle, const Stance* stance,
                               const Parameter& parameter, const GridOptions& grid, const Ends& low,
                               const Ends& high, UnitSystem units) {
  std::vector<std::string> notes;
  if (stance != nullptr) {
    notes.push_back("the row at 0 is the resting position under the load '" + stance->load + "'");
  } else {
    notes.emplace_back(
        "the file gives no masses (ledger, or sprung): the row at 0 is the measured stance, and "
        "the "
        "columns that depend on load are left out");
  }
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    if (!parameter.moves[i] || grid.axle.value_or(i) != i) continue;
    const Dimension d = parameter.dimension;
    notes.push_back(EndNote(axle, parameter.low, low[i], grid.from, d, units));
    notes.push_back(EndNote(axle, parameter.high, high[i], grid.to, d, units));
  }
  return notes;
}

// Ends are looked for only as far as the rows that were asked for go.
bool CutShort(const GridOptions& grid, const Ends& low, const Ends& high) {
  return (grid.from && (low[0] || low[1])) || (grid.to && (high[0] || high[1]));
}

Swept SweepFrom(const VehicleFile& file, const Rig& rig, const Stance* stance,
                const SweepRequest& request, UnitSystem units) {
  const Parameter parameter = ParameterOf(file.vehicle, request);
  const Vehicle& vehicle = file.vehicle;
  const GridOptions grid =
      ParseGrid(vehicle, request, parameter, request.typed_in.value_or(file.units));
  if (grid.axle && !parameter.moves[*grid.axle]) {
    throw UsageError(fmt::format("--axle {}: this motion leaves the {} axle where it is",
                                 request.axle, request.axle));
  }
  if (request.motion == "bounce") {
    if (!request.wheel.empty()) throw UsageError("--wheel goes with --motion one-wheel");
    const Sweep sweep = SweepBounce({rig, stance}, grid);
    return {.table = SweepTable(vehicle, sweep, units),
            .notes = Notes(vehicle, stance, parameter, grid, sweep.droop, sweep.bump, units),
            .refusal = std::nullopt,
            .cut_short = CutShort(grid, sweep.droop, sweep.bump),
            .load = nullptr};
  }
  const MotionSweep sweep = SweepMotion({rig, stance}, ParseMotion(request, grid));
  return {.table = MotionTable(vehicle, sweep, units),
          .notes = Notes(vehicle, stance, parameter, grid, sweep.low, sweep.high, units),
          .refusal = std::nullopt,
          .cut_short = CutShort(grid, sweep.low, sweep.high),
          .load = nullptr};
}

}  // namespace

void AddSweepRequest(Command& command, SweepRequest& request) {
  AddOption(command, "--load", request.load,
            "stand it under this load first; by default the first");
  AddOption(command, "--motion", request.motion,
            "bounce (every wheel together), roll (the body on level ground), one-wheel, "
            "crossed (front and rear rolled opposite ways), or steer (at rest)")
      .choices = {"bounce", "roll", "one-wheel", "crossed", "steer"};
  AddOption(command, "--wheel", request.wheel, "which wheel moves in one-wheel")
      .choices.assign(kWheels.begin(), kWheels.end());
  AddOption(command, "--axle", request.axle, "rows and columns of this axle alone").choices = {
      "front", "rear"};
  AddOption(command, "--from", request.from, "first travel or angle; by default full droop");
  AddOption(command, "--to", request.to, "last travel or angle; by default full bump");
  AddOption(command, "--step", request.step, "between rows; by default 10 mm, 1/2 in or 1 deg");
}

Swept RunSweepRequest(const VehicleFile& file, const SweepRequest& request, UnitSystem units) {
  try {
    const Rig rig = PrepareFor(file);
    if (IsGeometryOnly(file.vehicle)) {
      if (!request.load.empty()) {
        throw UsageError("--load: the file has no masses, so it sweeps about the measured stance");
      }
      return SweepFrom(file, rig, nullptr, request, units);
    }
    const Load& load = FindLoad(file.vehicle, request.load);
    const Stance stance = Settle(rig, load);
    if (stance.status != StanceStatus::kRests) {
      return {.table = {},
              .notes = {},
              .refusal = Refusal{load.name, stance.message},
              .cut_short = false,
              .load = &load};
    }
    Swept swept = SweepFrom(file, rig, &stance, request, units);
    swept.load = &load;
    return swept;
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

}  // namespace linkwright
