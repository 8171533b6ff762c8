// SPDX-License-Identifier: MIT
// One driveshaft over everything its axle does: angles, plunge, cancelling, speed, wind-up, and
// what to turn so that its joints cancel at rest.
#pragma once

#include "solver/geometry/driveshaft.h"
#include "solver/rest/wind_up.h"
#include "solver/study/adjust/lengthen.h"
#include "solver/study/walk/walks.h"

namespace linkwright {

enum class ShaftPlaceKind {
  kFullDroop,
  kTravel,
  kRest,
  kFullBump,
  kRolledRightUp,  // the axle rolled against the body as far as it goes
  kRolledLeftUp,
  kLeftDrooped,  // one wheel as far down or up as it goes, the other as at rest
  kLeftBumped,
  kRightDrooped,
  kRightBumped,
  kUnderTorque,
};

// A shaft with its axle in one place.
struct ShaftPlace {
  ShaftPlaceKind kind;
  double travel;                    // of the housing centre against the stance [m]
  double length;                    // of the piece that slides [m]
  double plunge;                    // against the measured stance, + longer [m]
  std::optional<double> to_bottom;  // left before the slip joint bottoms [m]; below 0: it has
  std::optional<double> to_part;    // left before it comes apart [m]
  std::vector<JointParts> joints;   // output first
  double net_angle;                 // of the single joint that would run as unevenly [rad]
  double ripple;                    // [-]
  std::optional<double> torsional;  // greatest acceleration of the pinion at the speed [rad/s2]
  std::optional<double> inertial;   // of the shaft's pieces, driving or coasting [rad/s2]
};

constexpr double kFinder = kFinderShows;  // [rad] half a finder's sigma: less is not shown

// Where the pinion's yoke end is wanted at rest: pinion_low below the turn that leaves the least
// net angle, of turns that leave as little to within a finder the smallest.
struct PinionOrder {
  double turn;       // by which it has to come up [rad]
  double least;      // net angle at that least [rad]
  double net_angle;  // once it has come so far: `least`, unless it is wanted low [rad]
};

// Whether a finder shows what the order asks for: of a pinion that is wanted low the turn, else
// what it takes off the net angle at rest.
//   low   Driveshaft::pinion_low [rad]
//   now   net angle at rest [rad]
[[nodiscard]] bool Shows(const PinionOrder& order, double low, double now);

// One link, or both of a pair, turned until no turn of the pinion lowers the net angle at rest, and
// that angle is lower by more than a finder shows. Where the pinion is wanted low, both are judged
// with it raised by that.
struct LinkCure {
  LinkSet links;
  double by;         // + longer [m]
  double pinion;     // by which the pinion's yoke end then has come up [rad]
  double moved;      // of the housing centre at rest, forward + [m]
  ShaftPlace after;  // the shaft at rest then
};

// The phase of the piece at the axle at which the line runs most evenly at rest.
struct PhaseAdvice {
  double phase;      // as Driveshaft::phase has it, -pi/2 to pi/2 [rad]; half a turn on is the same
  double net_angle;  // then [rad]
};

// Where one part of the line points at rest.
struct ShaftSlope {
  double floor, chassis;  // falls from the output toward the axle + [rad]
};

struct ShaftReport {
  size_t shaft;                         // index into Vehicle::driveshafts
  std::optional<double> speed;          // of the output [rad/s]
  std::vector<ShaftPlace> travel;       // ascending; one of them kRest
  std::vector<ShaftPlace> extremes;     // rolled and one-wheel ends, where something sets them
  std::optional<LimitHit> droop, bump;  // absent: nothing in the file ends travel
  double low = 0.0, high = 0.0;         // travel of the rows, from and to [m]
  std::optional<double> front_length;   // of the front piece of a two-piece shaft [m]
  std::optional<double> angle_allowed;  // of a joint at that speed [rad]
  std::optional<PinionOrder> aim;       // absent where the pinion's joint is a double one
  std::vector<ShaftSlope> slopes;       // output, each piece, pinion
  std::optional<PhaseAdvice> phase;     // absent where no phase plays a part
  std::vector<LinkCure> cures;
  std::vector<std::string> no_cure;  // links that cannot do it by a length a shop can make; none
                                     // where no turn lowers the net angle by what a finder shows
  bool settled;                      // stands under a load: not geometry only
  std::optional<double> torque;      // asked for [N m]
  std::optional<WindUp> wind_up;     // absent without a torque, or where no balance was found
  std::optional<ShaftPlace> under_torque;
  std::optional<double> pinion_up;  // of its yoke end under torque [rad]
};

struct DrivelineRequest {
  const Load* load = nullptr;    // null: geometry only
  std::optional<double> speed;   // of every output [rad/s]; absent: each shaft's top speed
  std::optional<double> torque;  // at the driven axle's wheels together, forward + [N m]
  double step = 0.02;            // between rows of travel [m]
  bool cures = true;             // seek the links that would lower the net angle
};

// Every shaft of the vehicle, standing at rest.
//   walks      from `standing`, which is under the request's load
//   errors     ModelError as LineOf. source: docs/theory.md (55) to (66), (66a), (66b)
[[nodiscard]] std::vector<ShaftReport> ReportDriveline(const Walks& walks, const Standing& standing,
                                                       const DrivelineRequest& request);

// The row at rest, and the one that has the greatest of something.
[[nodiscard]] const ShaftPlace& AtRest(const ShaftReport& report);

// The one to turn: the first with an adjuster, else the first; null where no link does it.
[[nodiscard]] const LinkCure* CureToTurn(const ShaftReport& report);

// Every place that the housing can be in, for least and most.
[[nodiscard]] std::vector<ShaftPlace> AllPlaces(const ShaftReport& report);

// Greatest working angle of a joint at a speed [rad/s]: a driveline maker's table, between its
// lines by angle times speed, which it keeps nearly even.
//   source   docs/theory.md (63)
[[nodiscard]] double AngleAllowedAt(double speed);

// Of the joints of a line, output first.
[[nodiscard]] JointKind KindOf(const Driveshaft& shaft, size_t joint, size_t joints);

// "output", "centre bearing", "pinion".
[[nodiscard]] std::string JointName(size_t joint, size_t joints);

}  // namespace linkwright
