// SPDX-License-Identifier: MIT
// A push that grows from nothing: the first member at its end, the first wheel to lift, and where
// the vehicle can stand no longer.
#pragma once

#include <optional>
#include <string>

#include "solver/rest/stance.h"

namespace linkwright {

struct PushEnds {
  // First damper, coil, stop or strap at its end, "front damper left is fully open"; it holds from
  // there on.
  struct Member {
    double share;  // of the push asked about [-]
    std::string what;
  };
  struct Lift {
    double share;
    size_t wheel;  // 0 to 3
  };
  std::optional<Member> member;
  std::optional<Lift> lift;
  std::optional<double> over;  // share beyond which no standing position is near
  // `over` without `lift`: the body leans over while every wheel still carries, because what is
  // left of the roll stiffness no longer holds its mass; whether stops catch it is not followed.
};

//   rest     under the load and without a push, kRests
//   most     shares are looked at up to here;  first_only  or up to the first of the three
//   returns  each share met to kShareMet of `most`; `over` to kOverMet of it
//   source   docs/theory.md (88)
constexpr double kShareMet = 1e-9;
constexpr double kOverMet = 1e-6;
[[nodiscard]] PushEnds FollowPush(const Rig& rig, const Load& load, const Stance& rest,
                                  const Push& push, double most, bool first_only = false);

// A push and a share of it, members holding at their ends.
[[nodiscard]] Push ShareOf(const Push& push, double share);

// The stance under a push, found by letting it grow from the rest in steps as short as they must
// be.
//   returns   where none is found: the stance of another status that the last short step came to
[[nodiscard]] Stance PushedBy(const Rig& rig, const Load& load, const Stance& rest,
                              const Push& push);

// The member furthest past its end in a stance whose ends hold, described; absent where none is.
[[nodiscard]] std::optional<std::string> MemberAtEnd(const Rig& rig, const Stance& stance);

}  // namespace linkwright
