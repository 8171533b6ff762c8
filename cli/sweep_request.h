// SPDX-License-Identifier: MIT
// The part of the command line that `sweep` and `compare` share: which load, motion and travels.
#pragma once

#include <optional>

#include "cli/command.h"
#include "cli/settled.h"
#include "solver/study/curves/motions.h"

namespace linkwright {

struct SweepRequest {
  std::string load;  // empty: the first
  std::string motion = "bounce";
  std::string wheel;                   // of one-wheel
  std::string axle;                    // alone; empty: both
  std::string from, to, step;          // values as typed; empty: not given
  std::optional<UnitSystem> typed_in;  // of plain numbers among them; absent: the file's own
};

void AddSweepRequest(Command& command, SweepRequest& request);

// The rows and the notes under them; or the load under which there are none because the vehicle
// finds no rest.
struct Swept {
  std::optional<DataTable> table;
  std::vector<std::string> notes;
  std::optional<Refusal> refusal;
  bool cut_short = false;      // rows end before what was asked for
  const Load* load = nullptr;  // null: geometry only
};

// Settles under the request's load (not a geometry-only file) and sweeps.
//   units    of the table
//   errors   InputErrors, UsageError
[[nodiscard]] Swept RunSweepRequest(const VehicleFile& file, const SweepRequest& request,
                                    UnitSystem units);

}  // namespace linkwright
