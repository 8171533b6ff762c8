// SPDX-License-Identifier: MIT
// The natural motions of a linear model: frequencies, shapes, damping, and a name for each.
#pragma once

#include <optional>
#include <vector>

#include "solver/rest/linear_model.h"
#include "solver/rest/ride.h"

namespace linkwright {

struct Mode {
  MotionPart part;        // whose motion it mostly is
  double share;           // of its kinetic energy in that part, undamped [-]
  double undamped;        // [Hz]
  double natural;         // with dampers: |root| / 2 pi [Hz]
  double damped;          // frequency it swings at, 0 where it creeps back [Hz]
  double damping;         // ratio; 1 and more: it does not swing [-]
  Eigen::VectorXd shape;  // undamped, in the model's free coordinates
};

// All modes, in the order of MotionPart. A rigid axle has no hop and no tramp.
//   model     its stiffness positive definite
//   naming    each name once. Kinetic energy tells the body's two in side view, its three sideways,
//             each axle's hop and tramp apart. In side view the one with the greater |heave /
//             pitch| is heave, if equal the lower one. Sideways the one that rolls most for how far
//             the tyres give sideways is roll; of the others the one with the greater |sway / yaw|
//             is sway.
//   damping   roots of the whole model with its damping matrix; each pair is given to the undamped
//             mode that it is most alike in kinetic energy
//   returns   empty where the stiffness is not positive definite
//   source    docs/theory.md (95) to (97)
[[nodiscard]] std::vector<Mode> FindModes(const LinearModel& model);

// Gives the two in side view the names that a two-degree body's have: each is paired with the one
// it is more alike, in the kinetic energy of heave and pitch.
//   gyration   radius of, of the body in pitch [m]
//   source     docs/theory.md (96)
void NameAsBody(const LinearModel& model, const BodyModes& two, double gyration,
                std::vector<Mode>& modes);

// Rise of the sprung centre of mass per nose-up turn of the body in a mode [m/rad]; infinite where
// the body does not turn. The body is still at minus this ahead of the centre.
[[nodiscard]] double HeavePerPitch(const LinearModel& model, const Mode& mode);

}  // namespace linkwright
