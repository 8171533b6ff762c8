// SPDX-License-Identifier: MIT
// What a finished vehicle is pointed at for: at rest under every load, and over its travel.
#pragma once

#include <string>
#include <vector>

#include "solver/rest/rig.h"
#include "solver/study/limits.h"
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
  kJointNearLimit,   // value: misalignment left [rad]; below 0: past its limit
  kJointEndsTravel,  // a joint's limit is the first end; value: travel [m] or roll [rad] there
  kTireNear,         // value: least gap to lip or panel [m]; below 0: so deep in
  kLeansInward,  // of the vehicle; value: sprung centre of mass above the roll axis [m], below 0
};

struct Warning {
  WarningKind kind;
  size_t axle;         // not looked at where it concerns the vehicle
  std::string member;  // display name; empty where it concerns the axle itself
  std::string load;    // name; empty where it is none's in particular
  double value, limit;
  std::string where = {};  // "at full bump"; empty where the kind says it all
};

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

// A load under which the vehicle finds no rest, and what is in the way.
struct NoRest {
  std::string load, message;
};

struct WarningReport {
  std::vector<Warning> warnings;
  std::vector<FightAtExtremes> fights;  // axles that more than four ways hold
  std::vector<GapAtLeast> gaps;
  std::vector<NoRest> unrested;
};

// Settles every load, sweeps bounce from the first that rests, and crosses the axles.
//   only     looks at this one of the vehicle's loads alone; null: at every one
//   least    with the nearest that a tyre comes to its opening; else the same warnings sooner, each
//            such with some gap below its limit
//   limits   of the first of those loads that rests (or of the measured stance), where they are
//            found already; null: found where they are wanted
//   errors   ModelError as SweepBounce
//   source   limits: io/read/format_aims.cc; what each value is: docs/theory.md (105)
[[nodiscard]] WarningReport FindWarnings(const Rig& rig, const Load* only = nullptr,
                                         bool least = true, const LimitsReport* limits = nullptr);

}  // namespace linkwright
