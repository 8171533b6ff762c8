// SPDX-License-Identifier: MIT
// What a plan cuts and moves: the chassis cut or stretched, the body set elsewhere on it, spacers
// under the seats of coils and stops; and where each place of the vehicle goes then.
//   source   docs/theory.md (78a) to (78c)
#pragma once

#include <Eigen/Geometry>
#include <array>
#include <optional>

#include "solver/model/vehicle.h"

namespace linkwright {

// The body on the chassis: turned about the line across the vehicle at `about` on the floor of the
// measured stance, then moved.
struct BodyPlacing {
  Eigen::Vector2d move = Eigen::Vector2d::Zero();  // ahead, up [m]
  double pitch = 0.0;                              // nose up + [rad]
  double about = 0.0;                              // station, x in C [m]
};

// A length let into the chassis.
struct Stretch {
  double at = 0.0;  // station, x in C [m]; what is fixed to the chassis behind it goes back
  double by = 0.0;  // below 0: cut out [m]
};

// A chassis cut somewhere, and where its axles stood before.
struct Cut {
  Stretch stretch;
  std::array<double, 2> hub_x;  // of each axle, the mean of its wheels, in C [m]
};

[[nodiscard]] Cut CutOf(const Vehicle& vehicle, const Stretch& stretch);

// How far back something goes [m].
//   x     of a place on the chassis, or of a mass [m]
//   axle  goes with all that is on its housing where its hub is behind the cut
//   fixed_to   absent: of a mass of which is only known what it puts on each axle (78b)
[[nodiscard]] double ChassisBack(const Cut& cut, double x);
[[nodiscard]] double AxleBack(const Cut& cut, size_t axle);
[[nodiscard]] double MassBack(const Cut& cut, std::optional<FixedTo> fixed_to, double x);

// The body's way from where it was to where it is put, in C.
//   floor_z   of the floor in the measured stance [m]
[[nodiscard]] Eigen::Isometry3d BodyWay(const BodyPlacing& placing, double floor_z);

// What an item of a load goes along with where it does not say.
[[nodiscard]] inline FixedTo LoadGoesWith(const Mass& item) {
  return item.fixed_to.value_or(FixedTo::kBody);
}

// The vehicle with all its places where they then are. Body: openings, marks, the datum of the old
// frame, what is fixed_to it of the ledger's added items and of the loads.
[[nodiscard]] Vehicle Stretched(const Vehicle& vehicle, const Stretch& stretch);
[[nodiscard]] Vehicle WithBodyPlaced(const Vehicle& vehicle, const BodyPlacing& placing);

// The same of a load by itself.
[[nodiscard]] Load Stretched(const Load& load, const Cut& cut);
[[nodiscard]] Load WithBodyPlaced(const Load& load, const Eigen::Isometry3d& way);

// Moves the chassis seats of coils and stops toward the axle by what their spacers say; once, after
// all that is worked out from the places as measured.
void SeatOnSpacers(Vehicle& vehicle);

}  // namespace linkwright
