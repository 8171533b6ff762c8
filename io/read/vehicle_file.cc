// SPDX-License-Identifier: MIT
#include "io/read/vehicle_file.h"

#include <filesystem>
#include <utility>

#include "io/read/check.h"
#include "io/read/parts.h"
#include "io/read/report.h"
#include "io/read/validate.h"
#include "io/read/variant.h"
#include "solver/model/moves.h"
#include "solver/pose/fit_links.h"

namespace linkwright {
namespace {

// Validates every stage: what a variant is held against has to be sound by itself. Of the errors
// those of the file named come first; a base's alone are told where it has none.
bool ValidateStages(LoadedDocument& document, Report& report) {
  Validate(document.stages.back().root, "vehicle", report);
  for (std::size_t k = 0; k + 1 < document.stages.size() && report.errors.empty(); ++k) {
    Validate(document.stages[k].root, "vehicle", report);
  }
  return report.errors.empty();
}

// Where an axle's arms hold its housing, against where it was measured.
Eigen::Isometry3d MovedBy(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  const FittedPose fitted = MeasuredPose(axle, frame);
  return fitted.pose ? Transform(*fitted.pose) * frame.X_CA.inverse(Eigen::Isometry)
                     : Eigen::Isometry3d::Identity();
}

}  // namespace

VehicleFile ReadVehicleFile(const std::string& path) {
  Report report;
  std::optional<LoadedDocument> document = LoadDocument(path, report);
  VehicleFile file;
  std::optional<ModelError> impossible;
  HousingMoved moved{Eigen::Isometry3d::Identity(), Eigen::Isometry3d::Identity()};
  if (document) {
    const Node& root = document->stages.back().root;
    if (ValidateStages(*document, report)) {
      try {
        file.vehicle = BuildFromStages(document->stages, report);
        for (const std::size_t i : AxlesOf(file.vehicle)) moved[i] = MovedBy(file.vehicle.axles[i]);
      } catch (const ModelError& error) {
        impossible = error;
      }
    }
    CheckVehicle(root, moved, report);
    file.places = BuildSourceMap(root, report);
  }
  ThrowIfAny(report);
  if (file.vehicle.title.empty()) {
    file.vehicle.title = std::filesystem::path(path).stem().string();
  }
  file.units = document->units;
  file.path = path;
  for (const SourceText& source : report.sources) file.inputs.push_back(source.file);
  if (impossible) throw Locate(file, *impossible);
  SeatOnSpacers(file.vehicle);  // under coils that have their lengths
  return file;
}

InputErrors Locate(const VehicleFile& file, const ModelError& error) {
  std::string message = error.what();
  const std::size_t place = message.find("{}");
  if (error.length && place != std::string::npos) {
    message.replace(place, 2, FormatValue(*error.length, Dimension::kLength, file.units));
  }
  const SourceEntry* source = FindSource(file.places, error.part);
  if (source == nullptr) return InputErrors({{{file.path, 0, 0}, "", message, {}}});
  return InputErrors({{source->place, source->path, message, {source->excerpt}}});
}

}  // namespace linkwright
