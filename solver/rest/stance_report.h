// SPDX-License-Identifier: MIT
// What a stance means to the person under the truck: every output of `settle`.
#pragma once

#include "solver/rest/ride.h"
#include "solver/rest/stance.h"

namespace linkwright {

struct AxleReport {
  double body_rise;  // of the chassis point that was at the housing centre when measured [m]
  std::optional<double> opening_ahead, opening_up;  // wheel against its opening's centre [m]
  double wheel_rate, ride_rate;                     // per wheel, each at its own travel [N/m]
  std::optional<double> ride_frequency;             // [Hz]
  double roll_stiffness;                            // tyres not in it [N m/rad]
};

struct StanceReport {
  double total_mass;     // [kg]
  Eigen::Vector3d cg_C;  // of the whole, unsprung masses where they stand, in C [m]
  double cg_height;      // above the floor [m]
  double rake, roll;     // [rad]
  PerWheel travel;       // along z of C, against the measured stance [m]
  PerWheel wheel_load;   // [N]
  double wheelbase_left, wheelbase_right;  // horizontal, along the chassis heading [m]
  std::array<AxleReport, 2> axles;
  std::optional<BodyModes> modes;       // absent where a ride rate or an arm is not positive
  double roll_axis_height;              // under the sprung centre of mass [m]
  double roll_arm;                      // sprung centre of mass above that axis [m]
  std::optional<double> roll_gradient;  // [rad/(m/s2)]; absent where the weight overturns it;
                                        // of the arm's sign
  std::vector<double> mark_heights;     // above the floor, in the order of Vehicle::marks [m]
};

// Both housings with each axle's wheels at the mean of their two travels: where a sweep starts.
[[nodiscard]] std::array<HousingMotion, 2> LevelMotion(const Rig& rig, const Stance& stance);

// Rates, frequencies and roll stiffness are taken with each wheel at its own travel.
//   stance   at rest (kRests). source: docs/theory.md (36) to (44)
[[nodiscard]] StanceReport ReportStance(const Rig& rig, const Stance& stance);

enum class ContactKind { kStopTouches, kConeOffPad, kCoilUnseated, kWheelLifted };

// Something that touches which need not, or has let go of what it should touch.
struct Contact {
  ContactKind kind;
  size_t axle;
  std::string member;  // "cone left"; for a wheel "left wheel"
  double deflection;   // of a stop; of one off its pad, where its axis meets the pad's plane, from
                       // the pad's point; the gap of a coil [m]; 0 for a wheel
  double force;        // of a stop [N]; else 0
};

// Whether a bump stop of an axle pushes in a stance: its rate is then in the axle's frequency.
[[nodiscard]] bool StopTouches(const Rig& rig, const Stance& stance, size_t axle);

[[nodiscard]] std::vector<Contact> ListContacts(const Rig& rig, const Stance& stance);

}  // namespace linkwright
