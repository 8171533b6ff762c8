// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <memory>

#include "cli/answer.h"
#include "cli/assumed.h"
#include "cli/settled.h"
#include "io/write/amount.h"
#include "io/write/ride_tables.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/study/findings/ride_findings.h"

namespace linkwright {
namespace {

constexpr int kPayloadSteps = 5;

struct RideOptions {
  CommonOptions common;
  std::string file;
  std::string load;
  std::string payload;          // empty: 500 kg or 1000 lb
  std::vector<std::string> at;  // x, y, z; empty: over the rear axle
};

double MostPayload(const VehicleFile& file, const RideOptions& options) {
  if (options.payload.empty()) {
    return ToSi(file.units == UnitSystem::kMetric ? 500.0 : 1000.0, Dimension::kMass, file.units);
  }
  return ParseAmount("--payload", options.payload, Dimension::kMass, file.units);
}

// Over the rear axle at the height of the sprung centre of mass, unless asked for elsewhere.
Eigen::Vector3d PayloadPlace(const VehicleFile& file, const RideOptions& options,
                             const Stance& stance) {
  if (options.at.empty()) {
    const Axle& rear = file.vehicle.axles[kRear];
    return {0.5 * (rear.p_CW_l.x() + rear.p_CW_r.x()), 0.0, stance.sprung.p_CM.z()};
  }
  Eigen::Vector3d place;
  for (int i = 0; i < 3; ++i) {
    place[i] =
        ParseAmount("--at", options.at[static_cast<size_t>(i)], Dimension::kLength, file.units);
  }
  return place;
}

RideStudy StudyRide(const VehicleFile& file, const Settled& settled, const RideOptions& options,
                    size_t chosen) {
  RideStudy study;
  const Stance& stance = settled.stances[chosen];
  study.load = stance.load;
  study.sprung_mass = stance.sprung.mass;
  study.payload_at = PayloadPlace(file, options, stance);
  study.payload_placed = !options.at.empty();
  study.report = ReportRide(settled.rig, stance);
  for (const SettledLoad& each : settled.loads) {
    study.loads.push_back(
        {.name = each.load, .payload = 0.0, .stance = each.report, .message = {}});
  }
  study.payload = RideOverPayload(settled.rig, FindLoad(file.vehicle, options.load),
                                  MostPayload(file, options), kPayloadSteps, study.payload_at);
  return study;
}

// Where the whole model's two in side view do not pair with the two-degree body's one to one.
void AddLikeness(const RideStudy& study, std::vector<std::string>& notes) {
  const ModeReport *bounce = nullptr, *pitch = nullptr;
  for (const ModeReport& row : study.report.modes) {
    if (row.mode.part == kBodyHeave) bounce = &row;
    if (row.mode.part == kBodyPitch) pitch = &row;
  }
  if (bounce == nullptr || pitch == nullptr || !bounce->centre_ahead) return;
  const double heave = std::abs(*bounce->centre_ahead);
  if (pitch->centre_ahead && std::abs(*pitch->centre_ahead) <= heave) return;
  notes.push_back(fmt::format(
      "bounce and pitch lie so near each other ({} and {} Hz) that tyres and axles of "
      "the whole model decide their shapes: by its still point, the one called pitch here moves "
      "the "
      "centre of mass more; the names are the two-degree body's, as in the other tables",
      ShowNumber(bounce->mode.undamped, 2), ShowNumber(pitch->mode.undamped, 2)));
}

void AddAssumptions(const VehicleFile& file, const RideStudy& study,
                    std::vector<std::string>& notes) {
  const Inertias& inertias = study.report.inertias;
  if (inertias.roll_guessed) {
    notes.emplace_back(
        "assumed: no roll inertia is given, so the body's radius of gyration in roll is 0.4 of the "
        "track");
  }
  if (inertias.pitch_guessed) {
    notes.emplace_back(
        "assumed: no pitch inertia is given, so bounce and pitch take a dynamic index of 1");
  }
  for (const Axle& axle : file.vehicle.axles) {
    if (!axle.tire.rate) {
      notes.push_back("assumed: the " + axle.name +
                      " tyres have no rate and are taken as rigid, so that axle has no hop");
    } else if (!axle.tire.lateral_rate) {
      notes.push_back("assumed: the " + axle.name +
                      " tyres give sideways twice as easily as up and down; sway, yaw and tramp "
                      "hang on it");
    }
  }
  notes.emplace_back(
      "small swings about the rest, standing on the tyres' contacts: no friction in joints or "
      "dampers, no damping in tyres, each damper at the mean of bump and rebound");
}

// Names that go from one end of the body to the other within a table.
std::string NoteOnNames(const std::vector<LoadedRide>& loads,
                        const std::vector<LoadedRide>& payload) {
  std::vector<NamedModes> named;
  const auto add = [&](const std::vector<LoadedRide>& rides, bool by_payload) {
    for (const LoadedRide& ride : rides) {
      if (!ride.stance || !ride.stance->modes) continue;
      const bool more = by_payload && ride.payload > 0.0;
      named.push_back({ride.name + (more ? " and payload" : ""), *ride.stance->modes});
    }
  };
  add(loads, false);
  add(payload, true);
  return NoteOnModeNames(named);
}

std::vector<std::string> RideNotes(const VehicleFile& file, const RideStudy& study) {
  std::vector<std::string> notes;
  if (!study.report.damped) notes.emplace_back("no damper has a rate, so no damping is shown");
  AddLikeness(study, notes);
  const std::string names = NoteOnNames(study.loads, study.payload);
  if (!names.empty()) notes.push_back(names);
  for (const LoadedRide& ride : study.payload) {
    if (ride.stance) continue;
    notes.push_back(fmt::format("with {} on top it finds no rest: {}",
                                FormatValue(ride.payload, Dimension::kMass, file.units),
                                ride.message));
  }
  AddAssumptions(file, study, notes);
  return notes;
}

// Which of the settled loads is the one asked about; absent where it found no rest.
std::optional<size_t> ChosenLoad(const VehicleFile& file, const Settled& settled,
                                 const std::string& name) {
  const std::string& wanted = FindLoad(file.vehicle, name).name;
  for (size_t i = 0; i < settled.loads.size(); ++i) {
    if (settled.loads[i].load == wanted) return i;
  }
  return std::nullopt;
}

int RunRide(const RideOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const Settled settled = SettleLoads(file, "");
  const std::optional<size_t> chosen = ChosenLoad(file, settled, options.load);
  for (const Refusal& refusal : settled.refusals) streams.err << FormatRefusal(file, refusal);
  if (!chosen) return kAnswerIsNo;
  const UnitSystem units = OutputUnits(options.common, file);
  const RideStudy study = StudyRide(file, settled, options, *chosen);
  const std::vector<NamedTable> tables = RideTables(file.vehicle, study, units);
  std::vector<std::string> notes = RideNotes(file, study);
  AddAssumedBushings(file, units, notes);
  const int status = HandOut({.command = "ride",
                              .head = Heading(file) + "load: " + study.load + "\n\n",
                              .tables = tables,
                              .notes = notes,
                              .cautions = Cautions(),
                              .findings = RideFindings(file.vehicle, study.load, study.report)},
                             ToTextTurning(tables, {"axles"}), file, options.common, streams);
  return settled.refusals.empty() ? status : kAnswerIsNo;
}

}  // namespace

Command RideCommand() {
  auto options = std::make_shared<RideOptions>();
  Command command{.name = "ride",
                  .help = "how it rides: frequencies, damping, wheel hop, frequency against load"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load, "under this load; by default the first");
  AddOption(command, "--payload", options->payload,
            "put up to this mass on top, in five steps; 500 kg or 1000 lb unless given");
  AddOption(command, "--at", options->at,
            "x, y and z of the payload's centre; by default over the rear axle")
      .count = 3;
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunRide(*options, streams); };
  return command;
}

}  // namespace linkwright
