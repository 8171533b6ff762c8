// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/amount.h"
#include "io/write/ride_tables.h"
#include "solver/study/findings/ride_findings.h"

namespace linkwright {
namespace {

constexpr int kPayloadSteps = 5;

// Over the rear axle at the height of the sprung centre of mass, unless asked for elsewhere.
Eigen::Vector3d PayloadPlace(const Vehicle& vehicle, const std::vector<double>& at,
                             const Stance& stance) {
  if (!at.empty()) return {at[0], at[1], at[2]};
  const Axle& rear = vehicle.axles[kRear];
  return {0.5 * (rear.p_CW_l.x() + rear.p_CW_r.x()), 0.0, stance.sprung.p_CM.z()};
}

RideStudy StudyRide(const Question& asked, const Load& load, const Settled& settled,
                    const Stance& stance) {
  const VehicleFile& file = asked.files.front();
  const std::vector<double> at = AmountsOf(asked, "--at");
  RideStudy study;
  study.load = stance.load;
  study.sprung_mass = stance.sprung.mass;
  study.payload_at = PayloadPlace(file.vehicle, at, stance);
  study.payload_placed = !at.empty();
  study.report = ReportRide(settled.rig, stance);
  for (const SettledLoad& each : ReportsOf(settled)) {
    study.loads.push_back(
        {.name = each.load, .payload = 0.0, .stance = each.report, .message = {}});
  }
  const double most = AmountOf(asked, "--payload")
                          .value_or(RoundAmount(500.0, 1000.0, Dimension::kMass, file.units));
  study.payload = RideOverPayload(settled.rig, load, most, kPayloadSteps, study.payload_at);
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
  if (inertias.pitch_guessed) notes.emplace_back(kAssumedPitchInertia);
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
std::vector<std::string> NotesOnNames(const RideStudy& study) {
  std::vector<NamedModes> named;
  for (const std::vector<LoadedRide>* rides : {&study.loads, &study.payload}) {
    for (const LoadedRide& ride : *rides) {
      if (!ride.stance || !ride.stance->modes) continue;
      const char* more = ride.payload > 0.0 ? " and payload" : "";
      named.push_back({ride.name + more, *ride.stance->modes});
    }
  }
  return NotesOnModeNames(named);
}

void AddRideNotes(const VehicleFile& file, const RideStudy& study, Answer& to) {
  std::vector<std::string>& notes = to.notes;
  if (!study.report.damped) notes.emplace_back("no damper has a rate, so no damping is shown");
  AddLikeness(study, notes);
  AddNotes(NotesOnNames(study), to);
  for (const LoadedRide& ride : study.payload) {
    if (ride.stance) continue;
    notes.push_back(fmt::format("with {} on top it finds no rest: {}",
                                FormatValue(ride.payload, Dimension::kMass, file.units),
                                ride.message));
  }
  AddAssumptions(file, study, notes);
}

Answer AnswerRide(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Settled settled = SettleLoads(file, PickLoads(file.vehicle, ""));
  const Load& load = FindLoad(file.vehicle, WordOf(asked, "--load"));
  const Stance* stance = RestUnder(load, settled);
  if (stance == nullptr) throw NoRest(settled.refusals);
  const RideStudy study = StudyRide(asked, load, settled, *stance);
  Answer answer{.about = LoadLine(&load),
                .said = RideAnswer(file.vehicle, study, asked.units),
                .tables = RideTables(file.vehicle, study, asked.units),
                .shown = {"modes", "loads"},
                .findings = RideFindings(file.vehicle, study.load, study.report),
                .complaint = settled.refusals,
                .exit = settled.refusals.empty() ? kDone : kAnswerIsNo};
  AddRideNotes(file, study, answer);
  AddAssumedBushings(file, asked.units, answer.notes);
  return answer;
}

}  // namespace

Command RideCommand() {
  return {.name = "ride",
          .help = "how it rides: frequencies, damping, wheel hop, frequency against load",
          .asks = "How does it ride at each load: frequencies, damping, wheel hop?",
          .example = "harbour_van.yaml",
          .options = {FileOption(),
                      LoadOption("under this load; by default the first"),
                      {.name = "--payload",
                       .help = "put up to this mass on top, in five steps; 500 kg or 1000 lb "
                               "unless given",
                       .amounts = {FindKey("item", "mass")}},
                      {.name = "--at",
                       .help = "x, y and z of the payload's centre; by default over the rear axle",
                       .amounts = {AmountKey(Dimension::kLength)},
                       .count = 3}},
          .answer = AnswerRide};
}

}  // namespace linkwright
