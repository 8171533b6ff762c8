// SPDX-License-Identifier: MIT
// Where a leaf spring holds its axle, from its shape. Side view, in the old frame's axes D.
#pragma once

#include <optional>

#include "solver/model/leaf.h"

namespace linkwright {

// Both eyes as seen from the centre bolt: x forward along the leaf there, z square to it, up [m].
struct LeafShape {
  Eigen::Vector2d p_BF;  // fixed eye
  Eigen::Vector2d p_BE;  // shackled eye
};

// The leaf bent to circular arcs of one curvature outside its clamped part.
//   curvature  + with the ends up [1/m]
//   source     docs/theory.md eq. (110); a leaf of uniform strength under equal moments at its
//   clamp
[[nodiscard]] LeafShape BendLeaf(const LeafSpring& spring, double curvature);

// Height of the eyes' line over the centre bolt [m], docs/theory.md eq. (111).
[[nodiscard]] double CamberOf(const LeafShape& shape);

// The curvature that gives a camber [1/m], docs/theory.md eq. (111).
//   returns   nothing where no leaf of that length has it with either end turned less than 90 deg
[[nodiscard]] std::optional<double> CurvatureFor(const LeafSpring& spring, double camber);

// Where the leaf lies on the frame.
struct LeafPose {
  double camber;         // [m]
  double curvature;      // [1/m]
  double eyes_apart;     // centre to centre, straight [m]
  Eigen::Vector2d p_DE;  // shackled eye, in D [m]
  Eigen::Vector2d p_DB;  // centre bolt, middle of the leaf, in D [m]
  Eigen::Vector2d p_DW;  // wheel centre, in D [m]
  double tilt;           // of the leaf at the centre bolt, front up + [rad]
  double shackle_lean;   // from upright, its eye end rearward + [rad]
  double swing;          // between shackle and the line of the eyes, 0 to pi/2 [rad]
};

// The pose of the leaf: its fixed eye on the frame's, its other eye on the shackle's circle.
//   returns   nothing where the shackle cannot reach the eye
//   shapes    3 unknowns (x, z, tilt of the clamp); 2 equations of the fixed eye, 1 of the shackle
//   source    docs/theory.md eq. (112) to (114); closed form
[[nodiscard]] std::optional<LeafPose> PoseLeaf(const LeafSpring& spring, double curvature);

// How far forward the axle moves from one curvature to another if the fixed half is replaced by a
// link of 3/4 its free length and the clamp does not tilt: the handbook's rule, as a check [m].
//   returns   nothing where the link is shorter than the rise
//   source    docs/theory.md eq. (117); SAE HS-788 from memory
[[nodiscard]] std::optional<double> LinkRule(const LeafSpring& spring, double curvature_from,
                                             double curvature_to);

}  // namespace linkwright
