// SPDX-License-Identifier: MIT
// What the links leave free and where they are too many, where they hold the housing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/pose/axle_frame.h"

namespace linkwright {

// A way the housing can move with no link, or hardly any link, changing its length.
struct FreeMotion {
  Eigen::Vector4d direction;  // x, y [m]; steer, pitch at half the track [m]; unit
  double held;                // link length change per unit of it [-]; 0: quite free
  std::string words;          // "can move sideways: nothing like a track bar holds it"
};

// What more links than motions do to one another as the housing moves off the measured stance.
struct LinkFight {
  size_t too_many;                     // links beyond the four motions they hold
  double bounce_rate;                  // strain energy's second derivative by height [N/m]
  double roll_rate;                    // and by roll [N m/rad]
  double bounce_link_force;            // greatest link force's change per unit of bounce [N/m]
  double roll_link_force;              // and of roll [N/rad]
  std::string bounce_name, roll_name;  // of those links
  size_t bounce_link, roll_link;       // which link that is, index into AxleFrame::links
};

struct Freedom {
  int rank;                        // of the n x 4 Jacobian
  std::vector<FreeMotion> free;    // held < kFree
  std::vector<FreeMotion> weak;    // kFree <= held < kWeak
  std::optional<LinkFight> fight;  // where the links are more than four and hold everything
};

// A link set that holds a direction with less than this is free in it: below it, the tape decides
// where the axle is, not the links.
constexpr double kFree = 1e-3;
// Nearly free: 1 mm of bush or tape error becomes 20 mm of axle.
constexpr double kWeak = 0.05;

//   at   the pose asked about: MeasuredPose
//   source: docs/theory.md (7), (8)
[[nodiscard]] Freedom AnalyseFreedom(const AxleFrame& frame, const Pose& at);
// The same where the tape found the housing.
[[nodiscard]] inline Freedom AnalyseFreedom(const AxleFrame& frame) {
  return AnalyseFreedom(frame, frame.measured);
}

// errors: ModelError at the axle's links where it is free to move, naming how; at the worst link
// where they lock it in bounce or roll: strain stiffer than kLocked of the softest link.
constexpr double kLocked = 0.25;
void RequireLocated(const Axle& axle, const AxleFrame& frame, const Pose& at);

}  // namespace linkwright
