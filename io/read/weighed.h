// SPDX-License-Identifier: MIT
// `free_length: weighed`: what a file must give for it. The length itself is the solver's
// (solver/rest/weighed.h).
#pragma once

#include "io/read/report.h"
#include "io/read/values.h"

namespace linkwright {

// Reports what a spring with `free_length: weighed` lacks: a ledger, a rate, its pair, being the
// only spring of its axle, a load to carry. Says nothing about other springs.
void CheckWeighed(const Part& vehicle, const Part& axle, const Part& spring, Report& report);

}  // namespace linkwright
