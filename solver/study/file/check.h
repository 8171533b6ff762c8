// SPDX-License-Identifier: MIT
// Is the vehicle sound: what the links hold, what the coils carry against the scales, what differs
// from left to right.
#pragma once

#include "solver/pose/arms_at.h"
#include "solver/pose/freedom.h"
#include "solver/rest/rig.h"

namespace linkwright {

// One coil in the measured stance.
struct CoilCheck {
  size_t axle;
  std::string member;
  double length;  // seat to seat [m]
  std::optional<double>
      free_length;                 // [m]; absent: weighed, and not to be had while an axle is free
  std::optional<double> force;     // [N]
  double rate;                     // at that length [N/m]
  std::optional<double> to_solid;  // left before it is bound [m]
};

// What the coils and stops carry in the measured stance, and what the scales said.
struct WeightCheck {
  double by_coils;                    // with the unsprung mass [kg]
  std::optional<double> by_scales;    // as weighed; absent without a ledger [kg]
  std::optional<double> tire_height;  // unloaded radius less deflection under that weight [m]
  double measured_height;             // wheel centre above the floor, mean of the two [m]
};

// Two members, or two wheels, that are no mirror images.
struct Mismatch {
  size_t axle;
  std::string what;  // "upper arm, axle end"
  double distance;   // between one and the other's mirror image [m]
};

// One arm where the arms together hold the housing at its measured height.
struct ArmCheck {
  size_t axle;
  ArmAt arm;
};

struct AxleCheck {
  // Where the arms hold the housing less where it was measured: ahead, left [m]; steer, left +, and
  // pitch, nose up + [rad]. None where every arm fits its holes, or where they cannot be put
  // together.
  Pose moved;
  size_t links =
      0;  // constraints on the housing: links, two a leg for an arm, one for a Watt's link
  Freedom freedom;
  std::optional<WeightCheck> weight;  // absent in a geometry-only file
};

struct CheckReport {
  std::array<AxleCheck, 2> axles;
  std::vector<ArmCheck> arms;
  std::vector<CoilCheck> coils;
  std::vector<Mismatch> mismatches;  // greater than Aims::mirror
};

// Needs frames only, so that it also reports on links that leave an axle free.
//   errors   ModelError where an axle cannot be prepared (a link of no length)
//   source   docs/theory.md (7), (8), (15)
[[nodiscard]] CheckReport CheckVehicle(const Vehicle& vehicle);

}  // namespace linkwright
