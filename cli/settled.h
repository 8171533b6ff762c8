// SPDX-License-Identifier: MIT
// A vehicle file settled under its loads: what `settle`, `sweep` and `compare` begin with.
#pragma once

#include "io/read/vehicle_file.h"
#include "io/write/settle_columns.h"

namespace linkwright {

// A load under which the vehicle finds no rest.
struct Refusal {
  std::string load;
  std::string message;
};

struct Settled {
  Rig rig;                         // refers to the file's vehicle
  std::vector<Stance> stances;     // those at rest
  std::vector<SettledLoad> loads;  // their reports, in the same order
  std::vector<Refusal> refusals;
};

// Prepares the rig. errors: InputErrors where the solver refuses the vehicle.
[[nodiscard]] Rig PrepareFor(const VehicleFile& file);

// Settles the named load, or every one for an empty name.
//   errors   InputErrors where the solver refuses the vehicle or it has no mass; UsageError
[[nodiscard]] Settled SettleLoads(const VehicleFile& file, const std::string& load);

// What is called bounce and pitch under something.
struct NamedModes {
  std::string name;
  BodyModes modes;
};

// Where bounce is the motion of the front end in one of them and of the rear end in another: by its
// definition it is whichever moves the centre more, so the name changes ends and the frequencies
// seem to jump. Empty where it does not.
[[nodiscard]] std::string NoteOnModeNames(const std::vector<NamedModes>& named);

// What touches under each load, and what was assumed.
[[nodiscard]] std::vector<std::string> SettleNotes(const VehicleFile& file, const Settled& settled,
                                                   UnitSystem units);

// Whether a coil is off its seat or a wheel off the floor under any load: what --strict refuses.
[[nodiscard]] bool HasLetGo(const Settled& settled);

// "file:line:column: loads.crates: no resting position: ...", ready to print.
[[nodiscard]] std::string FormatRefusal(const VehicleFile& file, const Refusal& refusal);

}  // namespace linkwright
