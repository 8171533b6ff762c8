// SPDX-License-Identifier: MIT
// A vehicle file settled under its loads: what `settle`, `compare`, `roll` and `ride` begin with.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "io/read/vehicle_file.h"
#include "io/write/settle_columns.h"

namespace linkwright {

// The vehicle finds no rest, and nothing can be answered: exit 1. what() is ready to print.
struct NoRest : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Settled {
  Rig rig;                      // refers to the file's vehicle
  std::vector<Stance> stances;  // those at rest
  // Of loads without one, ready to print: "file:line:column: loads.crates: no resting position:
  // ..."
  std::string refusals;
};

// The named load, or every one for an empty name. errors: UsageError
[[nodiscard]] std::vector<const Load*> PickLoads(const Vehicle& vehicle, const std::string& name);

// Of loads that have been settled: those at rest, and the refusals of the others.
[[nodiscard]] Settled SettledOf(const VehicleFile& file, const Rig& rig,
                                const std::vector<Stance>& stances);

// errors: ModelError where the solver refuses the vehicle or it has no mass
[[nodiscard]] Settled SettleLoads(const VehicleFile& file, const std::vector<const Load*>& loads);

// Its rest; null where it found none.
[[nodiscard]] const Stance* RestUnder(const Load& load, const Settled& settled);

[[nodiscard]] std::vector<SettledLoad> ReportsOf(const Settled& settled);

// What is called bounce and pitch under something.
struct NamedModes {
  std::string name;
  BodyModes modes;
};

// Of the settled loads that have any.
[[nodiscard]] std::vector<NamedModes> ModesOf(const std::vector<SettledLoad>& reports);

// Where bounce is the motion of the front end in one of them and of the rear end in another: by its
// definition it is whichever moves the centre more, so the name changes ends and the frequencies
// seem to jump. No note where it does not.
[[nodiscard]] std::vector<std::string> NotesOnModeNames(const std::vector<NamedModes>& named);

}  // namespace linkwright
