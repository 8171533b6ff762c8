// SPDX-License-Identifier: MIT
// What `openings` found, as tables and as sentences.
#pragma once

#include "io/write/json.h"
#include "solver/study/openings/after_plan.h"
#include "solver/study/openings/centring.h"
#include "solver/study/openings/openings.h"

namespace linkwright {

// Everything the command worked out. Plans and hangings are empty where an opening is missing.
struct OpeningsAnswer {
  OpeningsReport report;
  std::vector<CentringPlan> plans;       // as asked first, then with the body alone
  std::vector<Hanging> hanging;          // as it is
  std::vector<Hanging> hanging_moved;    // with the first plan carried out
  std::optional<AfterPlan> after = {};   // the same; absent where there is nothing to carry out
  std::vector<FirstTouch> touches = {};  // as it is
  std::string under = "at rest";         // "under 'crates'", what it is about
  std::vector<BodyTrim> trims = {};      // after the plan, where there is one, else as it is
};

// "in their openings at rest", "after the plan", "trim", "least clearance", "clearance by motion",
// "swept", "centring", "shafts then", "least clearance then", "clearance by motion then", "on
// stands"; those that have rows.
[[nodiscard]] std::vector<NamedTable> OpeningsTables(const Vehicle& vehicle,
                                                     const OpeningsAnswer& answer,
                                                     UnitSystem units);

// What the plan says, and what the file does not allow to be told.
[[nodiscard]] std::vector<std::string> OpeningsNotes(const Vehicle& vehicle,
                                                     const OpeningsAnswer& answer,
                                                     UnitSystem units);

}  // namespace linkwright
