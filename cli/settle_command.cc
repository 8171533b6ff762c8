// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/amount.h"
#include "io/write/arm_tables.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

std::string Describe(const Contact& contact, const Axle& axle, UnitSystem units) {
  const std::string who = axle.name + " " + contact.member;
  switch (contact.kind) {
    case ContactKind::kStopTouches:
      return fmt::format("{} touches: squeezed {}, pushing {}", who,
                         ShowAmount(contact.deflection, Dimension::kLength, units),
                         ShowAmount(contact.force, Dimension::kForce, units));
    case ContactKind::kConeOffPad:
      return fmt::format(
          "{} misses its pad: its cone points {} beside the pad's centre and carries nothing", who,
          ShowAmount(contact.deflection, Dimension::kLength, units));
    case ContactKind::kCoilUnseated:
      return fmt::format("{} is off its seat by {}", who,
                         ShowAmount(contact.deflection, Dimension::kLength, units));
    case ContactKind::kWheelLifted:
      break;
  }
  return who + " is off the floor";
}

// Every arm at rest, load by load.
std::vector<ArmAtRest> ArmsOfAll(const Vehicle& vehicle, const Settled& settled) {
  std::vector<ArmAtRest> arms;
  for (const Stance& stance : settled.stances) {
    for (const size_t i : AxlesOf(vehicle)) {
      const AxleFrame& frame = settled.rig.axles[i].frame;
      for (ArmAt& arm : ArmsAt(vehicle.axles[i], frame, stance.motion[i].pose)) {
        arms.push_back({stance.load, {i, std::move(arm)}});
      }
    }
  }
  return arms;
}

// Those under the load that it stands under, else under the first that rests: from load to load
// arms differ little.
std::vector<ArmAtRest> UnderUsualLoad(const VehicleFile& file, const Settled& settled,
                                      std::vector<ArmAtRest> arms) {
  if (arms.empty()) return arms;
  const Stance* usual = RestUnder(DefaultLoad(file.vehicle), settled);
  const std::string load = usual != nullptr ? usual->load : arms.front().load;
  std::erase_if(arms, [&](const ArmAtRest& arm) { return arm.load != load; });
  return arms;
}

std::vector<std::string> PullNotesOf(const Vehicle& vehicle, const std::vector<ArmAtRest>& arms,
                                     UnitSystem units) {
  if (arms.empty()) return {};
  std::vector<ArmCheck> plain;
  for (const ArmAtRest& arm : arms) plain.push_back(arm.of);
  return PullNotes(vehicle, plain, "at rest under '" + arms.front().load + "'", units);
}

// What touches under each load.
void AddContacts(const Vehicle& vehicle, const Settled& settled, UnitSystem units, Answer& to) {
  for (const Stance& stance : settled.stances) {
    std::string told;
    for (const Contact& contact : ListContacts(settled.rig, stance)) {
      told += (told.empty() ? "" : "; ") + Describe(contact, vehicle.axles[contact.axle], units);
      to.amiss = to.amiss || contact.kind != ContactKind::kStopTouches;  // it has let go
    }
    if (told.empty()) told = "no stop touches, every coil is seated, every wheel is down";
    to.notes.push_back(stance.load + ": " + told);
  }
}

Answer AnswerSettle(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Settled settled = SettleLoads(file, PickLoads(file.vehicle, WordOf(asked, "--load")));
  const std::vector<SettledLoad> reports = ReportsOf(settled);
  const DataTable table = SettleTable(file.vehicle, reports, asked.units);
  const std::vector<ArmAtRest> arms = ArmsOfAll(file.vehicle, settled);
  const std::vector<ArmAtRest> shown = UnderUsualLoad(file, settled, arms);
  Answer answer{
      .tables = {{"stances", table}, {"arms", ArmsAtRestTable(file.vehicle, arms, asked.units)}},
      .text = reports.empty()
                  ? std::string()
                  : ToTurnedText(table) + "\n" +
                        ToFittingText("arms", ArmsAtRestTable(file.vehicle, shown, asked.units)),
      .csv_is_long = false,
      .complaint = settled.refusals,
      .exit = settled.refusals.empty() ? kDone : kAnswerIsNo};
  AddContacts(file.vehicle, settled, asked.units, answer);
  AddNotes(PullNotesOf(file.vehicle, shown, asked.units), answer);
  const std::vector<NamedModes> modes = ModesOf(reports);
  AddNotes(NotesOnModeNames(modes), answer);
  AddAssumedTires(file, answer.notes);
  AddAssumedBushings(file, asked.units, answer.notes);
  if (!modes.empty() && modes.front().modes.inertia_assumed) {
    answer.notes.emplace_back(kAssumedPitchInertia);
  }
  if (!answer.notes.empty()) *answer.text += "\n";
  return answer;
}

}  // namespace

Command SettleCommand() {
  return {.name = "settle",
          .help = "where it stands under each load",
          .options = {FileOption(), LoadOption("only this load; by default every one")},
          .answer = AnswerSettle};
}

}  // namespace linkwright
