// SPDX-License-Identifier: MIT
// From a document without errors to the vehicle.
#pragma once

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/read/source_map.h"
#include "solver/model/vehicle.h"

namespace linkwright {

// Needs a document that Validate and CheckVehicle find nothing wrong with.
[[nodiscard]] Vehicle BuildVehicle(const Node& root);

// One axle of it; `name` is "front" or "rear".
[[nodiscard]] Axle BuildAxle(const Node& root, std::string_view name);

// Its A-arms, radius arms and Watt's links.
void BuildLocating(const Node& node, Axle& axle);

// The leaf springs of the vehicle a body came from.
[[nodiscard]] LeafOriginal BuildLeafOriginal(const Node& node);

// {item, mass, at} of a ledger or load.
[[nodiscard]] Mass BuildMass(const Node& item);

// The places of everything in the document.
[[nodiscard]] SourceMap BuildSourceMap(const Node& root, const Report& report);

}  // namespace linkwright
