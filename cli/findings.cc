// SPDX-License-Identifier: MIT
#include "cli/findings.h"

#include <algorithm>

#include "io/write/finding_words.h"
#include "solver/model/error.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {

std::vector<std::string> LinesOf(const std::vector<Finding>& findings, const Vehicle& vehicle,
                                 UnitSystem units) {
  std::vector<std::string> lines;
  for (const bool past : {true, false}) {
    for (const Finding& finding : findings) {
      if (finding.past != past) continue;
      lines.push_back((past ? "look at this: " : "") + Words(finding, vehicle, units));
    }
  }
  return lines;
}

bool AnyPast(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.past; });
}

bool IsAnythingAmiss(const VehicleFile& file) {
  try {
    return AnyPast(FindAll(PrepareRig(file.vehicle), CheckVehicle(file.vehicle)).findings);
  } catch (const ModelError&) {
    return true;  // the command that needs what cannot be prepared has said so
  }
}

}  // namespace linkwright
