// SPDX-License-Identifier: MIT
// Findings that the file accepts: left out of what is told, and counted.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "solver/study/findings/finding.h"

namespace linkwright {

// The kind with this slug; absent: there is none.
[[nodiscard]] std::optional<FindingKind> KindOf(std::string_view slug);

// What an acceptance names: "coil-preload rear coil left" is "coil-preload" and "rear coil left".
struct AcceptedName {
  std::string_view slug, member;  // no member: every one
};
[[nodiscard]] AcceptedName SplitName(std::string_view of);

// Whether it is of this finding: of its kind and, where it names a member, about that or its twin
// on the other side (both sides are one finding). A member is named as findings name it (NameOf),
// with or without its axle, or by its axle alone.
[[nodiscard]] bool Accepts(const Acceptance& acceptance, const Finding& finding,
                           const Vehicle& vehicle);

struct AcceptedFinding {
  Finding finding;
  Acceptance by;
};

// Takes out what the vehicle's file accepts of what is past its aim, in order.
[[nodiscard]] std::vector<AcceptedFinding> TakeAccepted(const Vehicle& vehicle,
                                                        std::vector<Finding>& findings);

// Acceptances that silence none of these, as findings; those of kinds that other commands than
// `check` judge are passed over.
[[nodiscard]] std::vector<Finding> IdleAcceptances(const Vehicle& vehicle,
                                                   const std::vector<AcceptedFinding>& accepted);

}  // namespace linkwright
