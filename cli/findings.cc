// SPDX-License-Identifier: MIT
#include "cli/findings.h"

#include <fmt/format.h>

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
void AddFinished(const Vehicle& vehicle, UnitSystem units, bool cures, std::vector<Finding>& to) {
  const Rig rig = PrepareRig(vehicle);
  const std::vector<Finding> warned = WarningFindings(vehicle, FindWarnings(rig), units);
  to.insert(to.end(), warned.begin(), warned.end());
  const Load* load = IsGeometryOnly(vehicle) ? nullptr : &vehicle.loads.front();
  const std::optional<Standing> standing = Stand(rig, load);
  if (!standing) return;
  constexpr double kStep = 0.02;  // [m] between the places looked at
  DrivelineRequest request;
  request.load = load;
  request.step = kStep;
  request.cures = cures;
  AddWarningsOf(DrivelineFindings(vehicle, ReportDriveline(rig, *standing, request), units), to);
  AddWarningsOf(
      SteeringFindings(vehicle, ReportSteering(rig, *standing, load, kStep, cures), units), to);
}

}  // namespace

std::vector<Finding> AllFindings(const VehicleFile& file, const CheckReport& report,
                                 UnitSystem units, bool cures) {
  std::vector<Finding> findings = CheckFindings(file.vehicle, report, units);
  try {
    AddFinished(file.vehicle, units, cures, findings);
  } catch (const ModelError&) {
    // Links that leave an axle free are named already; the command that needs more reports the
    // rest.
  }
  return findings;
}

std::string CountFindings(const VehicleFile& file) {
  long count = 0;
  for (const Finding& finding : AllFindings(file, CheckVehicle(file.vehicle), file.units, false)) {
    if (finding.warning) ++count;
  }
  if (count == 0) return {};
  return fmt::format("{}{} {} in the file may be wrong; linkwright check {} names {}", kLookAtThis,
                     count, count == 1 ? "thing" : "things", file.path, count == 1 ? "it" : "them");
}

}  // namespace linkwright
