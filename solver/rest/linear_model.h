// SPDX-License-Identifier: MIT
// Small motions about a stance: mass, damping and stiffness matrix of the sprung mass and both
// housings, from the same coordinates and the same energy that the stance came from.
#pragma once

#include <string>

#include <Eigen/Core>

#include "solver/rest/total_energy.h"

namespace linkwright {

// What the file need not give, and what is taken where it does not; all common practice.
struct RideGuesses {
  // Radius of gyration of the body in roll over the mean track. Fits of measured whole vehicles
  // (NHTSA database) give 0.41 to 0.44 at 1500 to 2000 kg with 1.5 m of track; less its axles, 0.4.
  double body_roll_gyration = 0.40;
  // Of an axle in roll over its track: half its mass in the wheels, half along the housing,
  // sqrt(1/2 (1/2)^2 + 1/2 (1/12)) = 0.408.
  double axle_roll_gyration = 0.408;
  // Sideways rate of a tyre over its vertical one: about half, from 0.4 to 0.7.
  double tire_lateral_share = 0.5;
};

// Every inertia the model uses, and which of them were guessed.
struct Inertias {
  double roll, pitch, yaw;     // of the sprung mass about its centre, axes of C [kg m2]
  std::array<double, 2> axle;  // of each unsprung mass about any line across its lateral axis
  bool roll_guessed, pitch_guessed;
  std::array<bool, 2> axle_guessed;
};

//   source   docs/theory.md (92)
[[nodiscard]] Inertias InertiasOf(const Rig& rig, const Stance& stance,
                                  const RideGuesses& guesses = {});

// What part of the vehicle's motion a piece of kinetic energy belongs to.
enum MotionPart {
  kBodyHeave,
  kBodyPitch,
  kBodyRoll,
  kBodySway,
  kBodyYaw,
  kFrontHop,
  kFrontTramp,
  kRearHop,
  kRearTramp
};

// "bounce", "front hop": what a mode is called.
[[nodiscard]] std::string ModeName(MotionPart part);
constexpr size_t kMotionParts = 9;

// The seven unknowns of a rest, and how far each axle's contact has gone to the left [m].
constexpr int kSwayFront = kRestUnknowns, kSwayRear = kRestUnknowns + 1;
constexpr int kModelUnknowns = kRestUnknowns + 2;

// M x'' + C x' + K x = 0 over the coordinates that are free at the stance: the nine, less one for
// each rigid tyre that stands and one for each axle whose tyres are rigid, which hold the floor
// sideways. Rolling fore and aft costs nothing and is eliminated.
struct LinearModel {
  Eigen::MatrixXd mass;                            // [kg, kg m, kg m2]
  Eigen::MatrixXd damping;                         // [N s/m ...]
  Eigen::MatrixXd stiffness;                       // [N/m ...]
  std::array<Eigen::MatrixXd, kMotionParts> part;  // of the mass matrix; they add up to it
  Eigen::Matrix<double, kModelUnknowns, Eigen::Dynamic> free;  // the nine per free coordinate
  // Of the sprung mass per free coordinate: rise of its centre, how far it goes left [m]; nose up,
  // left side up, turned left [rad].
  Eigen::RowVectorXd heave, sway, pitch, roll, yaw;
  bool damped;  // a damper has a rate
};

//   stance   at rest, without a push (kRests)
//   source   docs/theory.md (91) to (95)
[[nodiscard]] LinearModel Linearise(const Rig& rig, const Stance& stance, const Inertias& inertias,
                                    const RideGuesses& guesses = {});

}  // namespace linkwright
