// SPDX-License-Identifier: MIT
// From a document without errors to the vehicle. What a key says alone is read by its line in the
// tables (io/read/format_*.cc); here stands the rest: mirror images, rates from wire, what depends
// on other keys.
#pragma once

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/read/source_map.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// Needs a document that Validate and CheckVehicle find nothing wrong with.
[[nodiscard]] Vehicle BuildVehicle(const Node& root);

// Called once every key of the map has been read; see Table::complete.
void Complete(const Node& map, AArm& arm);
void Complete(const Node& map, Axle& axle);
void Complete(const Node& map, Driveshaft& shaft);
void Complete(const Node& map, Opening& opening);
void Complete(const Node& map, Spring& spring);
void Complete(const Node& map, TieRod& rod);
void Complete(const Node& map, Vehicle& vehicle);
void Complete(const Node& map, WattsLink& watt);

// The places of everything in the document.
[[nodiscard]] SourceMap BuildSourceMap(const Node& root, const Report& report);

}  // namespace linkwright
