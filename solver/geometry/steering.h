// SPDX-License-Identifier: MIT
// What a housing's motion steers through the drag link, the steering wheel held.
#pragma once

#include <optional>

#include "solver/pose/motion.h"

namespace linkwright {

// A kingpin axis, in the housing frame.
struct KingpinAxis {
  Eigen::Vector3d p_AK;    // a point of it, in A [m]
  Eigen::Vector3d axis_A;  // pointing up (unit)
};

// The axis of one side (+1 left, -1 right). errors: ModelError without kingpin.at.
[[nodiscard]] KingpinAxis PrepareKingpin(const Axle& axle, const AxleFrame& frame, double side);

// Which of the two turns about a kingpin that keep a rod's length it is assembled on: the one where
// a turn to the left (+) parts the rod's ends or brings them together. A rod changes over only
// through a dead centre, where it stretches or folds in line with the knuckle's arm.
enum class Assembly { kParts, kCloses };

// How a rod is assembled, from where both its ends are with no turn, in A. Absent where it stands
// at a dead centre, parallel to the kingpin or in line with it: it then pushes the knuckle neither
// way.
[[nodiscard]] std::optional<Assembly> AssemblyOf(const KingpinAxis& pin,
                                                 const Eigen::Vector3d& p_AQ,
                                                 const Eigen::Vector3d& p_AP);

// Turn about `pin` that puts a point of its knuckle at a distance from a fixed point, all in A
// [rad].
//   returns  the root of that assembly, so that it follows a motion without a leap; absent out of
//            reach
//   source   docs/theory.md (29)
[[nodiscard]] std::optional<double> TurnToReach(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ,
                                                const Eigen::Vector3d& p_AP, double length,
                                                Assembly assembly);

// A point of a knuckle after a turn, in A [m].
[[nodiscard]] Eigen::Vector3d Turned(const KingpinAxis& pin, double turn,
                                     const Eigen::Vector3d& p_AQ);

// The spindle of a knuckle after a turn, to the left, in A (unit).
[[nodiscard]] Eigen::Vector3d SpindleOf(const KingpinAxis& pin, double turn);

// Heading against the chassis of a spindle whose knuckle has turned, left + [rad].
[[nodiscard]] double HeadingOf(const KingpinAxis& pin, double turn, const Eigen::Isometry3d& X_CA);

// Whether the drag link steers the left knuckle, or the right one.
[[nodiscard]] bool LeadsLeft(const Steering& steering);

// The steered knuckle on the side of the drag link's axle end, in the housing frame.
struct Knuckle {
  Eigen::Vector3d p_CP;  // pitman end of the drag link, fixed in C [m]
  Eigen::Vector3d p_AQ;  // knuckle end of the drag link, unsteered, in A [m]
  KingpinAxis pin;
  double length;                     // of the drag link [m]
  std::optional<Assembly> assembly;  // absent: it steers nothing
};

//   errors   ModelError without a drag link or kingpin.at. source: docs/theory.md (29)
[[nodiscard]] Knuckle PrepareKnuckle(const Axle& axle, const AxleFrame& frame);

// Angle by which the knuckle turns about its kingpin so that the drag link keeps its length, the
// root joined to 0 in the measured stance [rad]; absent where the drag link cannot reach, or stands
// at a dead centre in the measured stance.
[[nodiscard]] std::optional<double> KnuckleTurn(const Knuckle& knuckle,
                                                const Eigen::Isometry3d& X_CA);

// Heading of that wheel's spindle against the chassis, axle steer included, left + [rad].
[[nodiscard]] std::optional<double> SpindleHeading(const Knuckle& knuckle,
                                                   const Eigen::Isometry3d& X_CA);

// Steering with the steering wheel held, and how it changes as the housing moves.
struct HeldSteer {
  double turn;        // of the knuckle about its kingpin [rad]
  double heading;     // of its spindle against the chassis, left + [rad]
  double per_height;  // change of the heading per unit of travel [rad/m]
  double per_roll;    // and per unit of housing roll [rad/rad]
  double toe_in;      // of both wheels, against the measured stance, tie rod followed [rad]
};

// The exact derivatives: the drag link's length held, the pose's own derivatives in.
//   returns  absent where the drag link or the tie rod cannot reach, or the drag link stands
//   parallel
//            to its kingpin or in line with it, where no slope is finite
//   source   docs/theory.md (67), (68)
[[nodiscard]] std::optional<HeldSteer> SteerOf(const Axle& axle, const AxleFrame& frame,
                                               const Knuckle& knuckle, const HousingMotion& motion);

// The difference of both wheels' steer, inner less outer, at which their spindles' lines meet on
// the rear axle's line: what Ackermann asks for.
//   inner      steer of the inner wheel, no sign [rad];  spacing   of the kingpins [m]
//   source     docs/theory.md (68)
[[nodiscard]] double AckermannDifference(double inner, double spacing, double wheelbase);

// Both knuckles' turns when the left wheel's heading has changed by `hand` at a housing pose.
struct HandTurns {
  double left, right;  // about their kingpins [rad]
};

// The right knuckle follows through the tie rod, or turns alike without one.
//   returns  absent where the left wheel cannot reach that heading or the tie rod does not follow
//   source   docs/theory.md (54)
[[nodiscard]] std::optional<HandTurns> TurnByHand(const Axle& axle, const AxleFrame& frame,
                                                  const Eigen::Isometry3d& X_CA, double hand);

// The drag link when the steering wheel has turned its knuckle.
struct DragLinkFollowed {
  double pitman_travel;  // of its pitman end along the link, toward the knuckle + [m]
  bool over_centre;      // it has passed its knuckle arm's line and would turn it back
};

// Where the pitman end must go so that the drag link keeps its length, along the line from where it
// is with the steering wheel straight to the ball at the knuckle.
//   turns    of both knuckles at that housing pose
//   source   docs/theory.md (54)
[[nodiscard]] DragLinkFollowed FollowDragLink(const Axle& axle, const Knuckle& knuckle,
                                              const Eigen::Isometry3d& X_CA,
                                              const HandTurns& turns);

// TurnByHand with the steer given of the wheel inside the bend: of the left wheel where it is above
// 0, of the right one below. source: docs/theory.md (77)
[[nodiscard]] std::optional<HandTurns> TurnInside(const Axle& axle, const AxleFrame& frame,
                                                  const Eigen::Isometry3d& X_CA, double steer);

// Both knuckles' turns with the steering wheel held: one by the drag link, the other through the
// tie rod, or alike without one. Absent where a rod is out of reach. source: docs/theory.md (29)
[[nodiscard]] std::optional<HandTurns> TurnsHeld(const Axle& axle, const AxleFrame& frame,
                                                 const Eigen::Isometry3d& X_CA);

// How far the drag link is from the nearer end of its reach, stretched out or folded [m]; below 0
// where it cannot reach. source: docs/theory.md (70)
[[nodiscard]] double ReachLeft(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA);

}  // namespace linkwright
