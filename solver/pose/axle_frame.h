// SPDX-License-Identifier: MIT
// An axle prepared for solving: its housing frame A, its links in it, and what a pose is.
#pragma once

#include <Eigen/Geometry>
#include <optional>
#include <string>
#include <vector>

#include "solver/model/vehicle.h"
#include "solver/pose/arm_give.h"
#include "solver/pose/crank.h"
#include "solver/pose/rotation.h"

namespace linkwright {

// A link with its housing end expressed in A; or what stands for one in the equations.
struct FrameLink {
  Eigen::Vector3d p_CP;   // chassis end, from Co, in C [m]
  Eigen::Vector3d p_AQ;   // housing end, from Ao, in A [m]
  double length;          // eye to eye, its own [m]
  double rate;            // axial [N/m]; of a coupled one, its own entry of the pair's stiffness
  std::string name = {};  // display name; of an arm's leg, "radius arm left second leg"
  std::vector<std::string> part = {};  // where it stands in the file, for a ModelError
  // Instead of the two ends above: a Watt's link's crank, or one of a radius arm's two ways.
  std::optional<FrameCrank> crank = {};
  std::optional<FrameArm> arm = {};
  size_t arm_way = 0;  // 0 along, 1 across
};

// The two ways in which one radius arm holds: their tensions hang together, because both pass
// through the same bushings. docs/theory.md (102)
struct Coupling {
  size_t first, second;  // indices into AxleFrame::links: along, across
  double rate;           // tension of the one by the other's stretch, near none [N/m]
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
  std::vector<FrameLink> links;  // in the order of Axle::links; then the legs of arms
  std::vector<Coupling> couplings = {};
};

// What the links hold at given stretches.
template <typename T>
struct LinkStrain {
  std::vector<T> tension;  // of each: the energy's derivative by its stretch [N]
  T energy{};              // of all [J]
};

template <typename T>
LinkStrain<T> StrainOf(const AxleFrame& frame, const std::vector<T>& stretch) {
  LinkStrain<T> strain;
  strain.tension.reserve(stretch.size());
  for (size_t i = 0; i < stretch.size(); ++i) {
    strain.tension.push_back(frame.links[i].rate * stretch[i]);
  }
  for (const Coupling& pair : frame.couplings) {
    const ArmStrain<T> arm =
        StrainOf<T>(*frame.links[pair.first].arm, {stretch[pair.first], stretch[pair.second]});
    strain.tension[pair.first] = arm.tension[0];
    strain.tension[pair.second] = arm.tension[1];
    strain.energy = strain.energy + arm.energy;
  }
  for (size_t i = 0; i < stretch.size(); ++i) {
    if (frame.links[i].arm) continue;
    strain.energy = strain.energy + 0.5 * (strain.tension[i] * stretch[i]);
  }
  return strain;
}

// Slope of a radius arm's two tensions by the two stretches [N/m].
[[nodiscard]] Eigen::Matrix2d StiffnessOf(const FrameArm& arm,
                                          const std::array<double, 2>& stretch);

// Slope of every tension by every stretch (n x n) [N/m].
[[nodiscard]] Eigen::MatrixXd LinkStiffness(const AxleFrame& frame,
                                            const std::vector<double>& stretch);

// errors: ModelError where the wheel centres coincide or a link has no length.
[[nodiscard]] AxleFrame PrepareAxle(const Axle& axle);

// A point that rides on the housing, from Co in C in the measured stance, expressed from Ao in A.
[[nodiscard]] Eigen::Vector3d OnHousing(const AxleFrame& frame, const Eigen::Vector3d& p_CQ);

// Centre of its left (0) or right (1) wheel, from Ao in A [m].
[[nodiscard]] Eigen::Vector3d WheelCentre(const AxleFrame& frame, size_t side);

// Length of a member from the chassis to the housing with the housing at X_CA [m].
[[nodiscard]] double LengthAt(const Span& span, const AxleFrame& frame,
                              const Eigen::Isometry3d& X_CA);

// Travels of both wheels along z of C, bump + [m].
struct Travels {
  double left = 0.0, right = 0.0;
};

// Height and roll of a housing in C [m, rad].
struct AxlePlace {
  double z, roll;
};

// The place that puts the wheels at travels from a mean travel against the measured stance [m].
//   returns  a roll that is not a number where no housing leans so far
//   source   docs/theory.md (2)
[[nodiscard]] AxlePlace PlaceAt(const AxleFrame& frame, double mean_travel, const Travels& wheels);

// The travels of a pose against the measured stance; inverse of PlaceAt.
[[nodiscard]] Travels TravelsOf(const AxleFrame& frame, const Pose& pose);

[[nodiscard]] Eigen::Isometry3d Transform(const Pose& pose);
[[nodiscard]] inline Rotation<double> RotationOf(const Pose& pose) {
  return HousingRotation(pose.steer, pose.roll, pose.pitch);
}

}  // namespace linkwright
