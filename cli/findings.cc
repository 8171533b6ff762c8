// SPDX-License-Identifier: MIT
#include "cli/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "io/write/driveline_tables.h"
#include "io/write/steering_tables.h"
#include "solver/model/error.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

void AddWarningsOf(const std::vector<Finding>& findings, std::vector<Finding>& to) {
  for (const Finding& finding : findings) {
    if (finding.warning) to.push_back(finding);
  }
}

// The finished vehicle: only where its links hold it and it stands.
void AddFinished(const Vehicle& vehicle, UnitSystem units, const FindingsRequest& request,
                 FoundInFile& to) {
  const Rig rig = PrepareRig(vehicle);
  const WarningReport warnings = FindWarnings(rig, request.load, request.cures, request.limits);
  const std::vector<Finding> warned = WarningFindings(vehicle, warnings, units);
  to.findings.insert(to.findings.end(), warned.begin(), warned.end());
  if (!warnings.gaps.empty()) to.tables.push_back({"gaps", GapTable(vehicle, warnings, units)});
  const Load* load = request.load;
  if (load == nullptr && !IsGeometryOnly(vehicle)) load = &vehicle.loads.front();
  const std::optional<Standing> standing = Stand(rig, load);
  if (!standing) return;
  constexpr double kStep = 0.02;  // [m] between the places looked at
  DrivelineRequest driveline;
  driveline.load = load;
  driveline.step = kStep;
  driveline.cures = request.cures;
  AddWarningsOf(DrivelineFindings(vehicle, ReportDriveline(rig, *standing, driveline), units),
                to.findings);
  AddWarningsOf(
      SteeringFindings(vehicle, ReportSteering(rig, *standing, load, kStep, request.cures), units),
      to.findings);
}

}  // namespace

FoundInFile AllFindings(const VehicleFile& file, const CheckReport& report, UnitSystem units,
                        const FindingsRequest& request) {
  FoundInFile found{.findings = CheckFindings(file.vehicle, report, units), .tables = {}};
  try {
    AddFinished(file.vehicle, units, request, found);
  } catch (const ModelError&) {
    // Links that leave an axle free are named already; the command that needs more reports the
    // rest.
  }
  return found;
}

std::string CountFindings(const VehicleFile& file, const LimitsReport* limits) {
  const FoundInFile found = AllFindings(file, CheckVehicle(file.vehicle), file.units,
                                        {.load = nullptr, .cures = false, .limits = limits});
  const auto count = std::count_if(found.findings.begin(), found.findings.end(),
                                   [](const Finding& finding) { return finding.warning; });
  if (count == 0) return {};
  return fmt::format("{}{} {} in the file may be wrong; linkwright check {} names {}", kLookAtThis,
                     count, count == 1 ? "thing" : "things", file.path, count == 1 ? "it" : "them");
}

}  // namespace linkwright
