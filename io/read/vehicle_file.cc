// SPDX-License-Identifier: MIT
#include "io/read/vehicle_file.h"

#include <filesystem>
#include <utility>

#include "io/read/check.h"
#include "io/read/keys_of.h"
#include "io/read/report.h"
#include "io/read/validate.h"
#include "io/read/variant.h"
#include "solver/model/moves.h"
#include "solver/rest/weighed.h"

namespace linkwright {

VehicleFile ReadVehicleFile(const std::string& path) {
  Report report;
  std::optional<LoadedDocument> document = LoadDocument(path, report);
  if (document) {
    Validate(document->root, "vehicle", report);
    CheckVehicle(document->root, report);
  }
  ThrowIfAny(report);

  VehicleFile file;
  file.vehicle = Build<Vehicle>(document->root);
  if (file.vehicle.title.empty()) {
    file.vehicle.title = std::filesystem::path(path).stem().string();
  }
  file.units = document->units;
  file.path = path;
  for (const SourceText& source : report.sources) file.inputs.push_back(source.file);
  file.places = BuildSourceMap(document->root, report);
  try {
    ResolveWeighedLengths(file.vehicle);
    SeatOnSpacers(file.vehicle);  // under coils that have their lengths
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
  return file;
}

InputErrors Locate(const VehicleFile& file, const ModelError& error) {
  const SourceEntry* source = FindSource(file.places, error.part);
  if (source == nullptr) return InputErrors({{{file.path, 0, 0}, "", error.what(), {}}});
  return InputErrors({{source->place, source->path, error.what(), {source->excerpt}}});
}

}  // namespace linkwright
