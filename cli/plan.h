// SPDX-License-Identifier: MIT
// --write: the plan that a command advises, left as a variant of the file it was asked about.
#pragma once

#include <string>

#include "cli/answer.h"
#include "cli/options.h"
#include "io/write/plans.h"

namespace linkwright {

[[nodiscard]] Option WriteOption();

// What plans are made for; refers to the file that was asked about.
[[nodiscard]] PlanFor PlanForFile(const Question& asked, const Load* load);

// Leaves a plan to be written, where --write asks for it; or, where there is nothing in it, the
// refusal.
void Leave(const Plan& plan, const Question& asked, Answer& answer);

}  // namespace linkwright
