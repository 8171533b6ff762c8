// SPDX-License-Identifier: MIT
// The motions beside bounce: roll, one wheel, crossed axles, steering at rest.
#pragma once

#include "solver/pose/arms.h"
#include "solver/pose/link_ends.h"
#include "solver/study/walk/grid.h"

namespace linkwright {

struct MotionRequest {
  MotionKind kind = MotionKind::kRoll;
  size_t wheel = 0;  // of kOneWheel: front left, front right, rear left, rear right
  GridOptions grid;  // in the parameter's unit
};

// One link in one row.
struct LinkRow {
  double strain_force;          // from links fighting one another, tension + [N]
  std::optional<double> force;  // with coils, stops and the housing's weight on it, tension + [N]
  LinkTurn turn;
};

struct MotionAxleRow {
  double lateral_shift;                  // against the row at 0, left + [m]
  double axle_steer;                     // [rad]
  double housing_pitch;                  // [rad]
  double housing_roll;                   // against the chassis, left up + [rad]
  double wheelbase_change;               // against the row at 0, + lengthens the wheelbase [m]
  double link_strain_force;              // greatest, no sign [N]
  std::array<Eigen::Vector3d, 2> wheel;  // left, right centre in C [m]
  std::array<std::optional<double>, 2> spring_length;  // left, right, mean of that side's coils [m]
  std::optional<double> steer;                         // road wheel on the drag link's side [rad]
  std::optional<double> steer_per_roll;                // its slope over housing roll [rad/rad]
  std::optional<double> toe_in;                        // change through the tie rod [rad]
  std::array<std::optional<double>, 2> hand;  // kSteer: left, right road wheel's steer [rad]
  std::optional<double> pitman_travel;  // kSteer: along the drag link, toward the knuckle + [m]
  std::vector<LinkRow> links;           // in the order of Axle::links
  std::vector<NamedJoint> arm_joints;   // of arms and cranks, as TurnsOfArms has them
  std::vector<MemberForce> arms;        // as ArmMemberNames has them; empty in a geometry-only file
  std::vector<MemberForce> arms_strain;  // the part that comes from links fighting one another
};

// Absent: an axle past its own end, and what needs it.
struct MotionRow {
  double parameter;
  std::optional<double> diagonal_travel;  // of the diagonals against each other: DiagonalTravel [m]
  std::array<std::optional<MotionAxleRow>, 2> axles;
};

struct MotionSweep {
  MotionRequest request;
  std::vector<MotionRow> rows;                       // ascending; one of them at 0
  std::array<std::optional<LimitHit>, 2> low, high;  // per axle
};

// The row at 0.
[[nodiscard]] const MotionRow& AtRest(const MotionSweep& sweep);

// Rows about the stance: each axle from the mean of its two wheels' travels, as in bounce, and as
// far as its own end.
//   walks    from a rest, or from the measured stance: geometry only
//   errors   ModelError as PrepareKnuckle; for kSteer where no axle steers
//   source   docs/theory.md (50) to (53), (71)
[[nodiscard]] MotionSweep SweepMotion(const Walks& walks, const MotionRequest& request);

}  // namespace linkwright
