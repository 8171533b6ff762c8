// SPDX-License-Identifier: MIT
// The curves over travel: everything that follows from both axles' poses, row by row.
#pragma once

#include <optional>

#include "solver/geometry/driveshaft.h"
#include "solver/geometry/side_view.h"
#include "solver/rest/stance.h"
#include "solver/study/walk/grid.h"

namespace linkwright {

// One axle in one row. Absent values: the file lacks what they need, or they have no meaning there:
// slopes where its links line up.
struct AxleRow {
  double wheelbase_change;                          // + lengthens the wheelbase [m]
  double lateral_shift;                             // left + [m]
  double axle_steer;                                // [rad]
  double housing_pitch;                             // [rad]
  std::optional<double> pinion_angle;               // to the floor [rad]
  std::optional<double> caster;                     // to the floor [rad]
  std::optional<InstantCenter> instant_center;      // floor axes [m]
  std::optional<double> anti_drive;                 // rear anti-squat, front anti-lift [-]
  std::optional<double> anti_brake;                 // front anti-dive, rear anti-lift [-]
  std::optional<double> roll_center_height;         // [m]
  std::optional<double> roll_steer;                 // [rad/rad]
  std::optional<double> spring_length;              // mean of the coils [m]
  std::optional<double> spring_force;               // mean of the coils [N]
  std::optional<double> wheel_rate, ride_rate;      // per wheel [N/m]
  std::optional<double> ride_frequency;             // [Hz]
  std::optional<double> rest_frequency;             // [Hz]
  std::optional<double> link_strain_force;          // greatest, no sign [N]
  std::optional<double> opening_ahead, opening_up;  // wheel against its opening's centre [m]
  std::optional<double> steer;                      // road wheel, with a drag link [rad]
  std::optional<double> steer_rate;                 // its slope over travel [rad/m]
  std::optional<double> toe_in;                     // change through the tie rod [rad]
};

// Absent: an axle past its own end, and what needs it.
struct SweepRow {
  double travel;                           // [m]
  std::optional<double> wheelbase;         // along the floor [m]
  std::optional<double> wheelbase_change;  // [m]
  std::optional<double> roll_axis_height;  // [m]
  std::optional<double> roll_axis_slope;   // [rad]
  std::array<std::optional<AxleRow>, 2> axles;
  std::vector<std::optional<DriveshaftState>> driveshafts;  // in the order of Vehicle::driveshafts
};

using SweepOptions = GridOptions;  // travels [m]

struct Sweep {
  std::optional<Stance> stance;  // absent: geometry only, about the measured stance
  std::optional<size_t> axle;    // rows of this one alone, nothing of the whole vehicle
  std::vector<SweepRow> rows;    // ascending travel; one of them at 0
  std::array<std::optional<LimitHit>, 2> droop,
      bump;  // per axle; absent: none within the range looked at
};

// The row at 0.
[[nodiscard]] const SweepRow& AtRest(const Sweep& sweep);

// Bounce: t is added to both wheels of every axle along z of C, each as far as its own end.
//   walks    from a rest (status kRests), or from the measured stance: geometry only
//   errors   ModelError as PrepareRig's callers; none for travel out of reach: rows end there
//   source   docs/theory.md (20) to (31), (40), (41)
[[nodiscard]] Sweep SweepBounce(const Walks& walks, const SweepOptions& options);

}  // namespace linkwright
