// SPDX-License-Identifier: MIT
// The vehicle file: YAML in, Vehicle out. docs/vehicle-file.md is its reference.
#pragma once

#include <string>
#include <vector>

#include "io/read/input_error.h"
#include "io/read/source_map.h"
#include "io/units.h"
#include "solver/model/error.h"
#include "solver/model/vehicle.h"

namespace linkwright {

struct VehicleFile {
  Vehicle vehicle;                         // SI
  UnitSystem units = UnitSystem::kMetric;  // of the file that was named, else of its base
  std::string path;                        // as given
  std::vector<std::string> inputs;         // every file read, the named one first
  SourceMap places;
};

// Reads a vehicle file or a variant of one.
//   path      a YAML file; a variant's base is found beside the variant
//   errors    InputErrors with every error of the file, sorted by place
[[nodiscard]] VehicleFile ReadVehicleFile(const std::string& path);

// The solver's complaint as an error at the line of the part it names.
[[nodiscard]] InputErrors Locate(const VehicleFile& file, const ModelError& error);

}  // namespace linkwright
