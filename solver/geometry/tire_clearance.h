// SPDX-License-Identifier: MIT
// How near a tyre comes to its opening's lip and to its inner panel.
//
// The tyre is a cylinder of its unloaded radius and its width about the wheel's spindle: no rounded
// shoulder, no flat on the floor. The lip is the upper half of a circle in side view, whose ends go
// straight down; the inner panel is a plane square to y.
#pragma once

#include <optional>

#include "solver/pose/axle_frame.h"

namespace linkwright {

// A solid cylinder.
struct TireSolid {
  Eigen::Vector3d p_CW;    // wheel centre, from Co, in C [m]
  Eigen::Vector3d axis_C;  // along the spindle, to the left (unit)
  double radius;           // [m]
  double half_width;       // [m]
};

// What is taken for the tyre's size.
struct TireShape {
  double radius, width;  // [m]
  bool radius_assumed;   // no radius in the file: the hub's measured height above the floor
  bool width_assumed;    // no width in the file: a disc
};
[[nodiscard]] TireShape ShapeOfTire(const Vehicle& vehicle, size_t axle);

// The tyre of one side (0 left, 1 right) with its housing at X_CA and its knuckle turned by `turn`
// about its kingpin [rad]; turn is not looked at without kingpin.at.
[[nodiscard]] TireSolid TireAt(const Axle& axle, const AxleFrame& frame, const TireShape& shape,
                               const Eigen::Isometry3d& X_CA, size_t side, double turn);

// Where on the tyre: its tread, one of its faces, or the edge between them. Inner is toward the
// vehicle's middle.
enum class TirePart { kTread, kOuterEdge, kInnerEdge, kOuterFace, kInnerFace };

// A closest approach.
struct TireGap {
  double distance;       // below 0: that deep inside [m]
  Eigen::Vector3d p_CT;  // the point of the tyre, from Co, in C [m]
  Eigen::Vector3d p_CB;  // the point of the body, from Co, in C [m]
  double around;         // of p_CT about the hub in side view, 0 ahead, + over the top [rad]
  TirePart part;
};

// Signed distance of a point to the solid, below 0 inside, with the nearest point of its surface.
//   source   docs/theory.md (74)
struct SolidDistance {
  double distance;
  Eigen::Vector3d nearest;
};
[[nodiscard]] SolidDistance DistanceToTire(const TireSolid& tire, const Eigen::Vector3d& p_C);

// Least gap between the tyre and its opening's lip; absent where the opening has no radius.
//   side     0 left, 1 right: the right lip is the left one's mirror image
//   returns  with lip_y: signed distance of the lip's curve to the solid; without: the lip is taken
//            to reach across the whole tyre, and the gap is that in side view
//   source   docs/theory.md (75)
[[nodiscard]] std::optional<TireGap> GapToLip(const TireSolid& tire, const Opening& opening,
                                              size_t side);

// Least gap between the tyre and the inner panel; absent where none is given. docs/theory.md (76)
[[nodiscard]] std::optional<TireGap> GapToPanel(const TireSolid& tire, const Opening& opening,
                                                size_t side);

// What a tape reads between tyre and opening with the wheel as it stands. Absent: no radius, or the
// hub stands where no such reading can be taken.
//   ahead, behind  level with the hub, from the tyre's foremost and rearmost point to the edge [m]
//   above          plumb over the hub, from the tyre's top to the edge [m]
//   in_lip         the lip's plane outside the tyre's outer face at hub height: + tyre inside [m]
struct TapeGaps {
  std::optional<double> ahead, behind, above, in_lip;
};
[[nodiscard]] TapeGaps TapeAround(const TireSolid& tire, const Opening& opening, size_t side);

}  // namespace linkwright
