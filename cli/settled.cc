// SPDX-License-Identifier: MIT
#include "cli/settled.h"

#include <fmt/format.h>

#include "cli/question.h"
#include "solver/model/error.h"
#include "solver/rest/settle.h"

namespace linkwright {

std::vector<const Load*> PickLoads(const Vehicle& vehicle, const std::string& name) {
  if (!name.empty()) return {&FindLoad(vehicle, name)};
  std::vector<const Load*> all;
  for (const Load& load : vehicle.loads) all.push_back(&load);
  return all;
}

Settled SettledOf(const VehicleFile& file, const Rig& rig, const std::vector<Stance>& stances) {
  Settled settled{.rig = rig, .stances = {}, .refusals = {}};
  for (const Stance& stance : stances) {
    if (stance.status == StanceStatus::kRests) {
      settled.stances.push_back(stance);
      continue;
    }
    const ModelError refusal({"loads", stance.load}, "no resting position: " + stance.message);
    settled.refusals += Locate(file, refusal).what();
  }
  return settled;
}

Settled SettleLoads(const VehicleFile& file, const std::vector<const Load*>& loads) {
  const Rig rig = PrepareRig(file.vehicle);
  std::vector<Stance> stances;
  for (const Load* load : loads) stances.push_back(Settle(rig, *load));
  return SettledOf(file, rig, stances);
}

const Stance* RestUnder(const Load& load, const Settled& settled) {
  for (const Stance& stance : settled.stances) {
    if (stance.load == load.name) return &stance;
  }
  return nullptr;
}

std::vector<SettledLoad> ReportsOf(const Settled& settled) {
  std::vector<SettledLoad> reports;
  for (const Stance& stance : settled.stances) {
    reports.push_back({stance.load, ReportStance(settled.rig, stance)});
  }
  return reports;
}

std::vector<NamedModes> ModesOf(const std::vector<SettledLoad>& reports) {
  std::vector<NamedModes> named;
  for (const SettledLoad& each : reports) {
    if (each.report.modes) named.push_back({each.load, *each.report.modes});
  }
  return named;
}

std::vector<std::string> NotesOnModeNames(const std::vector<NamedModes>& named) {
  // Z/theta of the bounce, nose up: above 0 the front end moves most.
  const NamedModes *front = nullptr, *rear = nullptr;
  for (const NamedModes& each : named) {
    const NamedModes*& end = each.modes.bounce_node > 0.0 ? front : rear;
    if (end == nullptr) end = &each;
  }
  if (front == nullptr || rear == nullptr) return {};
  return {fmt::format(
      "bounce is the front end's motion under '{}' and the rear end's under '{}': by its "
      "definition "
      "it is the one that moves the centre of mass more per degree of pitch, so bounce and pitch "
      "change places between loads; follow each end by its ride frequency",
      front->name, rear->name)};
}

}  // namespace linkwright
