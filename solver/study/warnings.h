// SPDX-License-Identifier: MIT
// What a finished vehicle is pointed at for: at rest under every load, and over its travel.
#pragma once

#include <string>
#include <vector>

#include "solver/rest/rig.h"
#include "solver/study/sweep.h"

namespace linkwright {

enum class WarningKind {
  kCoilUnseats,      // value: squeeze left at full droop [m]; below 0: off its seat
  kCoilNearSolid,    // value: left before it is solid at full bump [m]
  kDamperEndsDroop,  // the damper is the stop; value: travel [m]
  kDamperEndsBump,
  kNoStop,           // an axle without bump stops
  kStopTakenRigid,   // value: how far its curve reaches, of its free length [-]
  kMockUpHeight,     // value: how far the wheel has moved in its opening [m]
  kNominalTire,      // value: flattened, of the radius [-]
  kOverRating,       // value: axle load [kg], limit: its rating
  kGapCloses,        // value: least distance [m]
  kNarrowTriangle,   // value: angle from above [rad]
  kCenterInsideOut,  // value: travel at which the instant centre passes through infinity [m]
  kPitches,          // value: turn over the travel [rad]
  kLinkSlopes,       // value: at rest [rad]
  kRollSteers,       // value: at rest [rad/rad]
  kRidesStiff,       // value: [Hz]
  kStopRaisesRate,   // the same, where a stop touches at rest and its rate is in it
  kSitsAskew,        // value: left travel less right [m]
  kShortBump,        // value: travel left [m]
  kLinksFight,       // value: force at a crossed extreme [N]
};

struct Warning {
  WarningKind kind;
  size_t axle;
  std::string member;  // display name; empty where it concerns the axle itself
  std::string load;    // name; empty where it is none's in particular
  double value, limit;
};

// What links fighting one another must take at the crossed extremes: not a fault in itself, but
// what the joints have to be chosen for.
struct FightAtExtremes {
  size_t axle;
  double cross;         // the extreme [rad]
  std::string member;   // the one with the greatest force
  double force;         // [N]
  double twist;         // greatest of any link's joint [rad]
  double misalignment;  // greatest of any link's joint [rad]
};

struct WarningReport {
  std::vector<Warning> warnings;
  std::vector<FightAtExtremes> fights;  // axles that more than four ways hold
};

// Settles every load, sweeps bounce from the first that rests, and crosses the axles.
//   errors   ModelError as SweepBounce
//   source   limits: io/read/format_limits.cc; what each value is: docs/theory.md (105)
[[nodiscard]] WarningReport FindWarnings(const Rig& rig);

}  // namespace linkwright
