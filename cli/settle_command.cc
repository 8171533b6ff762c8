// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/settled.h"
#include "io/write/arm_tables.h"
#include "io/write/settle_words.h"
#include "solver/study/findings/standing_findings.h"

namespace linkwright {
namespace {

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

// Every load asked about with what touches under it, told in the notes; the answer in sentences.
void AddLoads(const Vehicle& vehicle, const std::vector<const Load*>& loads, const Settled& settled,
              const std::vector<SettledLoad>& reports, UnitSystem units, Answer& to) {
  std::vector<LoadTold> all;
  for (const Load* load : loads) {
    LoadTold& told = all.emplace_back(LoadTold{load->name, nullptr, {}});
    const Stance* stance = RestUnder(*load, settled);
    if (stance == nullptr) continue;
    for (const SettledLoad& each : reports) {
      if (each.load == load->name) told.report = &each.report;
    }
    told.contacts = ListContacts(settled.rig, *stance);
    std::string words;
    for (const Contact& contact : told.contacts) {
      words += (words.empty() ? "" : "; ") + ContactWords(vehicle, contact, units);
      to.amiss = to.amiss || contact.kind != ContactKind::kStopTouches;  // it has let go
    }
    if (words.empty()) words = "no stop touches, every coil is seated, every wheel is down";
    to.notes.push_back(load->name + ": " + words);
  }
  to.said = SettleSentences(vehicle, all, units);
}

// What a vehicle is pointed at for as it rests; how it looks there is the answer itself.
std::vector<Finding> FindingsOf(const Settled& settled) {
  std::vector<Finding> findings;
  for (const Stance& stance : settled.stances) {
    for (Finding& finding : RestFindings(settled.rig, stance)) {
      if (finding.past && TraitOf(finding.kind).harm != Harm::kLooksWrong) {
        findings.push_back(std::move(finding));
      }
    }
  }
  KeepWorst(findings);
  return findings;
}

Answer AnswerSettle(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const std::vector<const Load*> loads = PickLoads(file.vehicle, WordOf(asked, "--load"));
  const Settled settled = SettleLoads(file, loads);
  const std::vector<SettledLoad> reports = ReportsOf(settled);
  const DataTable table = SettleTable(file.vehicle, reports, asked.units);
  const std::vector<ArmAtRest> arms = ArmsOfAll(file.vehicle, settled);
  const std::vector<ArmAtRest> usual = UnderUsualLoad(file, settled, arms);
  Answer answer{
      .tables = {{"stances", table}, {"arms", ArmsAtRestTable(file.vehicle, arms, asked.units)}},
      .glance = {SettleGlance(table)},
      .first_is_main = true,
      .complaint = settled.refusals,
      .exit = settled.refusals.empty() ? kDone : kAnswerIsNo};
  AddLoads(file.vehicle, loads, settled, reports, asked.units, answer);
  AddNotes(PullNotesOf(file.vehicle, usual, asked.units), answer);
  answer.findings = FindingsOf(settled);
  const std::vector<NamedModes> modes = ModesOf(reports);
  AddNotes(NotesOnModeNames(modes), answer);
  AddAssumedTires(file, answer.notes);
  AddAssumedBushings(file, asked.units, answer.notes);
  if (!modes.empty() && modes.front().modes.inertia_assumed) {
    answer.notes.emplace_back(kAssumedPitchInertia);
  }
  return answer;
}

}  // namespace

Command SettleCommand() {
  return {.name = "settle",
          .help = "where it stands under each load",
          .asks = "Where does it stand under each load?",
          .example = "harbour_van.yaml",
          .options = {FileOption(), LoadOption("only this load; by default every one")},
          .answer = AnswerSettle};
}

}  // namespace linkwright
