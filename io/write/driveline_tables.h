// SPDX-License-Identifier: MIT
// What `driveline` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/driveline/driveline.h"
#include "solver/study/driveline/shaft_order.h"

namespace linkwright {

// For each shaft NAME: "NAME slopes", "NAME joints", "NAME travel", and where there is something to
// show "NAME speed", "NAME turn", "NAME torque"; of all "order".
//   orders   over every load that is asked for; none: of the reports alone
[[nodiscard]] std::vector<NamedTable> DrivelineTables(const Vehicle& vehicle,
                                                      const std::vector<ShaftReport>& reports,
                                                      UnitSystem units,
                                                      const std::vector<ShaftOrder>& orders = {});

// Good or bad, why, and what to turn: a warning where a limit is passed.
[[nodiscard]] std::vector<std::string> DrivelineNotes(const Vehicle& vehicle,
                                                      const std::vector<ShaftReport>& reports,
                                                      UnitSystem units);

}  // namespace linkwright
