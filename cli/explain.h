// SPDX-License-Identifier: MIT
// What each finding means, from its page, its harm and the key of its aim.
#pragma once

#include <string>

#include "solver/study/findings/finding.h"

namespace linkwright {

// What it means, why it matters, its aim, how to mend it, set the aim and accept it; wrapped.
[[nodiscard]] std::string Explain(FindingKind kind, size_t width);

// Every slug with its meaning, a line each, under its harm.
[[nodiscard]] std::string ListOfFindings();

// docs/findings.md: all of both.
[[nodiscard]] std::string FindingsDocument();

}  // namespace linkwright
