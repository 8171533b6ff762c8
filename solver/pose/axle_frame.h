// SPDX-License-Identifier: MIT
// An axle prepared for solving: its housing frame A, its links in it, and what a pose is.
#pragma once

#include <Eigen/Geometry>
#include <vector>

#include "solver/model/vehicle.h"

namespace linkwright {

// A link with its housing end expressed in A.
struct FrameLink {
  Eigen::Vector3d p_CP;  // chassis end, from Co, in C [m]
  Eigen::Vector3d p_AQ;  // housing end, from Ao, in A [m]
  double length;         // eye to eye, as measured [m]
  double rate;           // axial [N/m]
};

// Where the housing is. Ao is its centre, midway between the wheel centres; A's y axis runs from
// the right wheel centre to the left one, its x axis is level in the measured stance.
struct Pose {
  double x = 0.0, y = 0.0;  // of Ao in C [m]; unknown
  double steer = 0.0;       // heading of A's y axis, left + [rad]; unknown
  double pitch = 0.0;       // about A's y axis, nose up +, 0 in the measured stance [rad]; unknown
  double z = 0.0;           // of Ao in C [m]; given
  double roll = 0.0;        // elevation of A's y axis, left up + [rad]; given
};

struct AxleFrame {
  Pose measured;
  double track;                  // between the wheel centres [m]
  Eigen::Isometry3d X_CA;        // in the measured stance
  std::vector<FrameLink> links;  // in the order of Axle::links
};

// errors: ModelError where the wheel centres coincide or a link has no length.
[[nodiscard]] AxleFrame PrepareAxle(const Axle& axle);

// A point that rides on the housing, from Co in C in the measured stance, expressed from Ao in A.
[[nodiscard]] Eigen::Vector3d OnHousing(const AxleFrame& frame, const Eigen::Vector3d& p_CQ);

// Height and roll that put the wheels at travels along z of C against the measured stance [m].
//   returns  a pose guess: z and roll set, the four unknowns as in `guess`
//   errors   none; |left - right| must be less than the track. source: docs/theory.md (2)
[[nodiscard]] Pose AtTravels(const AxleFrame& frame, double left, double right, const Pose& guess);

// The travels of a pose, left and right [m]; inverse of AtTravels.
struct Travels {
  double left, right;
};
[[nodiscard]] Travels TravelsOf(const AxleFrame& frame, const Pose& pose);

[[nodiscard]] Eigen::Isometry3d Transform(const Pose& pose);

}  // namespace linkwright
