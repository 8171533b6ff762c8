// SPDX-License-Identifier: MIT
// How it rides about a stance: rates, frequencies, the body's two modes, roll.
#pragma once

#include <optional>

#include "solver/geometry/floor.h"
#include "solver/rest/stance.h"

namespace linkwright {

// Per wheel, in bounce [N/m]: half the second derivative of the coils' and stops' energy.
[[nodiscard]] double WheelRate(const AxleEnergy& energy);

// The tyre in series [N/m]; a tyre without rate is rigid. source: docs/theory.md (40)
[[nodiscard]] double RideRate(double wheel_rate, const Tire& tire);

// Frequency of `mass` on the two ride rates of an axle [Hz]; absent unless both are positive.
[[nodiscard]] std::optional<double> RideFrequency(double ride_rate, double mass);

// Sprung mass that an axle carries in a stance: its wheel loads over g less its unsprung mass [kg].
[[nodiscard]] double SprungMassOn(const Rig& rig, const Stance& stance, size_t axle);

// Where the sprung centre of mass stands between the axles, horizontal along the heading of the
// chassis [m].
struct AxleArms {
  double behind_front, ahead_of_rear;
};
[[nodiscard]] AxleArms ArmsOf(const Stance& stance);

// The two modes of the sprung mass on both axles' ride rates.
struct BodyModes {
  double bounce, pitch;            // [Hz]
  double bounce_node, pitch_node;  // Z/theta of the centre of mass, nose up + [m/rad]
  bool inertia_assumed;            // no pitch inertia given: a dynamic index of 1
};

//   front, rear   ride rate of each axle, both wheels [N/m]
//   b, c          centre of mass behind the front axle, ahead of the rear one [m]
//   inertia       about y through the centre [kg m2]; absent: mass b c
//   returns       absent where a mode has no positive stiffness, or b c is not positive and no
//                 inertia is given
//   source        [Gillespie] ch. 5; docs/theory.md (42)
[[nodiscard]] std::optional<BodyModes> TwoModes(double front, double rear, double b, double c,
                                                double mass, std::optional<double> inertia);

// Roll stiffness of one axle by housing roll against the body, tyres not in it [N m/rad].
[[nodiscard]] double RollStiffness(const AxleEnergy& energy, const HousingMotion& motion);

// The same with both tyres in series: half the tyre rate times the track squared [N m/rad].
[[nodiscard]] double WithTires(double roll_stiffness, const Tire& tire, double track);

// Body roll per unit of lateral acceleration [rad/(m/s2)]; absent where the weight overturns it.
//   stiffness   both axles, tyres in series [N m/rad];  arm   centre of mass above roll axis [m]
//   source      handbook form, m d / (K - m g d); docs/theory.md (44)
[[nodiscard]] std::optional<double> RollGradient(double stiffness, double sprung_mass, double arm);

}  // namespace linkwright
