// SPDX-License-Identifier: MIT
// What ends an axle's travel, and what is only watched on the way: each thing by its identity, its
// name, what it does to travel, and what is left of it at a pose.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <vector>

#include "solver/geometry/steering.h"
#include "solver/geometry/tire_clearance.h"
#include "solver/pose/motion.h"
#include "solver/pose/stop_cone.h"

namespace linkwright {

enum class LimitKind {
  kDamperClosed,   // at its shortest
  kDamperOpen,     // at its longest
  kCoilBound,      // at its solid length, or past the last point of its curve
  kStopSolid,      // past the last point of its curve
  kLinksStraight,  // the links cannot follow
  kDragLinkOutOfReach,
  kStrapTaut,  // at its length
  // Of a steering wheel that turns.
  kTieRodOutOfReach,
  kSteeringAtLock,
  kDragLinkOverCentre,
  // Watched beside the rows of a sweep.
  kCoilUnseated,   // longer than its free length
  kJointAtLimit,   // a link's joint at its misalignment limit
  kShaftBottomed,  // its spline pushed home
  kShaftParted,    // its spline pulled out
  kTireOnLip,      // the tyre at its opening's lip
  kTireOnPanel,    // the tyre at its inner panel
  kConeOffPad,     // a stop that would touch, but whose cone is beside its pad
};

// Which limit of one axle. Of two that are reached together the lower one comes first.
//   member   index among the axle's members of that kind (dampers, springs, bump_stops, straps,
//            links; Vehicle::driveshafts); 0 where there is one alone
//   side     of a tyre left 0, right 1; of a link's joints frame end 0, axle end 1; else 0
struct LimitId {
  LimitKind kind;
  size_t member = 0, side = 0;
  auto operator<=>(const LimitId&) const = default;
};

enum class LimitRole {
  kEndsRows,    // the axle goes no farther
  kEndsTravel,  // parts meet, part or bind: an end of travel, though rows of a sweep go on
  kPassed,      // told, and ends nothing
};

struct TravelLimit {
  LimitId id;
  std::string name;  // "damper left"; "lower arm left, frame end"
  std::string both;  // the same without its side: equal for twins on the two sides of an axle
  LimitRole role;
};

// The same on the two sides of an axle: "damper left", "damper right" closed.
[[nodiscard]] inline bool AreTwins(const TravelLimit& a, const TravelLimit& b) {
  return a.id.kind == b.id.kind && a.both == b.both;
}

// A member that is not to be shorter, or longer, than a length.
struct LengthLimit {
  TravelLimit limit;
  Eigen::Vector3d p_CP, p_AQ;         // its ends on the chassis, in C, and on the housing, in A [m]
  double end;                         // the length at which it ends [m]
  bool longest;                       // else shortest
  std::optional<StopCone> cone = {};  // of a stop, whose length is its cone's; absent: its ends'
};

// Left before the end, along the member [m]; below 0 past it. Of a stop the greater of that and of
// how far its cone is beside its pad, for only a cone on its pad can be past its end; infinite
// where it points away. Of kConeOffPad the greater of what is left before it touches and of how
// far it is inside the pad's rim.
[[nodiscard]] double LeftOf(const LengthLimit& limit, const Eigen::Isometry3d& X_CA);

// A stop's end at a length of its cone.
[[nodiscard]] LengthLimit StopLimit(TravelLimit limit, const Stop& stop, const AxleFrame& frame,
                                    double end);

// Dampers, straps, coils that bind and stops that go solid on their pads: what ends the rows of a
// sweep and holds a vehicle that is pushed that far.
[[nodiscard]] std::vector<LengthLimit> EndLengths(const Axle& axle, const AxleFrame& frame);

// What is watched of an axle, or counts as an end of its travel.
enum class Watch {
  kRows,         // what ends rows
  kAllButTires,  // everything else but the tyres in their openings too
  kAll,
};

// Whether a limit ends travel for someone who watches so.
[[nodiscard]] bool EndsFor(const TravelLimit& limit, Watch watch);

// Every limit of one axle that is watched. Refers to the vehicle and the frame, which must outlive
// it.
struct AxleLimits {
  const Vehicle* vehicle;
  size_t axle;
  const AxleFrame* frame;
  std::vector<TravelLimit> list;     // the lengths first, in their order
  std::vector<LengthLimit> lengths;  // coils off their seats, cones off their pads among them
  std::optional<Knuckle> knuckle;    // where the axle steers
  TireShape tire;
};

// A coil without keep_seated passes its end, as a cone that misses its pad does; whatever else is
// watched ends travel.
//   errors   ModelError as PrepareKnuckle. source: docs/theory.md (70)
[[nodiscard]] AxleLimits PrepareLimits(const Vehicle& vehicle, size_t axle, const AxleFrame& frame,
                                       Watch watch);

// What is left of each at a pose, in the order of the list: along the member [m], of a joint [rad];
// below 0 past its end. Absent where it cannot be told: tyres whose drag link does not reach.
[[nodiscard]] std::vector<std::optional<double>> LeftOfAll(const AxleLimits& limits,
                                                           const Eigen::Isometry3d& X_CA);

// The same of one alone, by its index in the list.
[[nodiscard]] std::optional<double> LeftOf(const AxleLimits& limits, size_t index,
                                           const Eigen::Isometry3d& X_CA);

// Whether a limit is a stop's whose cone is beside its pad at a pose: what is left is then nothing
// along the member.
[[nodiscard]] bool IsMissed(const AxleLimits& limits, size_t index, const Eigen::Isometry3d& X_CA);

// Whether what is left is an angle [rad] and no length.
[[nodiscard]] bool IsAngle(LimitKind kind);

// A place is past an end by more than this, so that a row exactly at an end is a row.
constexpr double kEndTolerance = 1e-9;  // [m], of a joint [rad]

// The one that is past its end by most; null where all hold.
[[nodiscard]] const LengthLimit* FarthestPast(const std::vector<LengthLimit>& limits,
                                              const Eigen::Isometry3d& X_CA);

// "damper left is fully open"
[[nodiscard]] std::string Describe(const TravelLimit& limit);

}  // namespace linkwright
