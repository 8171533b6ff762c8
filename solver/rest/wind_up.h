// SPDX-License-Identifier: MIT
// What drive torque does to a housing on its bushings.
#pragma once

#include "solver/rest/stance.h"

namespace linkwright {

struct WindUp {
  Pose free;                           // of the housing on its bushings without torque
  Pose wound;                          // with it
  std::vector<std::string> link_name;  // in the order of AxleFrame::links, legs of arms among them
  std::vector<double> link_force;      // wound [N]
};

// Where a housing goes when its wheels are driven: free in all six coordinates against its links'
// axial rates, coils, stops and anti-roll bar, the chassis held.
//   torque   at this axle's two wheels together, driving forward + [N m]; it pushes the vehicle
//            forward by torque / loaded radius, and that acceleration moves load between the axles
//   stance   at rest (kRests)
//   returns  absent where no balance is found: the torque turns the housing out of its links
//   source   docs/theory.md (66)
[[nodiscard]] std::optional<WindUp> WindUpUnder(const Rig& rig, const Stance& stance, size_t axle,
                                                double torque);

}  // namespace linkwright
