// SPDX-License-Identifier: MIT
// What each command advises first, as a plan. One without anything to carry out says why in its
// only sentence.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "io/write/openings_tables.h"
#include "io/write/plan_file.h"
#include "solver/study/driveline/driveline.h"
#include "solver/study/steering/steering_report.h"
#include "solver/study/travel/travel_parts.h"

namespace linkwright {

// What a plan is made for.
struct PlanFor {
  const Vehicle* vehicle;
  UnitSystem units;  // of the file it is a variant of
  const Load* load;  // it was asked under; null: geometry only
  // Whether something stands in the file: {"axles", "rear", "straps"}.
  std::function<bool(const std::vector<std::string>& part)> has;
  bool every_load = false;  // its parts are for every load of the file
};

// The first plan that centres the wheels: the chassis cut or stretched, the body set elsewhere.
[[nodiscard]] Plan PlanOfOpenings(const PlanFor& is, const OpeningsAnswer& answer);

// Heights of stops, lengths of straps, damper tabs. A pair takes of its two members the lower stop
// and the longer strap, so that the travel wanted is had, and the middle of both tabs.
[[nodiscard]] Plan PlanOfLimits(const PlanFor& is, const PartsAdvice& advice);

// Of each shaft that has one the first link to turn, else the turn of its pinion on the housing.
[[nodiscard]] Plan PlanOfDriveline(const PlanFor& is, const std::vector<ShaftReport>& reports);

// The track bar set beside the drag link where it is past an aim, else the length that centres an
// axle.
[[nodiscard]] Plan PlanOfSteering(const PlanFor& is, const SteeringReport& report);

}  // namespace linkwright
