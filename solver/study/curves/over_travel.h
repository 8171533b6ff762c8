// SPDX-License-Identifier: MIT
// What only the travel shows beside its curves: how near two points come to one another, and what
// links that fight must take.
#pragma once

#include <string>
#include <vector>

#include "solver/study/walk/walks.h"

namespace linkwright {

// Two points whose distance matters, at their nearest over bounce and over roll.
struct GapAtLeast {
  size_t axle;
  std::string name;
  double rest;   // distance at rest [m]
  double least;  // [m]
  bool rolled;   // found in roll, not in bounce
  double at;     // travel of both wheels [m], or roll of the housing, left side up + [rad]
  double limit;  // [m]
};

// What links fighting one another must take at the crossed extremes: not a fault in itself, but
// what the joints have to be chosen for.
struct FightAtExtremes {
  size_t axle;
  double cross;         // the extreme [rad]
  std::string member;   // the one with the greatest force
  double force;         // [N]
  double twist;         // greatest of any joint of its links, arms and cranks [rad]
  double misalignment;  // the same [rad]
};

// Over what the walks' stance leaves both axles.
//   fights   of axles that more than four links hold
//   errors   ModelError as WalkAxle. source: docs/theory.md (105)
[[nodiscard]] std::vector<GapAtLeast> FindGaps(const Walks& walks);
[[nodiscard]] std::vector<FightAtExtremes> FindFights(const Walks& walks);

}  // namespace linkwright
