// SPDX-License-Identifier: MIT
// What cannot be although every value by itself could: an axle seat above its chassis seat, a
// damper shorter than its shortest. Runs on a document that Validate has been over, and keeps
// silent about values that were refused there.
#pragma once

#include <string_view>

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/read/values.h"

namespace linkwright {

// All of the checks below.
void CheckVehicle(const Node& root, Report& report);

// Links, springs, bump stops, dampers and the drag link of one axle.
//   vehicle   the whole document
//   axle      "axles.front" or "axles.rear"
void CheckMembers(const Part& vehicle, const Part& axle, Report& report);

// A-arms, radius arms and Watt's links of one axle.
void CheckArms(const Part& axle, Report& report);

// The leaf springs of the vehicle a body came from.
void CheckLeafOriginal(const Part& vehicle, Report& report);

// Ledger, sprung and unsprung masses.
void CheckMasses(const Part& vehicle, Report& report);

// No mass below the floor, nor the centre of what they come to.
//   floor   z of it in the file's datum [m]
void CheckHeights(const Part& vehicle, double floor, Report& report);

// An error at the value under `key` of a part, or at the part itself where the key is absent.
void AddErrorAt(Report& report, const Part& part, std::string_view key, std::string message);

// A length in the units that a node of the file is in.
[[nodiscard]] std::string Show(double length, const Node& node);

}  // namespace linkwright
