// SPDX-License-Identifier: MIT
// How the body leans about a stance: each axle's stiffness part by part, the roll axis under the
// body, and the handbook's load transfer from them.
#pragma once

#include <optional>

#include "solver/rest/stance.h"

namespace linkwright {

// Of one axle, by housing roll against the body, each wheel at its own travel [N m/rad].
struct RollParts {
  double coils, stops, bar, strain;
  double suspension;            // the sum of the four
  std::optional<double> tires;  // both tyres at their track; absent where they are rigid
  double whole;                 // suspension and tyres in series
};

//   source   docs/theory.md (80)
[[nodiscard]] RollParts SplitRollStiffness(const Rig& rig, const Stance& stance, size_t axle);

// Coils by the handbook: each one's rate times its distance from the middle of the housing squared,
// which for two is half the rate times their spacing squared.
struct CoilSpread {
  double spacing;    // between the outermost housing seats, along the housing [m]
  double stiffness;  // [N m/rad]
};

//   returns   absent where the axle has no coil.  source   docs/theory.md (81)
[[nodiscard]] std::optional<CoilSpread> SpreadOfCoils(const Rig& rig, const Stance& stance,
                                                      size_t axle);

// The roll axis as the sweep has it at travel 0: in side view, each axle at the mean of its two
// travels.
struct RollGeometry {
  std::array<double, 2> roll_center;  // above the floor [m]
  std::array<double, 2> roll_steer;   // per unit of body roll, left + [rad/rad]
  double axis_height;                 // under the sprung centre of mass [m]
  double axis_slope;                  // rising toward the front + [rad]
  double arm;                         // sprung centre of mass above the axis [m]
};

//   source   docs/theory.md (24) to (26)
[[nodiscard]] RollGeometry RollGeometryOf(const Rig& rig, const Stance& stance);

// What one axle moves from one wheel to the other by the handbook, + from left to right [N].
struct HandbookTransfer {
  double sprung;       // at the roll centre, straight through the links
  double unsprung;     // the axle's own mass
  double roll_moment;  // through coils, stops, bar
  double total;
};

// What the handbook wants to know of one axle.
struct TransferInputs {
  double sprung_mass, unsprung_mass;    // on it [kg]
  double roll_center, unsprung_height;  // above the floor [m]
  double roll_stiffness;                // tyres in series [N m/rad]
  double track;                         // [m]
};

//   lateral, roll   acceleration to the left [m/s2]; of the body, left side up [rad]
//   source          [Barton] p. 174; docs/theory.md (86)
[[nodiscard]] HandbookTransfer TransferOfAxle(const TransferInputs& axle, double lateral,
                                              double roll);

//   lateral    acceleration to the left [m/s2]
//   returns    absent where the weight overturns the roll stiffness
//   source     [Barton] p. 174; docs/theory.md (86)
[[nodiscard]] std::optional<std::array<HandbookTransfer, 2>> TransferByHandbook(const Rig& rig,
                                                                                const Stance& rest,
                                                                                double lateral);

}  // namespace linkwright
