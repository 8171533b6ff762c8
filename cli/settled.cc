// SPDX-License-Identifier: MIT
#include "cli/settled.h"

#include <fmt/format.h>

#include "cli/assumed.h"
#include "cli/command.h"
#include "io/write/amount.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"

namespace linkwright {
namespace {

std::string Describe(const Contact& contact, const Axle& axle, UnitSystem units) {
  const std::string who = axle.name + " " + contact.member;
  switch (contact.kind) {
    case ContactKind::kStopTouches:
      return fmt::format("{} touches: squeezed {}, pushing {}", who,
                         ShowAmount(contact.deflection, Dimension::kLength, units),
                         ShowAmount(contact.force, Dimension::kForce, units));
    case ContactKind::kCoilUnseated:
      return fmt::format("{} is off its seat by {}", who,
                         ShowAmount(contact.deflection, Dimension::kLength, units));
    case ContactKind::kWheelLifted:
      break;
  }
  return who + " is off the floor";
}

}  // namespace

Rig PrepareFor(const VehicleFile& file) {
  try {
    return PrepareRig(file.vehicle);
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

Settled SettleLoads(const VehicleFile& file, const std::string& load) {
  Settled settled{.rig = PrepareFor(file), .stances = {}, .loads = {}, .refusals = {}};
  std::vector<const Load*> picked;
  if (load.empty()) {
    for (const Load& each : file.vehicle.loads) picked.push_back(&each);
  } else {
    picked.push_back(&FindLoad(file.vehicle, load));
  }
  try {
    for (const Load* each : picked) {
      Stance stance = Settle(settled.rig, *each);
      if (stance.status != StanceStatus::kRests) {
        settled.refusals.push_back({each->name, stance.message});
        continue;
      }
      settled.loads.push_back({each->name, ReportStance(settled.rig, stance)});
      settled.stances.push_back(std::move(stance));
    }
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
  return settled;
}

std::string NoteOnModeNames(const std::vector<NamedModes>& named) {
  // Z/theta of the bounce, nose up: above 0 the front end moves most.
  const NamedModes *front = nullptr, *rear = nullptr;
  for (const NamedModes& each : named) {
    const NamedModes*& end = each.modes.bounce_node > 0.0 ? front : rear;
    if (end == nullptr) end = &each;
  }
  if (front == nullptr || rear == nullptr) return {};
  return fmt::format(
      "bounce is the front end's motion under '{}' and the rear end's under '{}': by its "
      "definition "
      "it is the one that moves the centre of mass more per degree of pitch, so bounce and pitch "
      "change places between loads; follow each end by its ride frequency",
      front->name, rear->name);
}

std::vector<std::string> SettleNotes(const VehicleFile& file, const Settled& settled,
                                     UnitSystem units) {
  std::vector<std::string> notes;
  for (size_t i = 0; i < settled.stances.size(); ++i) {
    const std::vector<Contact> contacts = ListContacts(settled.rig, settled.stances[i]);
    std::string note = settled.loads[i].load + ": ";
    for (size_t c = 0; c < contacts.size(); ++c) {
      note +=
          (c > 0 ? "; " : "") + Describe(contacts[c], file.vehicle.axles[contacts[c].axle], units);
    }
    if (contacts.empty()) note += "no stop touches, every coil is seated, every wheel is down";
    notes.push_back(note);
  }
  std::vector<NamedModes> named;
  for (const SettledLoad& each : settled.loads) {
    if (each.report.modes) named.push_back({each.load, *each.report.modes});
  }
  const std::string names = NoteOnModeNames(named);
  if (!names.empty()) notes.push_back(names);
  AddAssumedTires(file, notes);
  AddAssumedBushings(file, units, notes);
  if (!settled.loads.empty() && settled.loads.front().report.modes &&
      settled.loads.front().report.modes->inertia_assumed) {
    notes.emplace_back(
        "assumed: no pitch inertia is given, so bounce and pitch take a dynamic index of 1");
  }
  return notes;
}

bool HasLetGo(const Settled& settled) {
  for (const Stance& stance : settled.stances) {
    for (const Contact& contact : ListContacts(settled.rig, stance)) {
      if (contact.kind != ContactKind::kStopTouches) return true;
    }
  }
  return false;
}

std::string FormatRefusal(const VehicleFile& file, const Refusal& refusal) {
  return Locate(file,
                ModelError({"loads", refusal.load}, "no resting position: " + refusal.message))
      .what();
}

}  // namespace linkwright
